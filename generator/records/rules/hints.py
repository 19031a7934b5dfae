"""Hints of imports: beside their instrument, and of what it has."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.header import QUANTITY_OF
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.imports import ImportHints
from generator.records.schema.instrument import Instrument
from generator.records.units import TIME, find_unit


def check(library: Library) -> Iterator[Fault]:
    """Everything that hints can be wrong in."""
    for name, hints in library.hints.items():
        instrument = library.instruments.get(name)
        if instrument is not None:
            yield from _columns(hints, instrument)
        elif not library.is_broken("instruments", name):
            what = f"these hints are for an instrument '{name}', and there is no {name}.yml beside them"
            yield Fault(hints.place_of(), "", what)
        yield from _units(hints)


def reads(instrument: Instrument) -> tuple[str, ...]:
    """What a column of its files can be: one of its channels; of a meter without any, what it reads."""
    if instrument.channels:
        return tuple(instrument.channels)
    quantities = {each.quantity for each in instrument.ranges}
    return tuple(dict.fromkeys(name for name, what in QUANTITY_OF.items() if what in quantities))


def _columns(hints: ImportHints, instrument: Instrument) -> Iterator[Fault]:
    known = reads(instrument)
    what = "this instrument has no channel" if instrument.channels else "this instrument reads nothing"
    for column, said in hints.columns.items():
        if said not in {*known, TIME}:
            place, path = hints.place_of("columns", column), hints.path_of("columns", column)
            yield absent(what, said, known, place, path)


def _units(hints: ImportHints) -> Iterator[Fault]:
    for column, unit in hints.units.items():
        # Whole tenths are written with their step before the unit: `0.1 degC`.
        step, _, symbol = unit.partition(" ")
        bare = symbol if step[:1].isdigit() else unit
        if find_unit(bare) is None:
            yield hints.fault(("units", column), "not a unit that is known here", unit)
    if hints.interval is not None and hints.interval.value <= 0:
        yield hints.fault(("interval",), "a time above nought is needed", hints.interval.text)
