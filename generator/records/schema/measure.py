"""What every measure of a method has, whatever its kind."""

from __future__ import annotations

from pydantic import Field

from generator.records.schema.base import Record
from generator.records.schema.fields import FromOne, Id, Text
from generator.records.schema.measured import Spread


class DeclaredSpread(Record):
    """Spread between pieces that the method declares, for one piece of an item."""

    value: Spread = Field(description="standard deviation between pieces")
    origin: Text = Field(description="where it comes from: which report, how many pieces")
    freedom: FromOne = Field(description="its degrees of freedom: pieces less items, in that report")


class MeasureBase(Record):
    """What every measure has."""

    id: Id = Field(description="its id, used in reports")
    name: Text | None = Field(None, description="its name on pages; the id where left out")
