"""Numbers that are no readings for what stands beside them: no samples, the range's end, extremes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from generator.intake.meter.find import Block
from generator.intake.meter.layout import Layout
from generator.intake.meter.marks import Mark
from generator.intake.meter.readings import Read
from generator.intake.meter.series import MeterWarning
from generator.intake.meter.words import AVERAGES, HIGHEST, LOWEST, statistic
from generator.records.units import TEMPERATURE


def without_samples(reads: Sequence[Read], layout: Layout) -> list[Read]:
    """The columns without the numbers of rows in which no sample was taken."""
    counts = layout.places("samples")
    if len(counts) != 1:
        return list(reads)
    empty = [line for line, cell in enumerate(layout.cells[counts[0]]) if cell.isdecimal() and int(cell) == 0]
    return [_struck(read, empty, Mark("no samples")) for read in reads]


def at_range_end(reads: Sequence[Read], settings: Mapping[str, str]) -> list[Read]:
    """The columns of temperature without readings at the end of the stated range: they are bounds."""
    for side, key in ((">", "range-upper"), ("<", "range-lower")):
        number, _, symbol = settings.get(key, "").partition(" ")
        if number:
            reads = [_ended(read, side, Decimal(number), number, symbol) for read in reads]
    return list(reads)


def _ended(read: Read, side: str, end: Decimal, limit: str, symbol: str) -> Read:
    if read.unit is None or read.unit.quantity != TEMPERATURE or read.unit.typed != symbol:
        return read
    lines = [
        line
        for line, value in enumerate(read.values)
        if value is not None and (Decimal(value) >= end if side == ">" else Decimal(value) <= end)
    ]
    mark = Mark("over range", ">", limit) if side == ">" else Mark("under range", "<", limit)
    return _struck(read, lines, mark)


def averages(reads: Sequence[Read], layout: Layout) -> tuple[list[Read], list[MeterWarning]]:
    """Averages beside extremes out of range: none where both are, doubtful where one is.

    Returns:
        The columns, an average without readings where the highest and the lowest of it are both out of range;
        and a warning for each average of which one extreme is.
    """
    groups: dict[str, dict[str, list[Read]]] = {}
    for read in reads:
        base, which = statistic(layout.names[read.place])
        kind = (
            "mean" if which in AVERAGES else "high" if which in HIGHEST else "low" if which in LOWEST else ""
        )
        groups.setdefault(base, {}).setdefault(kind, []).append(read)
    changed: dict[int, Read] = {}
    warnings = []
    for group in groups.values():
        high, low = _clipped(group.get("high", [])), _clipped(group.get("low", []))
        for read in group.get("mean", []):
            both = _struck(read, sorted(high & low), Mark("no samples"))
            changed[read.place] = both
            doubtful = [line for line in sorted(high | low) if both.values[line] is not None]
            if doubtful:
                warnings.append(_doubt(layout, read, doubtful))
    return [changed.get(read.place, read) for read in reads], warnings


def _clipped(reads: Sequence[Read]) -> set[int]:
    return {line for read in reads for line, mark in read.marks.items() if mark.bound}


def _doubt(layout: Layout, read: Read, lines: Sequence[int]) -> MeterWarning:
    """Lines are rows of the table, from 0, until they are told."""
    return MeterWarning(
        "average of clipped readings", (layout.names[read.place],), tuple(lines[:9]), len(lines)
    )


def _struck(read: Read, lines: Sequence[int], mark: Mark) -> Read:
    struck = {line for line in lines if read.values[line] is not None}
    if not struck:
        return read
    values = tuple(None if line in struck else value for line, value in enumerate(read.values))
    return replace(read, values=values, marks={**read.marks, **dict.fromkeys(struck, mark)})


def placed(warnings: Sequence[MeterWarning], block: Block) -> list[MeterWarning]:
    """The same warnings with lines of the file in place of rows of the table."""
    return [replace(each, lines=tuple(block.rows[line].line for line in each.lines)) for each in warnings]
