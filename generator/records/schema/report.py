"""`<report>/report.yml`: a question, and which runs answer it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag

from generator.records.schema.base import FileRecord, Record, node_kind
from generator.records.schema.days import Currency, Day, Price
from generator.records.schema.fields import FileName, FromOne, Id, RunName, Text, Words
from generator.records.schema.item import Standing
from generator.records.schema.measured import End
from generator.records.schema.run import Opinion


class Limit(Record):
    """A limit that the report holds figures against."""

    kind: Words[Literal["rise", "temperature", "at most", "at least"]] = Field(
        description="a rise or a temperature of what heats; of another quantity whether it is the most or the"
        " least that is kept"
    )
    value: End = Field(description="the limit; a rise in K")
    point: Id | None = Field(None, description="of a rise or a temperature: the place it is for")
    measure: Id | None = Field(None, description="of `at most` and `at least`: the measure it is for")
    condition: dict[Text, Text] = Field(default_factory=dict, description="the conditions it is for")
    standing: Words[Standing] = Field(description="what it rests on")
    source: Text = Field(description="where it stands, so that another finds it")

    @property
    def of_heating(self) -> bool:
        """Whether it is for what heats: held at a place, by a run's end."""
        return self.kind in {"rise", "temperature"}


class Rate(Record):
    """What one unit of a currency was worth in the report's own currency on a day."""

    one: Currency = Field(description="the currency that is turned into another, as `USD`")
    worth: Price = Field(description="what one of it was worth, as `0.92 EUR`")
    date: Day = Field(description="the day of the rate")
    source: Text = Field(description="where the rate stands, so that another finds it")


class SetOfPieces(Record):
    """Pieces that are bought together, for what they cost together."""

    name: Text = Field(description="what they make up: one boat, ten joints of each size")
    of: dict[Id, FromOne] = Field(min_length=1, description="how many pieces of each item")


RunChoice = Annotated[
    Annotated[Words[Literal["all"]], Tag("scalar")] | Annotated[tuple[RunName, ...], Tag("sequence")],
    Discriminator(node_kind),
]


class ReportRecord(FileRecord):
    """A report as typed; the id is its folder's name."""

    question: Text = Field(description="the question, as a reader would ask it")
    initiative: Text = Field(description="on whose initiative: `own`, or whose")
    main: Id = Field(description="the measure that answers the question")
    measures: tuple[Id, ...] = Field(min_length=1, description="the measures shown")
    items: tuple[Id, ...] = Field(
        min_length=1, description="the items compared, in the order of their colours"
    )
    controls: tuple[RunName, ...] = Field((), description="control runs")
    runs: RunChoice = Field("all", description="`all`, or a list of run ids")
    limits: tuple[Limit, ...] = Field((), description="limits that figures are held against")
    sets: tuple[SetOfPieces, ...] = Field((), description="pieces bought together, for their price")
    rates: tuple[Rate, ...] = Field(
        (), description="what other currencies were worth; without one no price is turned into another"
    )
    choice: Id | None = Field(None, description="the item you would choose; printed as an opinion")
    because: Text | None = Field(None, description="why you would choose it")
    opinions: tuple[Opinion, ...] = Field((), description="what you think, with its basis")
    photos: dict[FileName, Text] = Field(default_factory=dict, description="photo to what it shows, in words")
    notes: Text | None = Field(None, description="anything a reader should know")
