"""Readings that a column in the wrong place gives away: air that no bench has, a part colder than the air."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Doubt, Fault
from generator.records.accuracy import Accuracy
from generator.records.cells import Cell
from generator.records.drafts import Draft, column_key
from generator.records.grammar import QuantityError
from generator.records.library import Library
from generator.records.schema.instrument import InstrumentRange
from generator.records.table import Column, Table
from generator.records.units import TEMPERATURE

COLDEST, WARMEST = -20.0, 60.0
"""°C; air in which somebody stands at a bench (our choice)."""


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """The air of a run, and its part before the current came on."""
    table = draft.table
    air = table.column("ambient") if table is not None else None
    if table is None or air is None:
        return
    path = draft.record.path_of("readings")
    for cell in table.counted(air):
        if not COLDEST <= cell.value <= WARMEST:
            what = f"no air at a bench (it has {COLDEST:g} to {WARMEST:g} degC); is it the part's column?"
            yield Doubt(cell.place, path, what, cell.text)
            break
    for column in table.columns:
        if column.name == TEMPERATURE and (start := _start(table, column, air)):
            yield from _colder(draft, library, path, (column, start[0]), (air, start[1]))


def _start(table: Table, column: Column, air: Column) -> tuple[Cell, Cell] | None:
    """The first row that counts and has both."""
    for row, pair in enumerate(zip(column.cells, air.cells, strict=True)):
        if row not in table.excluded and pair[0] is not None and pair[1] is not None:
            return None if pair[0].bound or pair[1].bound else (pair[0], pair[1])
    return None


def _colder(
    draft: Draft, library: Library, path: str, part: tuple[Column, Cell], air: tuple[Column, Cell]
) -> Iterator[Fault]:
    errors = [_error(draft, library, *each) for each in (part, air)]
    gap = air[1].value - part[1].value
    known = [each for each in errors if each is not None]
    if len(known) < len(errors) or gap <= sum(known):
        return
    what = (
        f"{gap:.1f} K colder than the air at the start, and the meters are {sum(known):.1f} K off at most;"
        " is each in its own column?"
    )
    yield Doubt(part[1].place, path, what, part[1].text)


def _error(draft: Draft, library: Library, column: Column, cell: Cell) -> float | None:
    """How far a reading may be from the truth, K, meter and probe added; None where unknown."""
    bound = draft.bound.get(column_key(column))
    instrument = library.instruments.get(bound.binding.instrument) if bound else None
    if bound is None or instrument is None:
        return None
    ranges = [each for each in instrument.range_of(TEMPERATURE) if each.to.si >= cell.value]
    if not ranges:
        return None
    probe = bound.binding.probe or instrument.channels.get(bound.binding.channel or "")
    found = min(ranges, key=lambda each: each.to.si)
    parts = [found.accuracy, instrument.probes.get(probe) if probe else None]
    widths = [_half_width(each, found, cell) for each in parts if each is not None]
    return sum(widths) if widths else None


def _half_width(accuracy: Accuracy, stated: InstrumentRange, cell: Cell) -> float:
    step = stated.resolution.si if stated.resolution is not None else 10.0**-cell.decimals
    try:
        return accuracy.half_width(cell.value, step)
    except QuantityError:  # Told by the rule of spans.
        return 0.0
