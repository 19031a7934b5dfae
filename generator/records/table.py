"""A readings table in a block of text → columns with units, and a place for each cell.

    readings: |
      time min | temperature@body degC | ambient degC
      0        | 21.4                  | 21.2
      5        | >150.0                |              ! probe came off

Cells are parted by `|` or tabs. An empty cell is no reading, `>150.0` is above the range, and a row that ends
in `! reason` is excluded: kept, shown struck, used for nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from itertools import pairwise

from generator.fault import Doubt, Fault, Place
from generator.records.cells import Cell, read_cell
from generator.records.grammar import QuantityError
from generator.records.header import Head, parse_head
from generator.records.nodes import Scalar
from generator.records.taken_for import signs_of_table
from generator.records.units import UNITS, Unit

_WHOLE = re.compile(r"[+-]?\d+", re.ASCII)


class TableFaults(ValueError):
    """A table that holds faults.

    Attributes:
        faults: All of them, each at its own cell, in the order of the lines.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(f"{len(self.faults)} faults in the table")


@dataclass(frozen=True)
class Column:
    """One column.

    Attributes:
        head: What it holds.
        place: Where its header stands.
        cells: A reading or None for each row.
    """

    head: Head
    place: Place
    cells: tuple[Cell | None, ...] = field(repr=False)

    @property
    def name(self) -> str:
        """What was read: `time`, `ambient`, or a measure's id."""
        return self.head.name

    @property
    def point(self) -> str:
        """Where on the item; empty where there is one place only."""
        return self.head.point

    @property
    def owner(self) -> str:
        """Whose reading it is in a sitting; empty where shared."""
        return self.head.owner

    @property
    def unit(self) -> Unit:
        """The unit that its cells are written in."""
        return self.head.unit

    @property
    def quantity(self) -> str:
        """What it measures: one of `units.QUANTITIES`."""
        return self.head.quantity


@dataclass(frozen=True)
class Table:
    """A readings table.

    Attributes:
        columns: In the order of the header; where time was read, it is the first.
        rows: How many rows there are, the excluded ones among them.
        excluded: Row, from 0, to the reason why it counts for nothing.
        row_places: Where each row stands.
        doubts: Signs that were read as others, each where it stands first.
    """

    columns: tuple[Column, ...]
    rows: int
    excluded: dict[int, str]
    row_places: tuple[Place, ...] = field(repr=False)
    doubts: tuple[Doubt, ...] = field(default=(), repr=False, compare=False)

    def column(self, name: str, point: str = "", owner: str = "") -> Column | None:
        """The column of that name, point and owner, or None."""
        wanted = (name, point, owner)
        return next((each for each in self.columns if (each.name, each.point, each.owner) == wanted), None)

    def counted(self, column: Column) -> list[Cell]:
        """The cells of one of its columns that are neither empty nor in an excluded row."""
        return [
            cell for row, cell in enumerate(column.cells) if cell is not None and row not in self.excluded
        ]

    def last_digit(self, column: Column) -> float:
        """One step of the last digit of one of its columns as written, in SI; the finest of what counts."""
        decimals = [cell.decimals for cell in self.counted(column)]
        return column.unit.width_to_si(10.0 ** -max(decimals)) if decimals else 0.0


def parse_table(scalar: Scalar) -> Table:
    """Read a table.

    Args:
        scalar: The block of text as it stands in the file.

    Returns:
        Its columns, the values in SI and temperatures in °C.

    Raises:
        TableFaults: Every fault of the table at once, each at its own line and column; a validator can hand
            them on as they are.
    """
    if scalar.style != "block":
        what = "a table begins with '|' behind the colon and has its rows, a line each, below"
        raise TableFaults([Fault(scalar.place, scalar.path, what)])
    reader = _Reader(scalar)
    rows = [_Row.of(number, line) for number, line in enumerate(scalar.split("\n")) if line.strip()]
    if not rows:
        raise TableFaults([Fault(scalar.place, scalar.path, "the table is empty")])
    heads = reader.header(rows[0])
    if len(rows) == 1:
        reader.fault(scalar.within(rows[0].number, 0), "the table has a header and no rows")
    table = reader.body(heads, rows[1:])
    if reader.faults:
        raise TableFaults(few(reader.faults))
    return replace(table, doubts=tuple(signs_of_table(scalar)))


_ALIKE = 3
"""Faults of one kind that a table tells; a file with a decimal comma in each cell has one cause."""


def few(faults: Iterable[Fault]) -> list[Fault]:
    """In the order of the lines, without those that only repeat others; the last told says how many more."""
    kinds: dict[str, list[Fault]] = {}
    for each in sorted(faults, key=lambda each: each.place):
        kinds.setdefault(re.sub(r"\d+(?:[.,]\d+)?", "0", each.what), []).append(each)
    told: list[Fault] = []
    for alike in kinds.values():
        told.extend(alike[:_ALIKE])
        if more := len(alike[_ALIKE:]):
            told[-1] = replace(told[-1], what=f"{told[-1].what}; and {more} more like it")
    return sorted(told, key=lambda each: each.place)


@dataclass(frozen=True)
class _Row:
    """One line taken apart: cells with the column from 0 that each begins at, and what stands behind `!`."""

    number: int
    line: str
    cells: tuple[tuple[str, int], ...]
    reason: str | None

    @classmethod
    def of(cls, number: int, line: str) -> _Row:
        """Take a line of the table apart."""
        kept, mark, reason = line.partition("!")
        return cls(number, line, tuple(split_cells(kept)), reason.strip() if mark else None)


