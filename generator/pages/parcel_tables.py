"""The tables of a parcel against those that its records come to, cell by cell."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import zip_longest

from generator.evaluation.findings import ReportFinding
from generator.pages.files import rested_tables
from generator.pages.parcel import data_name
from generator.records.bench import Report

DIGITS = 6
"""Of a figure in a table; the last may be another on another processor."""


@dataclass(frozen=True)
class Cell:
    """A cell that is another than its records come to.

    Attributes:
        name: The table's name in the parcel.
        line: The row's number, the headings' being 1; 0 where the whole table is meant.
        head: The column's heading; empty where the whole row is.
        there: What stands there; empty without the row.
        computed: What its records come to; empty without a row.
    """

    name: str
    line: int = 0
    head: str = ""
    there: str = ""
    computed: str = ""


def other_cells(files: Mapping[str, bytes], finding: ReportFinding, report: Report) -> tuple[Cell, ...]:
    """Every cell that is another; of columns that another version of the program writes nothing is said.

    Args:
        files: Those of the parcel.
        finding: Of its report, computed anew.
        report: The report as published in it.
    """
    made = rested_tables(report, finding)
    return tuple(
        cell
        for table, content in made.items()
        if (name := data_name(table)) in files
        for cell in otherwise(name, files[name], content)
    )


def otherwise(name: str, there: bytes, computed: bytes) -> Iterator[Cell]:
    """The cells of one table that are not as they are computed, row by row.

    Args:
        name: The table's name in the parcel.
        there: The table.
        computed: What it should be.
    """
    try:
        rows, ours = _rows(there), _rows(computed)
    except (UnicodeDecodeError, csv.Error):
        yield Cell(name)
        return
    for line, (row, own) in enumerate(zip_longest(rows, ours), 2):
        if row is None or own is None:
            yield Cell(name, line)
            continue
        for head in row:
            if head in own and not _same(row[head], own[head]):
                yield Cell(name, line, head, row[head], own[head])


def _rows(content: bytes) -> list[dict[str, str]]:
    heads, *rows = [*csv.reader(io.StringIO(content.decode(), newline=""), strict=True)] or [[]]
    return [dict(zip_longest(heads, row[: len(heads)], fillvalue="")) for row in rows]


def _same(there: str, computed: str) -> bool:
    if there == computed:
        return True
    try:
        one, other = float(there), float(computed)
    except ValueError:
        return False
    if not (math.isfinite(one) and math.isfinite(other)) or one == 0 or other == 0:
        return False
    step = 10.0 ** (math.floor(math.log10(abs(other))) + 1 - DIGITS)
    return abs(one - other) <= 1.01 * step
