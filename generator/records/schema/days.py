"""The types of fields that are days and prices."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from pydantic.json_schema import JsonSchemaValue

from generator.records.dates import PartialDate, parse_date, parse_month_or_year
from generator.records.money import Money, parse_currency, parse_money
from generator.records.schema.fields import form, parsed
from generator.records.schema.reads import SCALAR_SCHEMA, Reads

# An editor that reads YAML 1.1 takes a bare date for no text and 2021 for a number.
_DAY: JsonSchemaValue = {**SCALAR_SCHEMA, "pattern": r"^\d{4}-\d{2}-\d{2}$"}
_PART: JsonSchemaValue = {**SCALAR_SCHEMA, "pattern": r"^\d{4}(-\d{2}(-\d{2})?)?$"}

Day = Annotated[date, Reads("a date, as 2026-03-08", parsed(parse_date), _DAY)]
PartDay = Annotated[PartialDate, Reads("a date, a month or a year", parsed(parse_month_or_year), _PART)]
Currency = Annotated[str, Reads("a currency, as EUR", parsed(parse_currency), form(r"^([A-Z]{3}|[€£])$"))]
Price = Annotated[
    Money, Reads("a price, as 4.80 EUR", parsed(parse_money), form(r"^(?!.*\d,\d).*([A-Z]{3}|[€£]).*$"))
]
