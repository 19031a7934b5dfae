"""`bench.yml`: who reviews, and what holds for every page."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from generator.records.schema.base import FileRecord, Record
from generator.records.schema.fields import Address, FromOne, Id, Text, Truth, Words, matching
from generator.records.schema.measured import Temperature

FORMAT = 1
"""The newest version of the records' shapes that this program reads."""


class ReferenceAmbient(Record):
    """The air that figures are told for, a convention and no measurement."""

    value: Temperature = Field(description="the air, as `50 degC`")
    because: Text = Field(description="why this one: where such a part is fitted")


class Column(Record):
    """A column of the comparison table."""

    method: Id = Field(description="id of the method")
    measure: Id = Field(description="id of the measure in that method")
    title: Text | None = Field(None, description="the column's head; the measure's name where left out")


class Comparison(Record):
    """The columns of the comparison table; numbered, because editions show them."""

    version: FromOne = Field(description="1, and one more whenever the columns change")
    columns: tuple[Column, ...] = Field(min_length=1, description="the columns, left to right")


class Licence(Record):
    """Under which licence a reader may use what an edition holds, as Data Package, version 2, has it."""

    name: Annotated[str, matching(r"[A-Za-z0-9.+-]{1,60}", "a licence's short name", "as CC-BY-4.0")] = Field(
        description="its short name, as lists of licences have it: CC-BY-4.0"
    )
    title: Text | None = Field(None, description="its name in words")
    path: Address | None = Field(None, description="where its text stands, with https://")


class Settings(FileRecord):
    """The bench as a whole."""

    format: FromOne = Field(description=f"version of the records' shapes, `format: {FORMAT}`")
    reviewer: Text = Field(description="who reviews, as readers know you")
    contact: Text = Field(description="how a reader reaches you: an address of mail or of a page")
    site_address: Address | None = Field(None, description="where the site will stand, with https://")
    disclosure: Text | None = Field(
        None, description="in your own words, what else readers should know of who pays"
    )
    units: Words[Literal["metric", "us"]] = Field(
        "metric", description="which units stand first: metric or us"
    )
    reference_ambient: ReferenceAmbient | None = Field(
        None, description="the air that figures are told for where the method names none"
    )
    comparison: Comparison | None = Field(None, description="columns of the comparison table")
    licence: Licence | None = Field(
        None, description="the licence of the editions to take away; without it nothing is said of one"
    )
    demonstration: Truth = Field(
        False, description="true where all data are invented; every page then says so"
    )
