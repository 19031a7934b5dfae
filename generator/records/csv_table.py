"""Readings in a CSV file of their own, read by the code that reads a table inside a record."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from generator.fault import Fault, Place
from generator.records.cells import Cell
from generator.records.files import content
from generator.records.nodes import Scalar
from generator.records.signs import decoded, refused
from generator.records.table import Column, Table, TableFaults, parse_table

MOST_BYTES = 5_000_000
"""Eight channels, read once a second for a day, come to less than this."""


def read_csv(path: Path) -> Table | tuple[Fault, ...]:
    """Read a file of readings.

    Args:
        path: The file: UTF-8, a header of `name unit`, cells parted by commas, semicolons or tabs.

    Returns:
        Its table, with a place in the file for each cell, or everything that stands against it.
    """
    data = content(path, MOST_BYTES)
    text = decoded(data, path) if isinstance(data, bytes) else data
    if isinstance(text, Fault):
        return (text,)
    lines = tuple(line.removesuffix("\r") for line in text.split("\n"))
    if first := refused(text, lines, path):
        return (first,)
    sign = _delimiter(next((line for line in lines if line.strip()), ""))
    block = Scalar("\n".join(_parted(line, sign) for line in lines), Place(path, 1, 1, lines[0]), "", "block")
    block.set_block(lines, 1, 0)
    try:
        table = parse_table(block)
    except TableFaults as error:
        return error.faults
    return (tuple(halves(table)) if sign == "," else ()) or table


def halves(table: Table) -> Iterator[Fault]:
    """Rows in which a comma may have parted one number in two: `5,39,9` among `0,21.4,21.2`.

    Two whole numbers stand beside each other, where most other rows have decimals in both columns, and the
    second is far from all others of its column.
    """
    for first, second in pairwise(table.columns):
        for row, (one, two) in enumerate(zip(first.cells, second.cells, strict=True)):
            if one is None or two is None or row in table.excluded or not _whole(one, two):
                continue
            if _has_decimals(first, row) and _has_decimals(second, row) and _is_far(second, row, two.value):
                number = f"{one.text}.{two.text}"
                what = f"a decimal comma? write {number}, or {one.text}.0 and {two.text}.0 if they are two"
                yield Fault(one.place, "", f"{first.head.label}: {what}", f"{one.text},{two.text}")


def _whole(*cells: Cell) -> bool:
    return all(cell.text.isdigit() for cell in cells)


def _has_decimals(column: Column, but: int) -> bool:
    """Whether most of the other rows of a column have a point."""
    others = [cell for row, cell in enumerate(column.cells) if cell is not None and row != but]
    return 2 * sum("." in cell.text for cell in others) > len(others)


def _is_far(column: Column, but: int, value: float) -> bool:
    """Whether a value lies outside all others of its column by a tenth of the largest."""
    others = [cell.value for row, cell in enumerate(column.cells) if cell is not None and row != but]
    margin = 0.1 * max(map(abs, others))
    return not min(others) - margin <= value <= max(others) + margin


def _delimiter(header: str) -> str:
    return next((sign for sign in "|\t;," if sign in header), ",")


def _parted(line: str, delimiter: str) -> str:
    """The line with `|` between cells, each character where it stood, so that places hold."""
    kept, mark, reason = line.partition("!")
    quoted = False
    signs = []
    for sign in kept:
        quoted ^= sign == '"'
        signs.append(" " if sign == '"' else "|" if sign == delimiter and not quoted else sign)
    return "".join(signs) + mark + reason
