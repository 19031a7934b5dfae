"""Readings and the ranges of what read them: a value past the end of a range is no value."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Doubt, Fault
from generator.records.cells import Cell
from generator.records.drafts import Draft, column_key
from generator.records.library import Library
from generator.records.schema.instrument import Instrument
from generator.records.table import Column

# Values and ends are converted from their own units, so the last binary digits may differ.
_TINY = 1e-9


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """Readings of a run that its meters could not have shown."""
    for column in draft.table.columns if draft.table else ():
        instrument = _meter(draft, column, library)
        if instrument is not None:
            yield from _column(draft, column, instrument)


def _meter(draft: Draft, column: Column, library: Library) -> Instrument | None:
    bound = draft.bound.get(column_key(column))
    return library.instruments.get(bound.binding.instrument) if bound else None


def is_past_the_end(cell: Cell, draft: Draft, column: Column, library: Library) -> bool:
    """Whether a reading lies above every range of its meter, and is told for that already."""
    instrument = _meter(draft, column, library)
    ends = [each.to.si for each in instrument.range_of(column.quantity)] if instrument else []
    return bool(ends) and not cell.bound and _past(cell, max(ends))


def _column(draft: Draft, column: Column, instrument: Instrument) -> Iterator[Fault]:
    ranges = instrument.range_of(column.quantity)
    if not ranges:
        return
    top = max(ranges, key=lambda each: each.to.si).to
    low = None
    if all(each.from_ is not None for each in ranges):
        low = min((each.from_ for each in ranges if each.from_ is not None), key=lambda each: each.si)
    path = draft.record.path_of("readings")
    for cell in column.cells:
        if cell is None or cell.bound:
            continue
        if _past(cell, top.si):
            end = column.unit.from_si(top.si)
            what = f"above the range of '{instrument.id}', which ends at {top.text}: write >{end:g}"
            yield Fault(cell.place, path, what, cell.text)
        elif low is not None and _past(cell, low.si, sign=-1.0):
            end = column.unit.from_si(low.si)
            what = f"below the range of '{instrument.id}', which begins at {low.text}: write <{end:g}"
            yield Fault(cell.place, path, what, cell.text)
        elif abs(cell.value - top.si) <= _TINY * abs(top.si):
            what = f"the very end of the range of '{instrument.id}'; if it was over range, write >{cell.text}"
            yield Doubt(cell.place, path, what, cell.text)


def _past(cell: Cell, end: float, sign: float = 1.0) -> bool:
    return sign * (cell.value - end) > _TINY * abs(end)
