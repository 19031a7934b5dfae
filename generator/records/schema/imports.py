"""`instruments/<id>.import.yml`: how this meter writes its files. No hash covers it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from generator.records.schema.base import FileRecord
from generator.records.schema.fields import Text, Whole, Words
from generator.records.schema.references import ColumnHead


class ImportHints(FileRecord):
    """What the import of this meter's files should take for granted and not ask again."""

    delimiter: Words[Literal["comma", "semicolon", "tab", "space"]] | None = Field(
        None, description="what parts the cells"
    )
    decimal: Words[Literal["point", "comma"]] | None = Field(None, description="the decimal sign")
    encoding: Text | None = Field(None, description="character encoding, as `utf-8` or `cp1252`")
    skip: Whole = Field(0, description="how many lines stand before the header")
    sheet: Text | None = Field(None, description="name of the sheet in a workbook")
    date_order: Words[Literal["year-month-day", "day-month-year", "month-day-year"]] | None = Field(
        None, description="order of a date's parts"
    )
    time: Text | None = Field(None, description="head of the column that holds the time")
    columns: dict[Text, ColumnHead] = Field(
        default_factory=dict, description="the file's column to ours: `Ch1: temperature@body degC`"
    )
    over_range: tuple[Text, ...] = Field((), description="what the meter writes above its range: OL, 9.9E+37")
