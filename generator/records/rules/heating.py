"""Methods that heat: marks on the schedule, points that exist, a current held, a limit above the air."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.library import Library
from generator.records.quantity import Quantity, Range
from generator.records.rules.common import MOST, absent
from generator.records.schema.measures import HOTTEST, HeatingMeasure
from generator.records.schema.method import Method, Toleranced
from generator.records.units import TEMPERATURE

LEAST_READINGS = 2
"""Readings that the window of settling needs; the slope of fewer has no limits."""

MOST_OFF = 0.05
"""Share by which a current may be off; what a correction is worth beyond is not known (our choice)."""


def check(library: Library) -> Iterator[Fault]:
    """Everything that the heating measures of a method can be wrong in."""
    for versions in library.methods.values():
        for method in versions.values():
            heating = {
                number: each
                for number, each in enumerate(method.measures)
                if isinstance(each, HeatingMeasure)
            }
            for number, measure in heating.items():
                yield from _heating(method, number, measure)
            if heating:
                yield from _current(method)
            yield from _limit(method)
            yield from _declared(method)


def _heating(method: Method, number: int, measure: HeatingMeasure) -> Iterator[Fault]:
    path = ("measures", number)
    if measure.point != HOTTEST and measure.point not in method.points:
        place = method.place_of(*path, "point")
        known = (*method.points, HOTTEST)
        yield absent("this method has no point", measure.point, known, place, method.path_of(*path, "point"))
    elif not method.points:
        yield method.fault(("points",), "missing: where temperatures are read")
    if method.schedule is None:
        yield method.fault(("schedule",), "missing: when to read, as `0 2 5 10 15 20 30 45 60 min`")
        return
    times = [each.si for each in method.schedule]
    mark, within, window = measure.at.si, measure.within.si, measure.settled.over
    if not any(abs(time - mark) <= within for time in times):
        what = f"no reading of the schedule lies within {measure.within.text} of this mark"
        listed = tuple(each.text for each in method.schedule[:MOST])
        yield method.fault((*path, "at"), what, measure.at.text, listed)
    elif sum(time >= times[-1] - window.si - within for time in times) < LEAST_READINGS:
        what = f"the schedule has fewer than two readings in its last {window.text}"
        accepted = ("a schedule with more readings towards its end", "a longer window")
        yield method.fault((*path, "settled", "over"), what, accepted=accepted)


def _current(method: Method) -> Iterator[Fault]:
    asked = method.conditions.get("current")
    if not isinstance(asked, Toleranced):
        return
    share = asked.within.si if asked.within.quantity == "ratio" else asked.within.si / abs(asked.value.si)
    if share > MOST_OFF * (1 + 1e-12):
        what = "a current may be off by 5 % at most; the rise cannot be told for the set current beyond that"
        yield asked.fault(("within",), what, asked.within.text)


def _limit(method: Method) -> Iterator[Fault]:
    """A limit that the air reaches alone stops every run before it begins."""
    air = _highest(method.conditions.get("ambient"))
    if air is not None and method.stop_limit is not None and method.stop_limit.si <= air.si:
        what = f"every run would be stopped before it begins: the air itself may be {air.text}"
        yield method.fault(("stop-limit",), what, method.stop_limit.text)


def _highest(asked: object) -> Quantity | None:
    if isinstance(asked, Range):
        return asked.high
    value = asked.value if isinstance(asked, Toleranced) else None
    return value if value is not None and value.quantity == TEMPERATURE else None


def _declared(method: Method) -> Iterator[Fault]:
    """What is declared is known better than not at all."""
    what = "as wide as the value itself or wider, so that nothing is declared"
    if method.tau is not None and method.tau.within.si >= method.tau.value.si:
        yield method.fault(("tau", "within"), what, method.tau.within.text)
    if method.exponent is not None and method.exponent.within >= method.exponent.value:
        yield method.fault(("exponent", "within"), what, f"{method.exponent.within:g}")
