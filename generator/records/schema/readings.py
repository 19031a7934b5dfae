"""The type of a field that holds readings: a table in the record, or the name of a CSV file beside it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import ValidationInfo

from generator.records.schema.fields import TEXT
from generator.records.schema.reads import Reads
from generator.records.schema.told import Seen, problem
from generator.records.table import Table, parse_table

_FILE = re.compile(r"[A-Za-z0-9._-]+\.csv")


@dataclass(frozen=True)
class CsvFile:
    """Readings in a file of their own, in the folder of the record."""

    name: str


def _readings(node: Any, info: ValidationInfo) -> Table | CsvFile:
    text = str(node).strip()
    if "\n" not in text and getattr(node, "style", "plain") not in {"block", "folded"}:
        if _FILE.fullmatch(text):
            return CsvFile(text)
        raise problem(
            "not readings: write a table below '|', a header and a line a reading, or the name of a CSV file",
            found=text,
        )
    table = parse_table(node)
    if isinstance(info.context, Seen):
        info.context.doubts.extend(table.doubts)
    return table


Readings = Annotated[Table | CsvFile, Reads("a table of readings", _readings, TEXT)]
