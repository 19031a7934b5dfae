"""`<report>/editions/<n>.yml`: a report as published on a date; written by `provebook publish` alone."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from generator.records.schema.base import AnyNode, FileRecord, Record
from generator.records.schema.days import Day
from generator.records.schema.fields import Id, Text, Whole, Words
from generator.records.schema.measured import AnyQuantity, WidthOrUnknown

Reason = Literal["retest", "correction", "addition", "wording", "withdrawal"]


class PublishedFigure(Record):
    """A main figure as it was published."""

    item: Id = Field(description="id of the item")
    stock: Id | None = Field(None, description="stock of the pieces")
    measure: Id = Field(description="id of the measure")
    value: AnyQuantity | None = Field(None, description="the figure, where there was one")
    uncertainty: WidthOrUnknown | None = Field(None, description="half-width at 95 %")
    outcome: Text = Field(description="the outcome in its word")
    pieces: Whole = Field(description="how many pieces")


class Program(Record):
    """What computed the figures."""

    version: Text = Field(description="version of provebook")
    libraries: dict[Text, Text] = Field(default_factory=dict, description="versions that decide figures")


class Edition(FileRecord):
    """One edition; its number is the file's name."""

    date: Day = Field(description="the day of publishing")
    reason: Words[Reason] | None = Field(None, description="why there is a new edition; edition 1 has none")
    summary: Text | None = Field(None, description="what changed, in a sentence")
    authorised_by: Text = Field(description="who authorised it")
    program: Program = Field(description="what computed the figures")
    content: dict[Text, AnyNode] = Field(description="copy of what keeps changing, as known that day")
    rests_on: dict[Text, Text] = Field(description="what never changes, each with its fingerprint")
    figures: tuple[PublishedFigure, ...] = Field((), description="main figures as published")

    @property
    def number(self) -> int:
        """The edition's number, from the file's name."""
        return int(self.id)
