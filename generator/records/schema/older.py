"""`older/<batch>.yml`: results from before, one row a figure."""

from __future__ import annotations

from pydantic import Field

from generator.records.schema.base import FileRecord, Record
from generator.records.schema.days import PartDay
from generator.records.schema.fields import FromOne, Id, Text
from generator.records.schema.measured import AnyQuantity, Temperature, Time, WidthOrUnknown


class OlderResult(Record):
    """One figure from before; `uncertainty: unknown` is a value and not a blank."""

    item: Id = Field(description="id of the item")
    date: PartDay = Field(description="when; a year or a month will do")
    measure: Id = Field(description="id of the measure it is nearest to")
    value: AnyQuantity = Field(description="the figure with its unit")
    uncertainty: WidthOrUnknown = Field(description="half-width at 95 %, or `unknown`")
    air: Temperature | None = Field(None, description="air at the time")
    at: Time | None = Field(None, description="how long the run was when it was read")
    pieces: FromOne | None = Field(None, description="how many pieces")
    meter: Text | None = Field(None, description="the meter used")
    published: Text | None = Field(None, description="where it was first published")


class OlderBatch(FileRecord):
    """Years of spreadsheets, brought in at once."""

    title: Text = Field(description="what these results are")
    method: Text = Field(description="how they were had, in words")
    results: tuple[OlderResult, ...] = Field(min_length=1, description="the figures")
