"""Sittings: columns that belong to runs, runs that have columns, a date that is the file's."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.conditions import known_conditions
from generator.records.drafts import column_key
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.sitting import Sitting
from generator.records.schema.told import nearest
from generator.records.table import Column, Table
from generator.records.units import TEMPERATURE


def check(library: Library) -> Iterator[Fault]:
    """Everything that a sitting's record alone can be wrong in."""
    for sitting in library.sittings.values():
        yield from _date(sitting)
        yield from _conditions(sitting, library)
        table = library.table(sitting.readings, sitting.place_of().file)
        if table is not None:
            yield from _columns(sitting, table)
            yield from _channels(sitting, table)


def _date(sitting: Sitting) -> Iterator[Fault]:
    if not sitting.id.startswith(str(sitting.date)):
        what = f"the file's name says {sitting.id[:10]}"
        yield sitting.fault(("date",), what, str(sitting.date))


def _conditions(sitting: Sitting, library: Library) -> Iterator[Fault]:
    refs = [run.method for run in sitting.runs.values()]
    methods = [library.method(ref.id, ref.version) for ref in refs]
    known = tuple(dict.fromkeys(key for each in methods if each for key in known_conditions(each)))
    for key in sitting.conditions:
        if None not in methods and key not in known:
            what = f"unknown key{nearest(key, known)}"
            yield sitting.fault_of_key(("conditions", key), what, None, known)


def _columns(sitting: Sitting, table: Table) -> Iterator[Fault]:
    owners = dict.fromkeys(column.owner for column in table.columns if column.owner)
    for column in table.columns:
        if column.owner and column.owner not in sitting.runs:
            yield absent("this sitting has no run", column.owner, sitting.runs, column.place, "readings")
        elif column.name == TEMPERATURE and not column.owner:
            what = "whose temperature this is must stand before it"
            accepted = tuple(f"{run}@{column.point or 'body'} {column.unit.typed}" for run in sitting.runs)
            yield Fault(column.place, "readings", what, column.head.label, accepted[:12])
    yield from _unread(sitting, owners)
    names = {column.name for column in table.columns if column.owner}
    for run, body in sitting.runs.items():
        for key in body.own:
            if "@" not in key and not body.takes(key) and key not in names:
                what = f"unknown key{nearest(key, body.spelt())}"
                yield sitting.fault_of_key(("runs", run, key), what, None, body.spelt())


def _channels(sitting: Sitting, table: Table) -> Iterator[Fault]:
    """A channel that is named for two columns: one of the two is mostly a slip."""
    first: dict[tuple[str, str], Column] = {}
    for column in table.columns:
        body, key = sitting.runs.get(column.owner), column_key(column)
        binding = (body.own if body else sitting.instruments).get(key)
        if binding is None or binding.channel is None:
            continue
        other = first.setdefault((binding.instrument, binding.channel), column)
        if other is not column and _together(other, column):
            channel = f"{binding.instrument}/{binding.channel}"
            what = f"'{channel}' reads '{other.head.label}' at the same times; a channel has one probe"
            yield sitting.doubt(("runs", column.owner, key) if body else ("instruments", key), what)


def _together(one: Column, other: Column) -> bool:
    return any(first and second for first, second in zip(one.cells, other.cells, strict=True))


def _unread(sitting: Sitting, owners: dict[str, None]) -> Iterator[Fault]:
    for run, body in sitting.runs.items():
        if run not in owners and not (body.values or body.counts or body.observations):
            what = f"this run has no column of its own in the readings, as `{run}@body degC`"
            yield sitting.fault_of_key(("runs", run), what)
