"""`sittings/<date>.yml`: what several runs of one day shared, and those runs."""

from __future__ import annotations

from pydantic import ConfigDict, Field

from generator.records.header import QUANTITY_OF
from generator.records.schema.base import AnyNode, FileRecord
from generator.records.schema.days import Day
from generator.records.schema.fields import Text
from generator.records.schema.originals import Original
from generator.records.schema.readings import Readings
from generator.records.schema.references import Binding, Bound, ColumnKey, RunKeyText
from generator.records.schema.run import RunBody, ZeroCheck


class SittingRun(RunBody):
    """One run of a sitting. Further keys bind its own columns, as `temperature@body: logger-1/CH3`."""

    model_config = ConfigDict(extra="allow")

    __pydantic_extra__: dict[str, Bound]

    @classmethod
    def takes(cls, key: str) -> bool:
        """Whether a key may stand in it: its own, and those that name columns."""
        return super().takes(key) or "@" in key or key in QUANTITY_OF

    @property
    def own(self) -> dict[str, Binding]:
        """The run's own columns and the meters that read them."""
        return dict(self.__pydantic_extra__ or {})


class Sitting(FileRecord):
    """Several runs on one bench at one time; the id is the file's name, a date."""

    date: Day = Field(description="the day")
    place: Text | None = Field(None, description="where it was done")
    instruments: dict[ColumnKey, Bound] = Field(
        default_factory=dict, description="shared columns and their meters"
    )
    conditions: dict[Text, AnyNode] = Field(
        default_factory=dict, description="conditions that all runs shared"
    )
    zero_check: ZeroCheck | None = Field(None, description="probes side by side without current")
    runs: dict[RunKeyText, SittingRun] = Field(
        min_length=1, description="the runs, as `okvarn-ih30:A`, or `control`"
    )
    readings: Readings | None = Field(
        None, description="a table, or the name of a CSV file beside the sitting"
    )
    originals: tuple[Original, ...] = Field(
        (), description="the meters' own files that the readings are from"
    )
