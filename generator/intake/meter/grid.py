"""Lines → rows of cells by the csv module, each with its line; the same shape for a sheet of a workbook."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from generator.intake.meter.series import Problem, Unreadable

SIGNS = ("\t", ";", ",", "|")
"""What may part the cells of a file that does not say."""

_NAMED = {"tab": "\t", "\\t": "\t", "semicolon": ";", "comma": ",", "pipe": "|", "space": " "}
_SEP = re.compile(r'"?sep=(.|\\t)"?', re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Row:
    """One row.

    Attributes:
        line: Where it begins, from 1.
        cells: Without the spaces round them.
        ended: Whether a line end follows; without one the row may be cut off.
        broken: Whether a quote in it was never closed.
    """

    line: int
    cells: tuple[str, ...]
    ended: bool = True
    broken: bool = False

    @property
    def blank(self) -> bool:
        """Whether nothing stands in it."""
        return not any(self.cells)

    @property
    def filled(self) -> int:
        """How many cells there are up to the last that holds something."""
        for number in range(len(self.cells), 0, -1):
            if self.cells[number - 1]:
                return number
        return 0


@dataclass(frozen=True)
class Grid:
    """Rows of cells.

    Attributes:
        rows: All of them, blank ones too.
        lines: The lines as written, for quoting; empty for a workbook.
        delimiter: One character; empty for a workbook.
        texts: Cells of a workbook that are text, by line and column from 0.
        sheet: The sheet of a workbook, else empty.
    """

    rows: tuple[Row, ...] = field(repr=False)
    lines: Sequence[str] = field(repr=False)
    delimiter: str
    texts: frozenset[tuple[int, int]] = frozenset()
    sheet: str = ""

    def problem(self, row: Row, column: int, what: str, settles: Sequence[str] = ()) -> Problem:
        """A problem at one cell, `column` from 0; at a column below 0 of the whole line."""
        if not self.lines:
            cell = f"cell {cell_name(row.line, column)}: " if column >= 0 else ""
            found = row.cells[column] if 0 <= column < len(row.cells) else None
            return Problem(row.line, 0, "", f"{cell}{what}", found, tuple(settles))
        text = self.lines[row.line - 1]
        found = row.cells[column] if 0 <= column < len(row.cells) else None
        at = _start(text, self.delimiter, column) + 1 if column >= 0 else 1
        return Problem(row.line, at, text, what, found, tuple(settles))

    def refuse(self, row: Row, column: int, what: str, settles: Sequence[str] = ()) -> Unreadable:
        """The same, to be raised."""
        return Unreadable([self.problem(row, column, what, settles)])


def cell_name(line: int, column: int) -> str:
    """A cell as a spreadsheet calls it: `B6`; `column` from 0."""
    letters = ""
    number = column + 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(65 + rest) + letters
    return f"{letters}{line}"


def delimiters(lines: Sequence[str], hint: str | None) -> tuple[str, ...]:
    """The signs that may part the cells: one where the file or the hint says it.

    Raises:
        Unreadable: File and hint say two things, or the hint is no single sign.
    """
    named = _NAMED.get(hint.strip().casefold(), hint) if hint else ""
    if named and len(named) != 1:
        raise Unreadable([Problem(0, 0, "", f"'{hint}' is no single sign", None, ("--delimiter tab",))])
    if said := _SEP.fullmatch(lines[0].strip()):
        sign = "\t" if said[1] == "\\t" else said[1]
        if named and named != sign:
            what = f"the file says that its cells are parted by '{sign}', the hint by '{named}'"
            raise Unreadable([Problem(1, 1, lines[0], what, None, ("leave --delimiter out",))])
        return (sign,)
    if named:
        return (named,)
    joined = "\n".join(lines[:1000])
    return tuple(sign for sign in SIGNS if sign in joined) or (",",)


def grid_of(lines: Sequence[str], delimiter: str) -> Grid:
    """The rows of a text.

    Raises:
        Unreadable: A quote is not closed, or is closed inside a cell; a cell is far too long.
    """
    return Grid(tuple(_rows(lines, delimiter)), lines, delimiter)


def _rows(lines: Sequence[str], delimiter: str) -> Iterator[Row]:
    # A text that ends in a line end has an empty line behind it, which is none.
    complete = not lines[-1]
    count = len(lines) - complete
    start = 1 if _SEP.fullmatch(lines[0].strip()) else 0
    reader = csv.reader(
        (f"{line}\n" for line in lines[start:count]), delimiter=delimiter, strict=True, skipinitialspace=True
    )
    done = start
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            yield _broken(lines, done + 1, count, complete, error)
            return
        yield Row(done + 1, tuple(map(_trimmed, cells)), complete or start + reader.line_num < count)
        done = start + reader.line_num


def _trimmed(cell: str) -> str:
    """Without the spaces round it; one that goes over a line's end stays as it is, and is no number."""
    return cell if "\n" in cell else cell.strip()


def _broken(lines: Sequence[str], line: int, count: int, complete: bool, error: csv.Error) -> Row:
    """The last line, cut off inside quotes.

    Raises:
        Unreadable: The quote stands elsewhere.
    """
    if line == count and not complete and "end of data" in str(error):
        return Row(line, (lines[line - 1],), ended=False, broken=True)
    what = "a quote is not closed, or stands inside a cell"
    if "field limit" in str(error):
        what = "a cell is longer than any reading, or a quote is not closed"
    text = lines[line - 1]
    raise Unreadable([Problem(line, text.find('"') + 1 or 1, text, what)])


def _start(text: str, delimiter: str, column: int) -> int:
    """Where the cell of that number, from 0, begins in its line."""
    quoted, passed = False, 0
    if column == 0:
        return len(text) - len(text.lstrip(" "))
    for position, sign in enumerate(text):
        quoted ^= sign == '"'
        if sign == delimiter and not quoted:
            passed += 1
            if passed == column:
                rest = text[position + 1 :]
                return position + 1 + len(rest) - len(rest.lstrip(" "))
    return 0
