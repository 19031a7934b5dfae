"""Readings in a CSV file of their own, read by the code that reads a table inside a record."""

from __future__ import annotations

from pathlib import Path

from generator.fault import Fault, Place
from generator.records.files import content
from generator.records.nodes import Scalar
from generator.records.signs import decoded, refused
from generator.records.table import Table, TableFaults, parse_table

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
        return parse_table(block)
    except TableFaults as error:
        return error.faults


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
