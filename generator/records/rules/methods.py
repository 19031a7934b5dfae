"""Methods: names, versions, tolerances for quantities, what hurts."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.library import Library
from generator.records.quantity import QuantityError, parse_quantity
from generator.records.rules.common import absent, plainly, twice
from generator.records.schema.electrical import ElectricalBase
from generator.records.schema.measures import HOTTEST, AnyMeasure, ScalarMeasure, quantity_of
from generator.records.schema.method import Method
from generator.records.units import INTERVAL, TEMPERATURE


def check(library: Library) -> Iterator[Fault]:
    """Everything that a method's versions can be wrong in."""
    for versions in library.methods.values():
        for method in versions.values():
            yield from _names(method)
            yield from _hazards(method)
            yield from _conditions(method)
            yield from _versions(method, versions, library)
            for number in range(len(method.measures)):
                yield from _spread(method, number)


def _names(method: Method) -> Iterator[Fault]:
    for number, name in twice(each.id for each in method.measures):
        yield method.fault(("measures", number, "id"), "two measures of one method cannot have one id", name)
    for number, name in twice(each.id for each in method.steps):
        yield method.fault(("steps", number, "id"), "two steps of one method cannot have one id", name)
    if HOTTEST in method.points:
        what = f"'{HOTTEST}' means the hottest of all points; a point needs another name"
        yield method.fault_of_key(("points", HOTTEST), what)


def _hazards(method: Method) -> Iterator[Fault]:
    if "mains" in method.hazard and method.protection is None:
        what = "missing: where mains is a hazard the page says how the tester was protected"
        yield method.fault(("protection",), what)
    for number, hazard in twice(method.hazard):
        yield method.fault(("hazard", number), "named twice", hazard)


def _conditions(method: Method) -> Iterator[Fault]:
    for key, asked in method.conditions.items():
        if isinstance(asked, str) and _is_quantity(asked):
            what = "a quantity needs its tolerance"
            accepted = (f"{{value: {asked}, within: 2 %}}",)
            yield method.fault(("conditions", key), what, asked, accepted)


def _is_quantity(text: str) -> bool:
    try:
        parse_quantity(text)
    except QuantityError:
        return False
    return True


def _versions(method: Method, versions: dict[int, Method], library: Library) -> Iterator[Fault]:
    for number, version in enumerate(method.comparable_with):
        path = ("comparable-with", number)
        if version >= method.version:
            yield method.fault(path, "only earlier versions can be named here", str(version))
        elif version not in versions and not library.is_broken("methods", f"{method.id}/{version}"):
            known = (str(each) for each in sorted(versions) if each < method.version)
            yield absent(
                "there is no earlier version",
                str(version),
                known,
                method.place_of(*path),
                method.path_of(*path),
            )
        elif version in versions:
            yield from _alike(method, versions[version], path)
    if method.version > 1 and method.changes is None:
        yield method.fault(("changes",), "missing: what changed since the version before, and why")


def _alike(method: Method, earlier: Method, path: tuple[str | int, ...]) -> Iterator[Fault]:
    """Versions that agree measure the same things."""
    first = {each.id: each for each in reversed(method.measures)}
    for measure in first.values():
        before = earlier.measure(measure.id)
        if before is not None and _what(before) != _what(measure):
            what = (
                f"version {earlier.version} has {_what(before)} as '{measure.id}', "
                f"and this one {_what(measure)}; such results cannot stand side by side"
            )
            yield method.fault(path, what, str(earlier.version))


def _what(measure: AnyMeasure) -> str:
    """What a measure is of, in the words of a message."""
    if isinstance(measure, ElectricalBase):
        supply = measure.supply.replace("ac", "AC").replace("dc", "DC")
        return f"{'an' if measure.kind[0] in 'aeiou' else 'a'} {measure.kind} at {supply}"
    return plainly(measure.quantity) if isinstance(measure, ScalarMeasure) else f"a {measure.kind}"


def _spread(method: Method, number: int) -> Iterator[Fault]:
    measure = method.measures[number]
    spread = getattr(measure, "spread", None)
    if spread is None:
        return
    wanted = INTERVAL if quantity_of(measure) == TEMPERATURE else quantity_of(measure)
    if spread.value.quantity != wanted:
        what = f"{plainly(wanted)} is wanted here; this is {plainly(spread.value.quantity)}"
        yield method.fault(("measures", number, "spread", "value"), what, spread.value.text)
