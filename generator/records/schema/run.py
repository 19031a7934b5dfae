"""`<report>/runs/<id>.yml`: one method, once, on one piece, on one day."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import ConfigDict, Field
from pydantic.json_schema import JsonSchemaValue

from generator.records.schema.base import AnyNode, FileRecord, Record
from generator.records.schema.days import Day
from generator.records.schema.fields import FileName, FromOne, Id, PieceId, RunName, Text, Words
from generator.records.schema.measured import Length, Time, Torque
from generator.records.schema.optics import InfraredSettings
from generator.records.schema.originals import Original
from generator.records.schema.readings import Readings
from generator.records.schema.references import Bound, ColumnKey, Count, MethodVersion

OF_A_CORRECTION = ("corrects", "because")
"""Keys that say which run a run corrects, and why; no other run takes them over."""

ITEM_CAUSES = ("stop limit", "smoke", "part failed")
"""Why a run was stopped, where it is the part's own doing."""


class Termination(Record):
    """How this piece was connected; the hand is often the largest spread."""

    number: FromOne = Field(1, description="1 for the first on this piece, 2 after making it anew")
    strip: Length | None = Field(None, description="length of bare conductor")
    insertion: Length | None = Field(None, description="how far the conductor went in")
    torque: Torque | None = Field(None, description="torque of the screw")
    tool: Text | None = Field(None, description="the tool used")


class Event(Record):
    """Something that happened during the run."""

    at: Time = Field(description="when, from the start of the run")
    what: Text = Field(description="what happened")


class Stopped(Record):
    """A run that ended before its schedule."""

    at: Time = Field(description="when, from the start of the run")
    because: Words[Literal["stop limit", "smoke", "part failed", "rig", "other"]] = Field(
        description="stop limit, smoke or part failed where it is the part's doing; else rig or other"
    )
    note: Text | None = Field(None, description="what was seen")

    @property
    def cause(self) -> Literal["item", "rig"]:
        """Whose doing it was."""
        return "item" if self.because in ITEM_CAUSES else "rig"


class Observation(Record):
    """An answer to a question that the method asks."""

    check: Id = Field(description="id of the check in the method")
    answer: Words[Literal["yes", "no", "could not tell"]] = Field(description="yes, no or could not tell")
    note: Text | None = Field(None, description="what was seen")
    photo: FileName | None = Field(None, description="a photo that shows it")


class Opinion(Record):
    """What the reviewer thinks, with what it rests on; never among the results."""

    item: Id | None = Field(None, description="the item it is about")
    text: Text = Field(description="the opinion")
    basis: tuple[Text, ...] = Field(min_length=1, description="what it rests on: photos, runs, checks")


class ZeroCheck(Record):
    """Probes side by side without current."""

    pairs: FromOne = Field(description="how many pairs of readings, five or more")
    columns: tuple[Text, ...] = Field(min_length=2, description="which columns were side by side")
    table: Readings = Field(description="the readings, or the name of a CSV file that holds them")


class LeftOut(Record):
    """A reading of a corrected run that counts for nothing."""

    at: Time | None = Field(None, description="the time of its row")
    row: FromOne | None = Field(None, description="which row of the table, where that has no times; from 1")
    because: Text = Field(description="why it counts for nothing")


class RunBody(FileRecord):
    """What a run file and an entry of a sitting have in common."""

    method: MethodVersion = Field(description="method and version, as `closed-box-heating/2`")
    control: Id | None = Field(None, description="name of the control, in place of item and specimen")
    termination: Termination | None = Field(None, description="how the piece was connected")
    lead: Length | None = Field(
        None, description="how much lead lay between the probe points, where that is not the method's length"
    )
    heating: FromOne | None = Field(
        None,
        description="which heating of the piece this was, where it had been heated before: 2 for the second;"
        " left out, its report's runs of it are counted by their days",
    )
    conditions: dict[Text, AnyNode] = Field(
        default_factory=dict, description="the method's conditions as they were, `ambient` and `air-measured`"
    )
    values: dict[Id, AnyNode] = Field(default_factory=dict, description="measure to value, as `pull: 388 N`")
    counts: dict[Id, Count] = Field(
        default_factory=dict,
        description="measure to count: `opened: 0 of 50`; of endurance `broke at 1200`, or `over 2000`",
    )
    events: tuple[Event, ...] = Field((), description="what happened, with times")
    stopped: Stopped | None = Field(None, description="where the run ended before its schedule")
    observations: tuple[Observation, ...] = Field((), description="answers to the method's checks")
    opinions: tuple[Opinion, ...] = Field((), description="what you think, with its basis")
    deviations: tuple[Text, ...] = Field((), description="what was done otherwise than the method says")
    additions: tuple[Text, ...] = Field((), description="what was done beyond the method")
    made_by: Text | None = Field(None, description="who made this run, where it was not you")
    infrared: InfraredSettings | None = Field(
        None, description="where an infra-red meter read the temperature"
    )


def _or_corrects(schema: JsonSchemaValue) -> None:
    """To an editor: a run has all that a run needs, or it corrects another and takes the rest from there."""
    schema["anyOf"] = [{"required": [OF_A_CORRECTION[0]]}, {"required": schema.pop("required")}]


class RunRecord(RunBody):
    """A run as typed in a file of its own; the id is the file's name."""

    model_config = ConfigDict(json_schema_extra=_or_corrects)

    first_keys: ClassVar[tuple[str, ...]] = (
        "method",
        "item",
        "specimen",
        "control",
        "date",
        "place",
        "termination",
        "instruments",
        "conditions",
        "readings",
    )

    item: Id | None = Field(None, description="id of the item; a control has none")
    specimen: PieceId | None = Field(None, description="which piece")
    date: Day = Field(description="the day of the run")
    place: Text | None = Field(None, description="where it was done")
    instruments: dict[ColumnKey, Bound] = Field(
        default_factory=dict, description="column to meter, as `temperature@body: logger-1/CH3`"
    )
    readings: Readings | None = Field(None, description="a table, or the name of a CSV file beside the run")
    zero_check: ZeroCheck | None = Field(None, description="probes side by side without current")
    originals: tuple[Original, ...] = Field(
        (), description="the meters' own files that the readings are from"
    )
    corrects: RunName | None = Field(
        None, description="the published run that this one corrects: all that it does not say is as there"
    )
    because: Text | None = Field(None, description="what was wrong with the run that it corrects")
    leave_out: tuple[LeftOut, ...] = Field(
        (), description="readings of the corrected run that count for nothing, as `{at: 20 min, because: …}`"
    )
