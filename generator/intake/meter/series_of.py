"""One table, or the rows of one channel of it → columns at their times, events, and what is no reading."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from datetime import datetime
from decimal import Decimal
from typing import Literal, TypeAlias

from generator.intake.meter.clipped import at_range_end, averages, placed, without_samples
from generator.intake.meter.clock import Clock
from generator.intake.meter.find import Block
from generator.intake.meter.hints import Hints
from generator.intake.meter.layout import Layout
from generator.intake.meter.readings import Read, Signs, not_readings, read_column
from generator.intake.meter.series import MeterEvent, MeterWarning, NotReading
from generator.intake.meter.timeline import tidy, timeline, unrolled
from generator.intake.meter.words import LOGGED

Told: TypeAlias = tuple[int, str, Literal["event", "remark"]]
"""A row from 0, what it tells beside readings, and who told it."""


@dataclass(frozen=True)
class Table:
    """A table, its columns sorted and its times read.

    Attributes:
        block: Where it stands.
        layout: What its columns hold.
        signs: Its decimal signs.
        clock: Its times; None where they go by the row number.
        settings: What the file says of the readings.
        interval: Seconds from one reading to the next, where the file or a person says it.
        hints: What a person says.
    """

    block: Block
    layout: Layout
    signs: Signs
    clock: Clock | None
    settings: Mapping[str, str]
    interval: Decimal | None
    hints: Hints


@dataclass(frozen=True)
class Series:
    """Readings that share their times.

    Attributes:
        reads: The columns, a value or None for each row of the table.
        rows: The rows of the table, from 0, that hold readings.
        elapsed: Seconds since the first reading, for each row of the table.
        base: When the first reading was, by the table's clock.
        first: The first reading's time, where a date is known.
        last: The last reading's.
        step: Seconds from each reading to the next, where that is the same throughout.
        not_readings: What stands in the place of readings.
        events: What rows tell beside readings.
        warnings: What a person should be told.
    """

    reads: tuple[Read, ...]
    rows: tuple[int, ...] = field(repr=False)
    elapsed: tuple[Decimal, ...] = field(repr=False)
    base: Decimal
    first: datetime | None
    last: datetime | None
    step: Decimal | None
    not_readings: tuple[NotReading, ...] = field(repr=False)
    events: tuple[MeterEvent, ...]
    warnings: tuple[MeterWarning, ...]


def series_of(table: Table) -> Series:
    """The readings of a table.

    Raises:
        Unreadable: The file does not say enough, or says two things.
    """
    layout, block = table.layout, table.block
    wanted = {place: text for place, text in layout.mapped.items() if text != "time"}
    reads = [
        read_column(table.block, layout, place, table.signs, wanted) for place in layout.places("reading")
    ]
    if not reads:
        raise table.block.refuse(block.header, -1, "no column of the table holds readings")
    # Averages first: what lies at the range's end is one clipped extreme more.
    reads, doubts = averages(at_range_end(without_samples(reads, layout), table.settings), layout)
    told = _events(layout)
    silent = set(_event_only(layout, told))
    rows = tuple(line for line in range(len(block.rows)) if line not in silent)
    if not rows:
        raise table.block.refuse(block.header, -1, "no row of the table holds a reading")
    elapsed, base, ends, step, warnings = _times(table, rows)
    events = tuple(
        MeterEvent(elapsed[line], text, block.rows[line].line, kind, line not in silent)
        for line, text, kind in told
    )
    missing = (*not_readings(reads, block, layout, rows), *_only_events(reads, block, layout, silent))
    said = (*warnings, *(each for read in reads for each in read.warnings), *placed(doubts, block))
    left_out = _left_out(reads, block, layout, rows)
    return Series(tuple(reads), rows, elapsed, base, *ends, step, missing, events, (*said, *left_out))


def _only_events(reads: Sequence[Read], block: Block, layout: Layout, silent: Set[int]) -> list[NotReading]:
    return [
        NotReading(block.rows[line].line, layout.names[read.place], "", "event only")
        for line in sorted(silent)
        for read in reads
    ]


def _times(
    table: Table, rows: Sequence[int]
) -> tuple[
    tuple[Decimal, ...],
    Decimal,
    tuple[datetime | None, datetime | None],
    Decimal | None,
    tuple[MeterWarning, ...],
]:
    """Elapsed seconds, base, ends, step and warnings.

    Raises:
        Unreadable: Neither a column nor an interval tells the times, or they do not rise.
    """
    block, interval = table.block, table.interval
    if table.clock is None:
        if interval is None:
            names = ", ".join(name for name in table.layout.names if name)
            settles = ("--interval 10 s", '--map "COLUMN=time"')
            raise table.block.refuse(
                block.header, -1, f"no column tells the time; there are {names}", settles
            )
        counted = {row: tidy(number * interval) for number, row in enumerate(rows)}
        last = Decimal(0)
        elapsed = []
        for row in range(len(block.rows)):
            last = counted.get(row, last)
            elapsed.append(last)
        warning = MeterWarning("times from row numbers", texts=(f"{interval:f}",))
        return tuple(elapsed), Decimal(0), (None, None), interval, (warning,)
    clock, warnings = unrolled(table.block, table.clock, table.hints)
    line = timeline(table.block, clock, rows, table.hints, interval)
    return (
        line.elapsed,
        clock.seconds[rows[0]],
        (line.first, line.last),
        line.step,
        (*warnings, *line.warnings),
    )


def _events(layout: Layout) -> list[Told]:
    """Row from 0, text and kind of each event and remark, in the order of the rows."""
    found: list[Told] = []
    kinds: tuple[Literal["event", "remark"], ...] = ("event", "remark")
    for kind in kinds:
        for place in layout.places(kind):
            for line, cell in enumerate(layout.cells[place]):
                if cell:
                    own = kind == "event" and cell.casefold() in LOGGED
                    found.append((line, layout.names[place] if own else " ".join(cell.split()), kind))
    return sorted(found, key=lambda each: each[0])


def _event_only(layout: Layout, told: Sequence[Told]) -> list[int]:
    """The rows that tell something and hold no reading."""
    places = layout.places("reading")
    return [line for line, _, _ in told if not any(layout.cells[place][line] for place in places)]


def _left_out(reads: Sequence[Read], block: Block, layout: Layout, rows: Sequence[int]) -> list[MeterWarning]:
    """What should be told of readings that are none, and of units."""
    warnings = []
    empty = tuple(
        layout.names[read.place] for read in reads if all(read.values[line] is None for line in rows)
    )
    if empty:
        warnings.append(MeterWarning("column without a reading", empty, count=len(empty)))
    kinds: dict[str, list[tuple[str, int]]] = {}
    for read in reads:
        name = layout.names[read.place]
        for line in rows if name not in empty else ():
            if mark := read.marks.get(line):
                kinds.setdefault(mark.means, []).append((name, block.rows[line].line))
    for means, found in kinds.items():
        columns = tuple(dict.fromkeys(name for name, _ in found))
        lines = tuple(sorted({line for _, line in found}))
        warnings.append(MeterWarning("readings left out", columns, lines[:9], len(found), (means,)))
    formulas = tuple(
        layout.names[read.place]
        for read in reads
        if any(mark.means == "formula without a stored value" for mark in read.marks.values())
    )
    if formulas:
        warnings.append(MeterWarning("formulas without values", formulas, count=len(formulas)))
    if bare := tuple(layout.names[read.place] for read in reads if read.unit is None):
        warnings.append(MeterWarning("column without a unit", bare, count=len(bare)))
    return warnings


def channel(table: Table, rows: Sequence[int], units: Mapping[int, str], mapped: Mapping[int, str]) -> Table:
    """The rows of one channel as a table of its own."""
    layout = replace(
        table.layout,
        cells=tuple(tuple(column[row] for row in rows) for column in table.layout.cells),
        units={**table.layout.units, **units},
        mapped={**table.layout.mapped, **mapped},
    )
    block = replace(table.block, rows=tuple(table.block.rows[row] for row in rows))
    clock = table.clock
    if clock is not None:
        clock = replace(clock, seconds=tuple(clock.seconds[row] for row in rows))
    return replace(table, block=block, layout=layout, clock=clock)
