"""Runs that measure a drop at a current: both columns, directions that agree, reversed readings in pairs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.fault import Fault
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.schema.electrical import ElectricalBase, ResistanceMeasure
from generator.records.schema.measures import HeatingMeasure
from generator.records.schema.method import Method
from generator.records.table import Column, Table


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """What such a measure needs of a run."""
    method = library.method(draft.body.method.id, draft.body.method.version)
    if method is None or draft.waits:
        return
    measures = [each for each in method.measures if isinstance(each, ElectricalBase)]
    for measure in measures:
        yield from _given(draft, method, measure)
    if measures and draft.table is not None:
        yield from _pairs(draft, draft.table, measures)


def _path(draft: Draft) -> str:
    return draft.record.path_of("readings")


def _given(draft: Draft, method: Method, measure: ElectricalBase) -> Iterator[Fault]:
    """What the figure is made of: a value, or the columns."""
    if measure.id in draft.body.values:
        if getattr(measure, "kind", "") == "drop" and not any("current" in each for each in draft.conditions):
            what = "missing: the current that the drop was read at, as `current: 30.1 A` under `conditions`"
            yield draft.body.fault_of_key(("values", measure.id), what)
        return
    table = draft.table
    if table is None or (isinstance(measure, ResistanceMeasure) and table.column("resistance")):
        return
    if measure.at is not None and table.column("time") is None:
        what = f"missing: the column 'time', since '{measure.id}' has a mark"
        yield draft.record.fault(("readings",), what)
    warms = any(isinstance(each, HeatingMeasure) for each in method.measures)
    for name in ("drop", "current"):
        if table.column(name) is None:
            what = f"missing: the column '{name}', which '{measure.id}' is made of"
            made = draft.record.doubt if warms else draft.record.fault
            yield made(("readings",), what)


def _pairs(draft: Draft, table: Table, measures: Sequence[ElectricalBase]) -> Iterator[Fault]:
    drop, current = table.column("drop"), table.column("current")
    if drop is None or current is None:
        return
    whole, signed = any(each.at is None for each in measures), _signed(current)
    forward = back = 0
    for row in range(table.rows):
        volts, amps = drop.cells[row], current.cells[row]
        if row in table.excluded or volts is None or amps is None:
            continue
        if amps.value == 0 and whole:
            yield Fault(amps.place, _path(draft), "a drop without current gives no resistance", amps.text)
        if amps.value < 0 < volts.value or (volts.value < 0 < amps.value and signed):
            what = "the drop and the current have unlike directions; is a lead the other way round?"
            yield Fault(volts.place, _path(draft), what, volts.text)
        turned = (amps if signed else volts).value < 0
        forward, back = forward + (not turned), back + turned
    if back and any(each.supply != "dc" for each in measures):
        what = "readings with the current reversed; an alternating one has no direction"
        yield draft.record.fault(("readings",), what)
    elif whole and back and forward != back:
        what = (
            f"{forward} drops one way and {back} the other: each reading with the current reversed needs "
            "its pair; exclude what has none with '! reason'"
        )
        yield draft.record.fault(("readings",), what)


def _signed(current: Column) -> bool:
    """Whether the meter tells which way the current goes."""
    return any(cell is not None and cell.value < 0 for cell in current.cells)
