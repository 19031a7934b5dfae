"""Runs and their meters: each column is read by a meter that can read it, and each meter reads something."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.fault import Doubt, Fault
from generator.records.drafts import BoundColumn, Draft, column_key
from generator.records.header import QUANTITY_OF
from generator.records.library import Library
from generator.records.rules.common import absent, plainly
from generator.records.schema.electrical import OF_A_MODE, Mode, mode_of
from generator.records.schema.instrument import Instrument
from generator.records.schema.measures import typed_quantity
from generator.records.schema.method import Method


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """What reads each column of a run."""
    method = library.method(draft.body.method.id, draft.body.method.version)
    for key, bound in draft.bound.items():
        quantity = _quantity(draft, key, method)
        yield from _meter(draft, bound, library, quantity)
        if quantity in OF_A_MODE and method is not None:
            yield from _mode(bound, library, quantity, mode_of(method.measures))
    if method is not None:
        yield from _values(draft, method, library)
        yield from _read(draft, method, library)


def _quantity(draft: Draft, key: str, method: Method | None) -> str | None:
    """What a meter is to read: by the column's name, by its unit, by the measure of that id."""
    known = QUANTITY_OF.get(key.partition("@")[0])
    if known is not None:
        return known
    columns = draft.table.columns if draft.table else ()
    stated = typed_quantity(method.measure(key)) or None if method is not None else None
    return next((each.quantity for each in columns if column_key(each) == key), stated)


def _values(draft: Draft, method: Method, library: Library) -> Iterator[Fault]:
    """Each value is read by a meter, which is named by the measure or by what it measures."""
    for name in draft.body.values:
        quantity = typed_quantity(method.measure(name))
        if not quantity or {name, quantity} & set(draft.bound):
            continue
        place, path = draft.body.key_place_of("values", name), draft.body.path_of("values", name)
        able = tuple(f"{quantity}: {each}" for each in _able(quantity, library))
        what = "no instrument is named for this value"
        yield Fault(place, path, what, None, able or (f"{quantity}: <instrument>",))


def _meter(draft: Draft, bound: BoundColumn, library: Library, quantity: str | None) -> Iterator[Fault]:
    """The meter, its channel and its probe exist, and it has a range for what the column holds."""
    binding = bound.binding
    instrument = library.instruments.get(binding.instrument)
    if instrument is None:
        if not library.is_broken("instruments", binding.instrument):
            known = sorted(library.instruments)
            yield absent("there is no instrument", binding.instrument, known, bound.place, bound.path)
        return
    yield from _channel(instrument, bound)
    if quantity is not None and not instrument.range_of(quantity):
        what = f"'{instrument.id}' has no range for {plainly(quantity)}"
        yield Fault(bound.place, bound.path, what, _text(bound), _able(quantity, library))
    overdue = [each for each in instrument.calibrations if each.date <= draft.date]
    if overdue and (due := max(overdue, key=lambda each: each.date).due) is not None and due < draft.date:
        what = f"'{instrument.id}' was due for calibration on {due}, before this run of {draft.date}"
        yield Doubt(bound.place, bound.path, what)


def _mode(bound: BoundColumn, library: Library, quantity: str, mode: Mode | None) -> Iterator[Fault]:
    """A direct current is read by a range for direct current."""
    instrument = library.instruments.get(bound.binding.instrument)
    if instrument is None or not instrument.range_of(quantity) or instrument.range_of(quantity, mode):
        return
    what = f"the method's supply is {mode}, and '{instrument.id}' reads no {mode} {quantity}"
    able = [name for name, each in sorted(library.instruments.items()) if each.range_of(quantity, mode)]
    yield Fault(bound.place, bound.path, what, _text(bound), tuple(able)[:12])


def _channel(instrument: Instrument, bound: BoundColumn) -> Iterator[Fault]:
    binding, channels = bound.binding, instrument.channels
    if binding.channel is None and channels:
        what = "missing: which channel of it"
        accepted = tuple(f"{instrument.id}/{channel}" for channel in channels)
        yield Fault(bound.place, bound.path, what, _text(bound), accepted)
    elif binding.channel is not None and binding.channel not in channels:
        if channels:
            yield absent(
                f"'{instrument.id}' has no channel", binding.channel, channels, bound.place, bound.path
            )
        else:
            what = f"'{instrument.id}' has no channels"
            yield Fault(bound.place, bound.path, what, _text(bound), (instrument.id,))
    if binding.probe is not None and binding.probe not in instrument.probes:
        yield absent(
            f"'{instrument.id}' has no probe", binding.probe, instrument.probes, bound.place, bound.path
        )


def _text(bound: BoundColumn) -> str:
    binding = bound.binding
    channel = f"/{binding.channel}" if binding.channel else ""
    return f"{binding.instrument}{channel}" + (f" with {binding.probe}" if binding.probe else "")


def _able(quantity: str, library: Library) -> tuple[str, ...]:
    return tuple(sorted(name for name, each in library.instruments.items() if each.range_of(quantity)))[:12]


def _meant(key: str, columns: Iterable[str]) -> str:
    """The one column that a key means which lacks the point, or has another; empty where none is."""
    name = key.partition("@")[0]
    found = [each for each in columns if each != key and each.partition("@")[0] == name]
    return found[0] if len(found) == 1 else ""


def _read(draft: Draft, method: Method, library: Library) -> Iterator[Fault]:
    """Columns without a meter, and meters without a column."""
    columns = {column_key(each): each for each in draft.table.columns} if draft.table else {}
    said = {key for mapping in draft.conditions for key in mapping}
    typed = [each for each in method.measures if typed_quantity(each)]
    measured = {each.id for each in typed} | {typed_quantity(each) for each in typed}
    others = {*columns, *said, *(measured if draft.body.values else ())}
    misspelt = {_meant(key, columns) for key in draft.bound if key not in others}
    for key, column in columns.items():
        if key != "time" and key not in draft.bound and key not in misspelt:
            what = f"no instrument is named for the column '{key}'"
            accepted = tuple(f"{key}: {each}" for each in _able(column.quantity, library))
            path = draft.body.path_of("readings")
            yield Fault(column.place, path, what, None, accepted or (f"{key}: <instrument>",))
    if draft.table is None and not draft.body.values:
        return
    for key, bound in draft.bound.items():
        if key not in others:
            where = "readings" if draft.has_readings else "`readings` or `values`"
            near = _meant(key, columns)
            meant = f"; did you mean '{near}'?" if near else ""
            what = f"nothing is read by this: there is no '{key}' in the {where}{meant}"
            yield Fault(bound.place, bound.path, what, _text(bound), tuple(k for k in columns if k != "time"))
