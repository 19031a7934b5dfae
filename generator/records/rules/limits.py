"""Limits of a report: for a place that heats, or for a measure and in its quantity."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from generator.fault import Fault
from generator.records.rules.common import absent
from generator.records.schema.measures import HeatingMeasure, quantity_of
from generator.records.schema.method import Method
from generator.records.schema.report import Limit, ReportRecord
from generator.records.units import INTERVAL, offered


def form(record: ReportRecord) -> Iterator[Fault]:
    """What a limit alone can be wrong in."""
    for number, limit in enumerate(record.limits):
        if limit.value.si <= 0.0:
            path = ("limits", number, "value")
            yield record.fault(path, "a limit above nought is needed", limit.value.text)
        if limit.of_heating and limit.point is None:
            yield limit.fault(("point",), f"missing: the place that a limit on the {limit.kind} is for")
        elif limit.of_heating and limit.measure is not None:
            what = "a rise or a temperature is for a place; `measure` is for `at most` and `at least`"
            yield limit.fault(("measure",), what, limit.measure)
        elif not limit.of_heating and limit.measure is None:
            what = f"missing: the measure that `{limit.kind}` is for"
            yield limit.fault(("measure",), what, None, record.measures)
        elif not limit.of_heating and limit.point is not None:
            what = f"a place is for a rise or a temperature; `{limit.kind}` is for a measure"
            yield limit.fault(("point",), what, limit.point)


def fit(record: ReportRecord, methods: Mapping[str, list[Method]]) -> Iterator[Fault]:
    """What a limit is for that no method of the report's runs has."""
    used = [method for versions in methods.values() for method in versions]
    for limit in record.limits:
        if limit.of_heating:
            own = [each for each in used if any(isinstance(of, HeatingMeasure) for of in each.measures)]
            yield from _place(limit, own)
        else:
            own = [each for each in used if each.measure(limit.measure or "") is not None]
            yield from _measure(limit, record, own)
        yield from _conditions(limit, own) if own else ()


def _place(limit: Limit, methods: Iterable[Method]) -> Iterator[Fault]:
    points = dict.fromkeys(point for method in methods for point in method.points)
    if limit.point is not None and limit.point not in points:
        place, path = limit.place_of("point"), limit.path_of("point")
        yield absent("no method of this report's runs has a point", limit.point, points, place, path)


def _measure(limit: Limit, record: ReportRecord, methods: Iterable[Method]) -> Iterator[Fault]:
    """The measure is one of the report's, of a quantity, and the limit is of the same."""
    if limit.measure is None:
        return
    if limit.measure not in record.measures:
        what = "not among the report's measures"
        yield limit.fault(("measure",), what, limit.measure, record.measures)
        return
    for method in methods:
        stated = method.measure(limit.measure)
        quantity = quantity_of(stated) if stated is not None else ""
        if not quantity:
            what = "nothing is measured by it that has a unit, so no limit can be held against it"
            yield limit.fault(("measure",), what, limit.measure)
        elif quantity == INTERVAL:
            what = "a measure of heating; its limits are of the kinds `rise` and `temperature`"
            yield limit.fault(("measure",), what, limit.measure)
        elif limit.value.quantity != quantity:
            what = f"{limit.measure} is a measure of {quantity}, and this is {limit.value.quantity}"
            yield limit.fault(("value",), what, limit.value.text, offered(quantity))
        else:
            continue
        return


def _conditions(limit: Limit, methods: Iterable[Method]) -> Iterator[Fault]:
    keys = dict.fromkeys(key for method in methods for key in method.conditions)
    for key in limit.condition:
        if key not in keys:
            place, path = limit.key_place_of("condition", key), limit.path_of("condition", key)
            yield absent("no method of this report's runs has a condition", key, keys, place, path)
