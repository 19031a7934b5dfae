"""`instruments/<id>.import.yml`: how this meter writes its files. No hash covers it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from generator.records.schema.base import FileRecord
from generator.records.schema.fields import Text, Words
from generator.records.schema.measured import Time


class ImportHints(FileRecord):
    """What its files do not say themselves: the options of `provebook import`, kept from the last time."""

    columns: dict[Text, Text] = Field(
        default_factory=dict,
        description="the file's column to the meter's channel, or to what a meter without channels reads: "
        "`Ch 3 Ave.: CH3`, `average: current`",
    )
    units: dict[Text, Text] = Field(
        default_factory=dict, description="the file's column to its unit: `Ch 3 Ave.: degC`"
    )
    date_order: Words[Literal["dmy", "mdy", "ymd"]] | None = Field(
        None, description="order of day, month and year in its dates"
    )
    zone: Text | None = Field(None, description="its clock's zone, as `Europe/Berlin`, or `+01:00`")
    interval: Time | None = Field(None, description="time from one reading to the next, as `30 s`")
    time_unit: Text | None = Field(None, description="unit of a time column of plain numbers, as `s`")
    by: Text | None = Field(None, description="the column that says whose reading a row is")
    sheet: Text | None = Field(None, description="the sheet of its workbooks")
    encoding: Text | None = Field(None, description="encoding of its files, as `cp1252`")
    delimiter: Text | None = Field(None, description="what parts the cells: one sign, or `tab`")
    decimal: Words[Literal["point", "comma"]] | None = Field(None, description="the decimal sign")
