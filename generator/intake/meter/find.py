"""Where the table stands: the header by its names, the rows below that fit it, and what is left over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from generator.intake.meter.grid import Grid, Row
from generator.intake.meter.hints import Hints
from generator.intake.meter.kinds import VALUES, kind_of
from generator.intake.meter.names import named, names_of, places
from generator.intake.meter.series import Unreadable
from generator.intake.meter.words import is_time_name

DEEPEST = 400
"""Rows before a table; no preamble seen was longer than a tenth of it."""


@dataclass(frozen=True)
class Block:
    """A table in its file.

    Attributes:
        grid: The file's rows.
        header: The row of names; without cells where the file has none.
        labels: Rows between the names and the readings: units, formats.
        rows: The rows of data, in order, blank ones left out.
        before: What stands before the header.
        after: What stands after the last row of data.
        cut: The last row of the file, where it is plainly not whole.
        keys: Columns, from 0, that tell a row of data: those of stamps, else those of numbers.
        stamped: Whether they are stamps.
    """

    grid: Grid = field(repr=False)
    header: Row
    labels: tuple[Row, ...]
    rows: tuple[Row, ...] = field(repr=False)
    before: tuple[Row, ...]
    after: tuple[Row, ...]
    cut: Row | None
    keys: tuple[int, ...]
    stamped: bool

    @property
    def names(self) -> tuple[str, ...]:
        """The columns' names; their numbers where the file has none."""
        width = max(len(self.header.cells), max((row.filled for row in self.rows), default=0))
        if not self.header.cells:
            return tuple(str(number) for number in range(1, width + 1))
        cells = (*self.header.cells, *("",) * (width - len(self.header.cells)))
        return names_of(cells)

    def refuse(self, row: Row, column: int, what: str, settles: Sequence[str] = ()) -> Unreadable:
        """A refusal at one cell of a row, `column` from 0; below 0 of the whole line."""
        return self.grid.refuse(row, column, what, settles)

    @property
    def lines(self) -> dict[int, Row]:
        """The rows of data by line."""
        return {row.line: row for row in self.rows}

    @property
    def timed(self) -> bool:
        """Whether a column tells time, by its stamps or its name."""
        return self.stamped or any(is_time_name(name) for name in self.header.cells)


def blocks(grid: Grid, hints: Hints) -> tuple[Block, ...]:
    """The tables that the rows may hold, one for each place where one begins, not yet closed."""
    found: dict[int, Block] = {}
    rows = grid.rows
    for index, row in enumerate(rows[:DEEPEST]):
        if row.blank or row.broken or not heads(row, hints):
            continue
        start = _start(rows, index, row)
        if start is None or rows[start].line in found:
            continue
        block = _block(grid, index, start)
        if block is not None:
            found[block.rows[0].line] = block
    if not found and (bare := _bare(grid, hints)):
        return (bare,)
    return tuple(found.values())


def keys_of(hints: Hints) -> tuple[str, ...]:
    """What the hints name columns by; where a row is one reading the other names may be channels."""
    if hints.by is not None:
        return (hints.by,)
    return tuple(dict.fromkeys((*hints.columns, *hints.units)))


def heads(row: Row, hints: Hints) -> bool:
    """Whether a row may be one of names: those that the hints use, else text without a number or a stamp."""
    names, keys = names_of(row.cells), keys_of(hints)
    kinds = {kind_of(cell) for cell in row.cells}
    if not all(places(names, key) for key in keys) or "stamp" in kinds:
        return False
    by_name = [key for key in keys if named(names, key) or not key.strip().isdecimal()]
    if by_name:
        return "text" in kinds
    plain = not kinds & {"number", "bound", "quantity"} and ("text" in kinds or "unit" in kinds)
    return plain and (row.filled > 1 or len(row.cells) == 1)


def _start(rows: Sequence[Row], header: int, head: Row) -> int | None:
    """The first row of data below a header, over at most three rows of labels."""
    labels = 0
    for index in range(header + 1, len(rows)):
        row = rows[index]
        if row.blank:
            continue
        if counts(row, head) and holds_data(row):
            return index
        if not _labels(row, head) or labels == 3:
            return None
        labels += 1
    return None


def _labels(row: Row, head: Row) -> bool:
    kinds = [kind_of(cell) for cell in row.cells]
    above = head.cells
    units = [place for place, kind in enumerate(kinds) if kind == "unit"]
    named_all = all(place < len(above) and above[place] for place in units)
    return bool(units) and named_all and not {"number", "stamp", "bound"} & set(kinds) and counts(row, head)


def counts(row: Row, head: Row) -> bool:
    """Whether a row has as many cells as the header; an empty one may follow in either."""
    return not row.broken and (
        not head.cells or (head.filled <= len(row.cells) and row.filled <= len(head.cells))
    )


def holds_data(row: Row) -> bool:
    """Whether a row may be one of data."""
    kinds = [kind_of(cell) for cell in row.cells]
    return bool({"number", "quantity", "stamp"} & set(kinds)) or bool(
        kinds and set(kinds) <= {"mark", "bound"}
    )


def _block(grid: Grid, header: int, start: int) -> Block | None:
    rows = grid.rows
    head = rows[header] if header >= 0 else Row(0, ())
    first = rows[start]
    stamps = tuple(place for place, cell in enumerate(first.cells) if kind_of(cell) == "stamp")
    numbers = tuple(
        place for place, cell in enumerate(first.cells) if kind_of(cell) in {"number", "quantity"}
    )
    keys = stamps or numbers
    stop = start
    last = start
    while stop < len(rows) and (rows[stop].blank or _fits(rows[stop], head, keys, bool(stamps))):
        last = stop if not rows[stop].blank else last
        stop += 1
    body = tuple(row for row in rows[start : last + 1] if not row.blank)
    if not any(kind_of(cell) in VALUES for row in body for cell in _others(row, stamps)):
        return None
    labels = tuple(row for row in rows[header + 1 : start] if not row.blank)
    before = rows[: max(header, 0)]
    return Block(grid, head, labels, body, before, rows[last + 1 :], None, keys, bool(stamps))


def _others(row: Row, stamps: Sequence[int]) -> Iterator[str]:
    return (cell for place, cell in enumerate(row.cells) if place not in stamps)


def _fits(row: Row, head: Row, keys: Sequence[int], stamped: bool) -> bool:
    if not counts(row, head) or any(place >= len(row.cells) for place in keys):
        return False
    kinds = {kind_of(row.cells[place]) for place in keys}
    return kinds == {"stamp"} if stamped else kinds <= VALUES | {"empty"} and kinds != {"empty"}


def _bare(grid: Grid, hints: Hints) -> Block | None:
    """A table without names, where each hint goes by number."""
    keys = keys_of(hints)
    if not keys or not all(key.strip().isdecimal() for key in keys):
        return None
    for index, row in enumerate(grid.rows[:DEEPEST]):
        if not row.blank and not row.broken and holds_data(row):
            block = _block(grid, -1, index)
            return block if block and all(int(key) <= len(row.cells) for key in keys) else None
    return None
