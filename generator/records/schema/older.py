"""`older/<batch>.yml`: results from before, one row a figure."""

from __future__ import annotations

from collections.abc import Mapping as AnyMapping
from typing import Annotated, Self

from pydantic import Field, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema

from generator.fault import Fault
from generator.records.nodes import Mapping, Scalar
from generator.records.older_table import nodes_of
from generator.records.schema.base import FileRecord, Record
from generator.records.schema.days import PartDay
from generator.records.schema.fields import TEXT, FromOne, Id, Text
from generator.records.schema.measured import AnyQuantity, Temperature, Time, WidthOrUnknown
from generator.records.schema.method import Method
from generator.records.table import few


class OlderResult(Record):
    """One figure from before; `uncertainty: unknown` is a value and not a blank."""

    item: Id = Field(description="id of the item")
    date: PartDay = Field(description="when; a year or a month will do")
    measure: Id = Field(description="id of the measure it is nearest to")
    method: Id | None = Field(None, description="id of that measure's method, where several have it")
    value: AnyQuantity = Field(description="the figure with its unit")
    uncertainty: WidthOrUnknown = Field(description="half-width at 95 %, or `unknown`")
    air: Temperature | None = Field(None, description="air at the time")
    at: Time | None = Field(None, description="how long the run was when it was read")
    pieces: FromOne | None = Field(None, description="how many pieces")
    meter: Text | None = Field(None, description="the meter used")
    published: Text | None = Field(None, description="where it was first published")

    def measured_by(self, methods: AnyMapping[str, AnyMapping[int, Method]]) -> tuple[str, ...]:
        """Ids of the methods whose measure is meant: one, where the record is sound."""
        return tuple(
            name
            for name, versions in sorted(methods.items())
            if self.method in {None, name} and any(each.measure(self.measure) for each in versions.values())
        )


class _OrTable:
    """What editors are told of a list that may stand as a table."""

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """A list, or a text."""
        return {"anyOf": [handler(schema), dict(TEXT)]}


_RESULTS = "a list of results, or below `|` a table with a line each: its columns are the keys of a result"


class OlderBatch(FileRecord):
    """Years of spreadsheets, brought in at once."""

    title: Text = Field(description="what these results are")
    method: Text = Field(description="how they were had, in words")
    results: Annotated[tuple[OlderResult, ...], Field(min_length=1), _OrTable()] = Field(description=_RESULTS)

    @classmethod
    def from_nodes(cls, root: Mapping, name: str) -> Self | tuple[Fault, ...]:
        """As of any file; a table is read as if each of its rows were typed as a result of a list."""
        block = root.get("results")
        if not isinstance(block, Scalar) or block.is_null:
            return super().from_nodes(root, name)
        rows, against = nodes_of(block, OlderResult.spelt(), OlderResult.required())
        listed = Mapping(root.place, root.path)
        listed.key_places.update(root.key_places)
        listed.update(root, results=rows)
        found = super().from_nodes(listed, name)
        if isinstance(found, tuple):
            return (*against, *few(each for each in found if rows or each.path != block.path))
        return against or found
