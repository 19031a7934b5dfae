"""Temperatures that no part can have had: far above any bench, or reached faster than its own heat allows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from generator.fault import Fault
from generator.records.cells import Cell
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.rules.spans import is_past_the_end
from generator.records.table import Column, Table
from generator.records.units import TEMPERATURE

HOTTEST = 1000.0
"""°C; brass and copper have melted or are about to (common practice, no source)."""

GRAM_OF_PLASTIC = 1.5
"""Heat that a gram of plastic takes up, J/K (common practice, no source); no fitting weighs less."""

LEAST_JUMP = 50.0
"""K; smaller steps are not looked at: a probe that settles, a draught, heat out of the cable (our choice)."""


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """Readings of temperature that are slips of the pen; past their meter's range they are told there."""
    table = draft.table
    for column in table.columns if table else ():
        for fault, cell in _slips(draft, column, library):
            if not is_past_the_end(cell, draft, column, library):
                yield fault


def _slips(draft: Draft, column: Column, library: Library) -> Iterator[tuple[Fault, Cell]]:
    table, path = draft.table, draft.record.path_of("readings")
    if table is None or column.quantity != TEMPERATURE:
        return
    for cell in table.counted(column):
        if cell.value > HOTTEST and not cell.bound:
            what = "above 1000 degC, where no fitting is left; over range is written as >150.0"
            yield Fault(cell.place, path, what, cell.text), cell
    method = library.method(draft.body.method.id, draft.body.method.version)
    # In an overload test the cable's own heat may reach the part sooner than its own.
    if column.name == TEMPERATURE and draft.item and method is not None and "overload" not in method.hazard:
        yield from _too_fast(table, column, path)


@dataclass(frozen=True)
class _Read:
    """A row with all that is needed: time in s, temperature, the air in °C where it was read, power in W."""

    time: float
    hot: Cell
    air: float | None
    power: float


def _too_fast(table: Table, column: Column, path: str) -> Iterator[tuple[Fault, Cell]]:
    """Steps that the whole heat of the fitting could not give a gram of plastic that loses none."""
    for before, after in pairwise(_rows(table, column)):
        if before is None or after is None or after.hot.value > HOTTEST:
            continue
        jump, span = after.hot.value - before.hot.value, after.time - before.time
        if before.air is not None and after.air is not None:
            jump -= after.air - before.air
        power = max(before.power, after.power)
        if jump > max(LEAST_JUMP, power * span / GRAM_OF_PLASTIC):
            what = (
                f"{jump:.0f} K in {span:g} s, and {power:.2g} W of current and drop could not heat a gram of"
                " plastic so fast; mend it, or exclude the row with `! reason`"
            )
            yield Fault(after.hot.place, path, what, after.hot.text), after.hot


def _rows(table: Table, column: Column) -> Iterator[_Read | None]:
    """The rows that count; None for one in which something was not read."""
    time, current, drop = (table.column(name) for name in ("time", "current", "drop"))
    air = table.column("ambient")
    if time is None or current is None or drop is None:
        return
    for row in range(table.rows):
        if row in table.excluded:
            continue
        cells = [each.cells[row] for each in (time, column, current, drop)]
        read = [cell for cell in cells if cell is not None and not cell.bound]
        cool = air.cells[row] if air is not None else None
        if len(read) < len(cells):
            yield None
        else:
            at, hot, amps, volts = read
            yield _Read(at.value, hot, cool.value if cool else None, abs(amps.value * volts.value))
