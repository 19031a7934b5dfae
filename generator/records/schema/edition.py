"""`<report>/editions/<n>.yml`: a report as published on a date; written by `provebook publish` alone."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from generator.records.schema.base import AnyNode, FileRecord, Record
from generator.records.schema.days import Day
from generator.records.schema.fields import FromOne, Id, RunName, Text, Whole, Words, matching

Reason = Literal["retest", "correction", "addition", "wording", "withdrawal"]
"""Why a report was published anew."""

Fingerprint = Annotated[
    str, matching(r"[1-9]\d?:[0-9a-f]{64}", "a fingerprint", "its algorithm, `:` and 64 of 0 to 9 and a to f")
]


class PublishedFigure(Record):
    """A figure as it was published: of an item by a measure, or what was counted or asked in its place."""

    item: Id = Field(description="id of the item")
    measure: Id = Field(description="id of the measure")
    stock: Id | None = Field(None, description="stock of the pieces, where the item has several")
    value: Text | None = Field(None, description="the figure as printed, where there was one")
    uncertainty: Text | None = Field(None, description="half-width at 95 % as printed")
    unit: Text | None = Field(None, description="the unit of both")
    unrounded: Text | None = Field(None, description="both with nine digits, as `41.2837106 ± 1.81263301`")
    counted: Text | None = Field(
        None, description="so many of so many, where it was counted or asked; or what each piece lasted"
    )
    outcome: Text = Field(description="what was said of it, or why there was no figure")
    place: Text | None = Field(None, description="its place among the items, as `2 to 3`")
    ends: dict[Text, Whole] = Field(default_factory=dict, description="how its runs ended, and how many did")
    pieces: Whole = Field(description="how many pieces it rests on")


class Program(Record):
    """What computed the figures."""

    version: Text = Field(description="version of provebook")
    libraries: dict[Text, Text] = Field(default_factory=dict, description="versions that decide figures")


class Resting(Record):
    """A file that an edition rests on, as far as it does."""

    hash: Fingerprint = Field(description="fingerprint of what it rests on")
    marks: dict[Text, Text] = Field(
        default_factory=dict, description="the beginnings of the fingerprints of its parts"
    )


class Edition(FileRecord):
    """One edition; its number is the file's name."""

    report: Id = Field(description="id of the report")
    edition: FromOne = Field(description="its number, which is the file's name")
    date: Day = Field(description="the day of publishing")
    reason: Words[Reason] | None = Field(None, description="why there is a new edition; edition 1 has none")
    summary: Text | None = Field(None, description="what changed, in a sentence")
    authorised_by: Text = Field(description="who authorised it")
    program: Program = Field(description="what computed the figures")
    content: dict[Text, AnyNode] = Field(description="copy of what keeps changing, as known that day")
    runs: tuple[RunName, ...] = Field((), description="the runs that it rests on")
    rests_on: dict[Text, Resting] = Field(
        default_factory=dict, description="files below reports/ that never change, each with its fingerprint"
    )
    figures: tuple[PublishedFigure, ...] = Field((), description="figures as published")
    follows: Fingerprint | None = Field(None, description="fingerprint of the edition before it")
    marks: dict[Text, Text] = Field(
        default_factory=dict, description="the beginnings of the fingerprints of its own parts"
    )
    hash: Fingerprint = Field(description="fingerprint of all the rest of this file")

    @property
    def number(self) -> int:
        """The edition's number, from the file's name."""
        return int(self.id)
