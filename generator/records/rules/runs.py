"""Runs: the method, item and piece that they name, and answers that fit what the method measures."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault, Place
from generator.records.conditions import read_conditions, read_values
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.rules.common import absent, twice
from generator.records.schema.measures import (
    AnyMeasure,
    CheckMeasure,
    CountMeasure,
    EnduranceMeasure,
    ScalarMeasure,
    typed_quantity,
)
from generator.records.schema.method import Method
from generator.records.schema.references import CountOf, LastedTo
from generator.records.units import offered


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """What a run names, and what it answers."""
    yield from _method(draft, library)
    yield from _piece(draft, library)
    yield from _opinions(draft)
    method = library.method(draft.body.method.id, draft.body.method.version)
    if method is not None:
        said = read_conditions(draft, method)
        yield from (*said.faults, *said.doubts)
        yield from () if draft.waits else read_values(draft, method)[1]
        yield from _answers(draft, method)
        yield from _something(draft, method)


def _method(draft: Draft, library: Library) -> Iterator[Fault]:
    ref = draft.body.method
    if library.method(ref.id, ref.version) or library.is_broken("methods", str(ref)):
        return
    place, path = draft.body.place_of("method"), draft.body.path_of("method")
    versions = library.methods.get(ref.id, {})
    if not versions:
        known = sorted(f"{name}/{max(each)}" for name, each in library.methods.items())
        yield absent("there is no method", str(ref), known, place, path)
    else:
        known = [f"{ref.id}/{number}" for number in sorted(versions)]
        yield Fault(place, path, f"there is no version {ref.version} of this method", str(ref), tuple(known))


def _piece(draft: Draft, library: Library) -> Iterator[Fault]:
    """Item and piece, or the name of a control: one of the two."""
    body = draft.body
    if draft.control or not draft.item:
        yield from _control(draft)
        return
    item = library.items.get(draft.item)
    in_sitting = draft.record is not body
    place = body.place_of("item") if not in_sitting else _key_place(draft)
    path = body.path_of("item") if not in_sitting else body.node.path
    if item is None:
        if not library.is_broken("items", draft.item):
            yield absent("there is no item", draft.item, sorted(library.items), place, path)
    elif not draft.specimen:
        what = "missing: which piece of the item"
        yield body.fault(("specimen",), what, None, tuple(item.specimens))
    elif draft.specimen not in item.specimens:
        place = body.place_of("specimen") if not in_sitting else place
        path = body.path_of("specimen") if not in_sitting else path
        yield absent("this item has no piece", draft.specimen, item.specimens, place, path)
    else:
        had = item.specimens[draft.specimen].date
        if had is not None and draft.date < had:
            what = f"the run is of {draft.date}, and piece {draft.specimen} was had on {had}"
            yield draft.record.fault(("date",), what)


def _control(draft: Draft) -> Iterator[Fault]:
    body = draft.body
    if draft.control and draft.item:
        what = "a control run has no item; leave out `control`, or `item` and `specimen`"
        yield body.fault_of_key(("control",), what)
    elif draft.control and draft.specimen:
        what = "a control run has no piece; leave out `specimen`, or name an `item` in place of `control`"
        yield body.fault_of_key(("specimen",), what)
    elif not draft.control and draft.sitting:
        yield body.fault(("control",), "missing: the name of the control, as `control: unbroken-cable`")
    elif not draft.control:
        what = "missing: `item` and `specimen`, or `control` with its name"
        yield body.fault(("item",), what)


def _opinions(draft: Draft) -> Iterator[Fault]:
    """A run is of one item, and so is what one thinks of it."""
    for opinion in draft.body.opinions:
        if opinion.item is not None and opinion.item != draft.item:
            what = (
                f"this run is of {draft.item or 'no item'}; an opinion of another item belongs to its report"
            )
            yield opinion.fault(("item",), what, opinion.item)


def _key_place(draft: Draft) -> Place:
    return draft.record.key_place_of("runs", draft.owner)


def _answers(draft: Draft, method: Method) -> Iterator[Fault]:
    """Values, counts and checks are those of the method."""
    typed = [each.id for each in method.measures if typed_quantity(each)]
    counted = [each.id for each in method.measures if isinstance(each, CountMeasure | EnduranceMeasure)]
    for key, known, kind in (("values", typed, "scalar"), ("counts", counted, "count")):
        for name in getattr(draft.body, key):
            if name not in known:
                place, path = draft.body.key_place_of(key, name), draft.body.path_of(key, name)
                yield absent(f"{draft.body.method} has no {kind} measure", name, known, place, path)
    yield from _counts(draft, method)
    checks = [each.id for each in method.measures if isinstance(each, CheckMeasure)]
    for seen in draft.body.observations:
        if seen.check not in checks:
            place, path = seen.place_of("check"), seen.path_of("check")
            yield absent(f"{draft.body.method} has no check", seen.check, checks, place, path)
    for number, name in twice(each.check for each in draft.body.observations):
        yield draft.body.fault(("observations", number, "check"), "answered twice", name)


def _counts(draft: Draft, method: Method) -> Iterator[Fault]:
    """A count is so many of so many; of endurance it says how many cycles, and whether it failed there."""
    for name, said in draft.body.counts.items():
        measure = method.measure(name)
        path = ("counts", name)
        if isinstance(measure, EnduranceMeasure) and isinstance(said, CountOf):
            what = f"{name} is endurance: say at how many cycles it broke, or how many it outlasted"
            found = f"{said.k} of {said.n}"
            yield draft.body.fault(path, what, found, ("broke at 1200", "over 2000"))
        elif isinstance(measure, CountMeasure) and isinstance(said, LastedTo):
            found = f"{'broke at' if said.failed else 'over'} {said.cycles}"
            yield draft.body.fault(path, f"{name} counts so many of so many", found, ("0 of 50",))


def _something(draft: Draft, method: Method) -> Iterator[Fault]:
    """A run without readings is one to be filled in: told each time, and left out until then."""
    body = draft.body
    ways = ", or ".join(dict.fromkeys(_way(draft, each) for each in method.measures))
    if draft.waits:
        path = _where(draft)
        holder = body if path[:1] == ("values",) else draft.record
        yield holder.doubt(path, f"the readings are missing: {ways}")
    elif not (draft.has_readings or body.values or body.counts or body.observations):
        yield body.fault((), f"stopped, and nothing was measured before: {ways}")


def _where(draft: Draft) -> tuple[str, ...]:
    """Where the readings of a run are to stand: its first value, its table, or itself."""
    if draft.body.values:
        return "values", next(iter(draft.body.values))
    return ("readings",) if draft.has_readings else ("runs", draft.owner) if draft.sitting else ()


def _way(draft: Draft, measure: AnyMeasure) -> str:
    """How what a measure needs comes into a run."""
    if isinstance(measure, CountMeasure):
        return f"write so many of so many under `counts`, as `{measure.id}: 0 of 50`"
    if isinstance(measure, EnduranceMeasure):
        return f"write `{measure.id}: broke at 1200` or `{measure.id}: over 2000` under `counts`"
    if isinstance(measure, CheckMeasure):
        return "answer the method's questions under `observations`"
    if isinstance(measure, ScalarMeasure) and measure.reduce is None:
        unit = offered(measure.quantity)[0]
        return f"write the number and its unit under `values`, as `{measure.id}: <number> {unit}`"
    into = draft.sitting or draft.id
    return f"write a row a reading under `readings`, or: provebook import FILE --into {into}"
