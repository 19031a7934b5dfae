"""Older results: items and measures that exist, in the measure's quantity, from before, each once."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from generator.fault import Fault
from generator.records.dates import as_known
from generator.records.library import Library
from generator.records.rules.common import absent, plainly
from generator.records.schema.measured import UNKNOWN
from generator.records.schema.measures import AnyMeasure, quantity_of
from generator.records.schema.older import OlderBatch, OlderResult


def check(library: Library) -> Iterator[Fault]:
    """Everything that a batch of older results can be wrong in."""
    newest = _newest(library)
    for batch in library.older.values():
        for number, result in enumerate(batch.results):
            yield from _item(batch, number, library)
            yield from _measure(batch, number, library)
            yield from _uncertainty(batch, number)
            if newest is not None and result.date > as_known(newest, result.date):
                what = f"after the newest run of this bench, of {newest}; what was measured since is a run"
                yield batch.fault(("results", number, "date"), what, str(result.date))
    yield from _once(library)


def _newest(library: Library) -> date | None:
    """The day of the newest run, typed as a file or in a sitting."""
    runs = (each.date for own in library.runs.values() for each in own.values())
    return max((*runs, *(each.date for each in library.sittings.values())), default=None)


def _item(batch: OlderBatch, number: int, library: Library) -> Iterator[Fault]:
    item, path = batch.results[number].item, ("results", number, "item")
    if item not in library.items and not library.is_broken("items", item):
        yield absent(
            "there is no item", item, sorted(library.items), batch.place_of(*path), batch.path_of(*path)
        )


def _measure(batch: OlderBatch, number: int, library: Library) -> Iterator[Fault]:
    """An older figure stands beside those of a measure that there is, in its quantity."""
    result, broken = batch.results[number], any(kind == "methods" for kind, _ in library.broken)
    if result.method is not None and result.method not in library.methods:
        path = ("results", number, "method")
        if not broken:
            place, where = batch.place_of(*path), batch.path_of(*path)
            yield absent("there is no method", result.method, sorted(library.methods), place, where)
        return
    stating = result.measured_by(library.methods)
    if not stating and not broken:
        path = ("results", number, "measure")
        what = "this method has no measure" if result.method else "no method has a measure"
        known = _known(result, library)
        yield absent(what, result.measure, known, batch.place_of(*path), batch.path_of(*path))
    elif len(stating) > 1:
        what = f"measured by {' and '.join(stating)}; say by `method` which is meant"
        yield batch.fault(("results", number, "measure"), what, result.measure, stating)
    else:
        yield from _quantity(batch, number, _stated(result, library))


def _known(result: OlderResult, library: Library) -> dict[str, None]:
    """What the methods of the bench measure, or the one that is named."""
    methods = [library.methods[result.method]] if result.method else library.methods.values()
    return dict.fromkeys(
        each.id for versions in methods for method in versions.values() for each in method.measures
    )


def _stated(result: OlderResult, library: Library) -> list[AnyMeasure]:
    """The measure as each version of its method has it."""
    methods = [
        each for name in result.measured_by(library.methods) for each in library.methods[name].values()
    ]
    return [stated for each in methods if (stated := each.measure(result.measure)) is not None]


def _quantity(batch: OlderBatch, number: int, stated: list[AnyMeasure]) -> Iterator[Fault]:
    result, path = batch.results[number], ("results", number, "value")
    wanted = dict.fromkeys(quantity for each in stated if (quantity := quantity_of(each)))
    if stated and not wanted:
        what = f"'{result.measure}' is counted or answered; an older result is a number with a unit"
        yield batch.fault(("results", number, "measure"), what, result.measure)
    elif wanted and result.value.quantity not in wanted:
        told = " or ".join(plainly(each) for each in wanted)
        what = f"'{result.measure}' is {told}; this is {plainly(result.value.quantity)}"
        yield batch.fault(path, what, result.value.text)


def _uncertainty(batch: OlderBatch, number: int) -> Iterator[Fault]:
    """What only a bound is known of has no ±."""
    result = batch.results[number]
    if result.value.bound and result.uncertainty != UNKNOWN:
        what = f"'{result.value.text}' is the end of a range and has no ±; write unknown"
        yield batch.fault(("results", number, "uncertainty"), what)


def _once(library: Library) -> Iterator[Fault]:
    """Each row once in the whole bench: a sheet is easily pasted twice."""
    seen: dict[tuple[object, ...], str] = {}
    for batch in library.older.values():
        for number, result in enumerate(batch.results):
            key = _key(result)
            if key in seen:
                hint = "of pieces that read alike say how many: `pieces`"
                what = f"the same in every cell as {seen[key]}; {hint}"
                yield batch.fault(("results", number), what)
            seen.setdefault(key, f"result {number + 1} of {batch.id}")


def _key(result: OlderResult) -> tuple[object, ...]:
    """What makes a row that row."""
    width = result.uncertainty if isinstance(result.uncertainty, str) else result.uncertainty.si
    said = (result.item, result.date, result.measure, result.method, result.value.si, result.value.bound)
    besides = (result.air and result.air.si, result.at and result.at.si, result.pieces)
    return (*said, width, *besides, result.meter, result.published)
