"""Methods that measure drop, resistance, impedance or power: what the supply allows, what leads are known."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.electrical import AT_THE_SET_CURRENT, ElectricalBase, Leads
from generator.records.schema.method import Method, Toleranced


def check(library: Library) -> Iterator[Fault]:
    """Everything that such a measure of a method can be wrong in."""
    for versions in library.methods.values():
        for method in versions.values():
            for number, measure in enumerate(method.measures):
                if isinstance(measure, ElectricalBase):
                    yield from _supply(method, number, measure)
                    yield from _leads(method, number, measure)
                    yield from _place(method, number, measure)


def _supply(method: Method, number: int, measure: ElectricalBase) -> Iterator[Fault]:
    kind, path = str(getattr(measure, "kind", "")), ("measures", number)
    if kind in {"resistance", "power"} and measure.supply == "ac":
        what = f"without the part of the voltage that is in phase with the current there is no {kind}"
        other = "`kind: impedance`" if kind == "resistance" else "`kind: drop`"
        yield method.fault((*path, "supply"), what, "ac", ("`ac in phase`, where it was read so", other))
    if kind == "impedance" and measure.supply != "ac":
        what = "such a voltage by current is a resistance"
        yield method.fault((*path, "kind"), what, "impedance", ("resistance",))
    if measure.emf is not None and measure.supply != "dc":
        what = "thermal EMF is a direct voltage, and takes no part in an alternating one"
        yield method.fault((*path, "emf"), what, measure.emf.text)
    if kind in AT_THE_SET_CURRENT and not isinstance(method.conditions.get("current"), Toleranced):
        what = f"missing: the current that a {kind} is told at, as `current: {{value: 30 A, within: 2 %}}`"
        yield method.fault(("conditions", "current"), what)


def _leads(method: Method, number: int, measure: ElectricalBase) -> Iterator[Fault]:
    path, leads = ("measures", number, "leads"), measure.leads
    if not isinstance(leads, Leads):
        return
    if measure.supply == "ac":
        what = "a lead's resistance cannot be taken off a voltage whose phase is not known"
        yield method.fault(path, what, None, ("included", "none"))
    if leads.control is None and leads.per_metre is None and leads.conductor is None:
        what = "missing: how its resistance is known: `control`, `per-metre` or `conductor`"
        yield method.fault(path, what)
    if leads.per_metre is not None and leads.per_metre_within is None:
        what = "missing: how far off the resistance of a metre may be"
        yield method.fault((*path, "per-metre-within"), what)
    if leads.within.si >= leads.length.si:
        what = "as wide as the length itself or wider, so that nothing is known of it"
        yield method.fault((*path, "within"), what, leads.within.text)


def _place(method: Method, number: int, measure: ElectricalBase) -> Iterator[Fault]:
    path = ("measures", number)
    if measure.point is not None and measure.point not in method.points:
        place, where = method.place_of(*path, "point"), method.path_of(*path, "point")
        yield absent("this method has no point", measure.point, method.points, place, where)
    if measure.at is None:
        return
    if method.schedule is None:
        what = "a time mark needs a `schedule`; leave it out where a run is a table of pairs"
        yield method.fault((*path, "at"), what, measure.at.text)
    elif not any(abs(each.si - measure.at.si) <= measure.within.si for each in method.schedule):
        what = f"no reading of the schedule lies within {measure.within.text} of this mark"
        yield method.fault((*path, "at"), what, measure.at.text)
