"""`<report>/links.yml`: dated lists that may grow after an edition; no hash covers them."""

from __future__ import annotations

from pydantic import Field

from generator.records.schema.base import FileRecord, Record
from generator.records.schema.days import Day, Price
from generator.records.schema.fields import Address, FromOne, Id, Text, TimeCode, Truth


class Chapter(Record):
    """A chapter of a video."""

    at: TimeCode = Field(description="time code, as 1:23 or 1:02:03")
    title: Text = Field(description="what it shows")


class Video(Record):
    """A video about the report."""

    address: Address = Field(description="where it is")
    date: Day = Field(description="the day it came out")
    title: Text | None = Field(None, description="its title")
    edition: FromOne | None = Field(None, description="the edition that it shows")
    chapters: tuple[Chapter, ...] = Field((), description="its chapters")


class Shop(Record):
    """A link to a shop."""

    item: Id = Field(description="the item sold there")
    shop: Text = Field(description="the shop's name")
    address: Address = Field(description="where it is sold")
    earns: Truth = Field(description="true where the link earns you money; it is then marked Ad")
    date: Day = Field(description="the day of the link and its price")
    price: Price | None = Field(None, description="price that day")


class Reply(Record):
    """What a maker or seller replied."""

    date: Day = Field(description="the day of the reply")
    from_: Text = Field(description="who replied")
    text: Text = Field(description="the reply, word for word or in short")


class Told(Record):
    """Whom the reviewer told before publishing."""

    date: Day = Field(description="the day you told them")
    whom: Text = Field(description="whom you told")
    what: Text = Field(description="what you told them")


class Links(FileRecord):
    """Everything round a report that keeps changing."""

    videos: tuple[Video, ...] = Field((), description="videos, oldest first")
    shops: tuple[Shop, ...] = Field((), description="links to shops")
    replies: tuple[Reply, ...] = Field((), description="replies of makers and sellers")
    told: tuple[Told, ...] = Field((), description="whom you told, and when")