def split_cells(line: str) -> Iterator[tuple[str, int]]:
    """The cells of a line, parted by `|` or tabs, each with the column from 0 that it begins at."""
    position = 0
    for part in line.split("|" if "|" in line else "\t"):
        text = part.strip()
        yield text, position + (part.index(text) if text else 0)
        position += len(part) + 1


class _Reader:
    """Reads one table and gathers what is wrong with it.

    `blank` counts columns of the header without a name; rows that are shorter by as many are not told.
    """

    def __init__(self, scalar: Scalar) -> None:
        self.scalar = scalar
        self.faults: list[Fault] = []
        self.blank = 0

    def fault(
        self, place: Place, what: str, found: str | None = None, accepted: tuple[str, ...] = ()
    ) -> None:
        """Note a fault at a place of the table."""
        self.faults.append(Fault(place, self.scalar.path, what, found, accepted))

    def header(self, row: _Row) -> list[tuple[Head | None, Place]]:
        """The columns; None for one that is at fault, so that its cells can be counted all the same."""
        heads: list[tuple[Head | None, Place]] = []
        seen: set[str] = set()
        for text, column in row.cells:
            place = self.scalar.within(row.number, column)
            head = self._head(text, place)
            if head is not None and head.label in seen:
                self.fault(place, f"the column '{head.label}' is there twice")
            if head is not None and head.name == "time" and any(each for each, _ in heads):
                self.fault(place, "the column 'time' must be the first")
            seen.add(head.label if head else "")
            heads.append((head, place))
        if row.reason is not None:
            self.fault(self.scalar.within(row.number, row.line.index("!")), "the header cannot be excluded")
        return heads

    def _head(self, text: str, place: Place) -> Head | None:
        if not text:
            self.blank += 1
            what = "a column without a name; leave out '|' at the begin and end of the header"
            self.fault(place, what)
            return None
        if "," in text:
            self.fault(place, "a comma in the header; cells are parted by | or tabs")
            return None
        try:
            return parse_head(text)
        except QuantityError as error:
            self.fault(place, error.what, None, error.accepted)
            return None

    def body(self, heads: list[tuple[Head | None, Place]], rows: list[_Row]) -> Table:
        """The rows under the header."""
        cells: list[list[Cell | None]] = [[] for _ in heads]
        excluded: dict[int, str] = {}
        broken = any("." in text for row in rows for text, _ in row.cells)
        for index, row in enumerate(rows):
            if row.reason is not None:
                excluded[index] = row.reason
                if not row.reason:
                    at = self.scalar.within(row.number, row.line.index("!"))
                    self.fault(at, "the reason is missing behind '!'")
            if len(row.cells) != len(heads):
                if len(row.cells) != len(heads) - self.blank:
                    self._miscounted(row, len(heads), broken)
                continue
            for (head, _), (text, column), into in zip(heads, row.cells, cells, strict=True):
                into.append(self._cell(text, head, row.number, column) if text else None)
        columns = tuple(
            Column(head, place, tuple(read))
            for (head, place), read in zip(heads, cells, strict=True)
            if head is not None
        )
        if columns and columns[0].name == "time":
            self._check_times(columns[0], [self.scalar.within(row.number, 0) for row in rows])
        places = tuple(self.scalar.within(row.number, row.cells[0][1]) for row in rows)
        return Table(columns, len(rows), excluded, places)

    def _miscounted(self, row: _Row, wanted: int, decimals: bool) -> None:
        texts = [text for text, _ in row.cells]
        count = len(texts)
        what = f"this row has {count} cell{'' if count == 1 else 's'}, the header {wanted}"
        if any("," in text for text in texts) or (
            count > wanted and decimals and all(_WHOLE.fullmatch(text) for text in texts)
        ):
            what += "; decimal commas? write points, and part the cells by | or tabs"
        elif count == 1:
            what += "; cells are parted by | or tabs"
        elif count < wanted:
            what += "; where nothing was read a cell is empty, and its | stands all the same"
        self.fault(self.scalar.within(row.number, row.cells[0][1]), what)

    def _cell(self, text: str, head: Head | None, row: int, column: int) -> Cell | None:
        """One cell; under a header at fault only its form is looked at."""
        place = self.scalar.within(row, column)
        try:
            return read_cell(text, head.unit if head else UNITS[0], place)
        except QuantityError as error:
            told = f"{head.label}: {error.what}" if head else error.what
            self.fault(place, told, text, error.accepted)
            return None

    def _check_times(self, column: Column, rows: list[Place]) -> None:
        if len(column.cells) < len(rows):
            return
        for cell, place in zip(column.cells, rows, strict=True):
            if cell is None and not any(fault.place.line == place.line for fault in self.faults):
                self.fault(place, "time: every row needs its time")
            elif cell is not None and cell.bound:
                self.fault(cell.place, "time: a time cannot be over or under range", cell.text)
        for earlier, later in pairwise(cell for cell in column.cells if cell is not None):
            if not earlier.value < later.value:
                what = f"time: times must rise; {later.text} comes after {earlier.text}"
                self.fault(later.place, what)
