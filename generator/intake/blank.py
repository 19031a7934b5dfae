"""A table of readings that has its times and no reading yet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.records.quantity import Quantity


def blank_table(schedule: Sequence[Quantity], heads: Iterable[str]) -> tuple[str, ...]:
    """The lines of a table: a header, and a row for each time with empty cells.

    Args:
        schedule: When to read.
        heads: The columns behind the time, each with its unit.
    """
    unit = schedule[0].unit.typed if schedule else "min"
    header = [f"time {unit}", *heads]
    widths = [len(each) for each in header]
    times = [each.text.split()[0] for each in schedule]
    rows = [header, *([time, *[""] * (len(header) - 1)] for time in times)]
    return tuple(_line(row, widths) for row in rows)


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    return " | ".join(cell.ljust(width) for cell, width in zip(cells, widths, strict=True)).rstrip()
