"""A table of readings that is being filled: what stands in it as written, and columns that come in."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import cached_property

from generator.records.cells import Cell
from generator.records.table import Column, Table
from generator.records.units import MINUTE, SECOND, TIME, Unit

MOST_ROWS = 100
"""Rows that stand in the record itself; more of them lie in a CSV file beside it (our choice)."""

_DECIMALS = 2
"""Of a time in minutes; what needs more is told in seconds (our choice)."""


@dataclass(frozen=True)
class Row:
    """One time.

    Attributes:
        seconds: When, from the start of the run.
        cells: What was read, by column, as written.
        reason: Why it counts for nothing; empty where it counts.
        told: The time as written, in the unit of the table; empty where it comes in from elsewhere.
    """

    seconds: Decimal
    cells: Mapping[str, str]
    reason: str = ""
    told: str = ""


@dataclass(frozen=True)
class Sheet:
    """A table of readings by time.

    Attributes:
        heads: Its columns but the time, by label, to label and unit as the header names them.
        rows: Its rows, in order of time.
        unit: The unit of its times as written; None for a table that begins here.
    """

    heads: Mapping[str, str] = field(default_factory=dict)
    rows: tuple[Row, ...] = ()
    unit: Unit | None = None

    @property
    def filled(self) -> tuple[str, ...]:
        """The columns in which something was read."""
        return tuple(label for label in self.heads if any(row.cells.get(label) for row in self.rows))

    def without(self, labels: Iterable[str]) -> Sheet:
        """The same with some columns empty, and without the rows in which nothing is left."""
        gone = set(labels)
        rows = (
            replace(row, cells={label: text for label, text in row.cells.items() if label not in gone})
            for row in self.rows
        )
        left = tuple(row for row in rows if row.reason or any(row.cells.values()))
        return Sheet(self.heads, left, self.unit if left else None)

    def joined(self, heads: Mapping[str, str], rows: Iterable[Row]) -> Sheet:
        """The same with columns that come in; rows of one time become one."""
        at = {row.seconds: row for row in self.rows}
        for row in rows:
            known = at.get(row.seconds, Row(row.seconds, {}))
            at[row.seconds] = replace(known, cells={**known.cells, **row.cells})
        return Sheet({**self.heads, **heads}, tuple(at[when] for when in sorted(at)), self.unit)

    def lines(self) -> tuple[str, ...]:
        """As it stands in a record: a line a row, cells parted by `|` and one below the other."""
        cells = [self._header(), *(self._cells(row) for row in self.rows)]
        widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
        reasons = ("", *(row.reason for row in self.rows))
        return tuple(
            _ended(" | ".join(map(str.ljust, row, widths)), reason, " ")
            for row, reason in zip(cells, reasons, strict=True)
        )

    def csv(self) -> bytes:
        """As a file of its own: UTF-8, commas, no quotes, for no cell holds a comma."""
        rows = [",".join(self._header())]
        rows += [_ended(",".join(self._cells(row)), row.reason, "") for row in self.rows]
        return "".join(f"{row}\n" for row in rows).encode()

    def _header(self) -> list[str]:
        return [f"{TIME} {self._unit.typed}", *self.heads.values()]

    def _cells(self, row: Row) -> list[str]:
        same = row.told if self._unit is self.unit else ""
        return [same or in_unit(row.seconds, self._unit), *(row.cells.get(label, "") for label in self.heads)]

    @cached_property
    def _unit(self) -> Unit:
        """The unit of the table as far as it tells all times; else the one that does."""
        told = unit_for(row.seconds for row in self.rows)
        return told if self.unit is None or (self.unit, told) == (MINUTE, SECOND) else self.unit


def sheet_of(table: Table) -> Sheet:
    """A table as it stands in a record, its cells as written.

    Args:
        table: A table whose first column is the time.
    """
    time, *others = table.columns
    heads = {column.head.label: _as_written(column) for column in others}
    rows = tuple(
        Row(
            _seconds(cell, time.unit),
            {c.head.label: found.text for c in others if (found := c.cells[number]) is not None},
            table.excluded.get(number, ""),
            cell.text,
        )
        for number, cell in enumerate(time.cells)
        if cell is not None
    )
    return Sheet(heads, rows, time.unit if time.unit in {MINUTE, SECOND} else None)


def _as_written(column: Column) -> str:
    """A column's head as it stands in the table: its unit in the spelling that a person chose."""
    rest = column.place.text[column.place.column - 1 :]
    return re.split(r"[|\t;,]", rest)[0].strip(' "')


def unit_for(times: Iterable[Decimal]) -> Unit:
    """Minutes where all times are told by them with two decimals, else seconds."""
    whole = all(time * 10**_DECIMALS % 60 == 0 for time in times)
    return MINUTE if whole else SECOND


def in_unit(seconds: Decimal, unit: Unit) -> str:
    """A time as digits: `0`, `2.5`, `60.25`."""
    value = seconds / Decimal(60) if unit is MINUTE else seconds
    return f"{value.normalize() + 0:f}"


def _seconds(cell: Cell, unit: Unit) -> Decimal:
    return (Decimal(cell.text) * Decimal(repr(unit.times)) / Decimal(repr(unit.over))).normalize()


def _ended(line: str, reason: str, gap: str) -> str:
    return f"{line.rstrip()}{gap}! {reason}" if reason else line.rstrip()
