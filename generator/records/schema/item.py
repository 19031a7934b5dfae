"""`items/<id>.yml`: a product as sold, what is printed on it, and the pieces that were had of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from pydantic import Field

from generator.records.schema.base import FileRecord, Record
from generator.records.schema.days import Day, PartDay, Price
from generator.records.schema.fields import FileName, FromOne, Id, PieceId, Text, Words
from generator.records.schema.measured import AnyQuantity, Mass

Standing = Literal["standard, seen", "approval, seen", "claimed", "reviewer's own"]
"""What a limit or a rating rests on."""

Got = Literal["bought", "sent", "lent", "from a viewer"]
"""How a piece was had; the disclosure sentence is made from it, so it has no default."""


class OtherName(Record):
    """A name that the same product is also sold under."""

    name: Text = Field(description="maker and model as sold")
    since: PartDay | None = Field(None, description="since when; a year or a month will do")
    evidence: Text = Field(description="how that is known: photo, the maker says so, looks the same")


class Rating(Record):
    """A figure that is printed on the product or said of it."""

    limit: Text = Field(description="of what: current, voltage, temperature, rise")
    value: AnyQuantity = Field(description="the figure with its unit")
    standing: Words[Standing] = Field(description="what it rests on")
    source: Text = Field(description="where it stands: printed on the body, the seller's page")
    condition: Text | None = Field(None, description="the condition it is given for")
    photo: FileName | None = Field(None, description="a photo that shows it")


class Specimen(Record):
    """One piece."""

    got: Words[Got] = Field(description="how you had it: bought, sent, lent or from a viewer")
    from_: Text | None = Field(None, description="from whom; a kind of seller will do")
    date: Day | None = Field(None, description="the day you had it")
    paid: Price | None = Field(None, description="what you paid, as `4.80 EUR`")
    pack: FromOne = Field(1, description="how many pieces were in the pack that was paid")
    marks: Text | None = Field(None, description="codes and marks on the piece")
    lot: Text | None = Field(None, description="lot, where it is known")
    condition: Text | None = Field(None, description="condition on receipt")
    chosen: Text | None = Field(None, description="how it was chosen: at random of 6")
    mass: Mass | None = Field(None, description="its mass")
    stock: Id | None = Field(None, description="which stock it is of; the first where left out")
    photos: tuple[FileName, ...] = Field((), description="photos of the piece")


class Stock(Record):
    """Pieces after a silent change of the product."""

    name: Text = Field(description="how readers know it: as sold since May 2026")
    since: PartDay | None = Field(None, description="since when it is sold; a year or a month will do")
    tell_by: Text | None = Field(None, description="how to tell a piece of it")


class Item(FileRecord):
    """A product as sold."""

    maker: Text = Field(description="the maker's name as printed")
    model: Text = Field(description="the model as printed")
    what: Text | None = Field(None, description="what it is: in-line fuse holder")
    also_sold_as: tuple[OtherName, ...] = Field((), description="other names of the same product")
    ratings: tuple[Rating, ...] = Field((), description="figures printed on it or said of it")
    specimens: dict[PieceId, Specimen] = Field(min_length=1, description="the pieces, by letter")
    stocks: dict[Id, Stock] = Field(default_factory=dict, description="stocks after a change of the product")
    notes: Text | None = Field(None, description="anything a reader should know")

    @property
    def title(self) -> str:
        """Maker and model in one."""
        return f"{self.maker} {self.model}"

    @property
    def stock_order(self) -> tuple[str, ...]:
        """Ids of its stocks, oldest first; the first of all has none, and stands as an empty text."""
        return ("", *self.stocks)

    def newest_stock(self, among: Iterable[str]) -> str:
        """The newest of some of its stocks; the first where there are none."""
        return max(among, key=self.stock_order.index, default="")
