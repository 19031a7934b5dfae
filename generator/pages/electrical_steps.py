"""The steps from drops and currents to a resistance, a drop or a power, in mV, mΩ and W."""

from __future__ import annotations

from collections.abc import Iterator

from generator.charts.numerals import numeral, plain
from generator.evaluation.worked_electrical import ReadPair, TakenOff, WorkedElectrical
from generator.pages.format import as_printed, significant
from generator.pages.ways import Step

MILLI = 1e3
DIGITS = 4
"""Decimals of a number in mV and mΩ on its way."""


def electrical_steps(way: WorkedElectrical | None) -> Iterator[Step]:
    """Each step with its numbers; none for another kind."""
    if way is None:
        return
    yield from (_pair(each, way) for each in way.pairs)
    if not way.pairs:
        yield Step("ohms-read", {"ohms": _milli(way.between)})
    elif len(way.pairs) > 1:
        texts = " + ".join(_milli(each.ohms) for each in way.pairs)
        yield Step("ohms-mean", {"n": str(len(way.pairs)), "sum": texts, "ohms": _milli(way.between)})
    if way.lead is not None:
        yield _lead(way, way.lead)
    elif way.included:
        yield Step("lead-in-it", {})
    yield from _told(way)


def _pair(pair: ReadPair, way: WorkedElectrical) -> Step:
    read = {
        "drop": _milli(pair.drop),
        "current": _plain(pair.current),
        "ohms": _milli(pair.ohms),
        "time": "" if way.time is None else plain(round(way.time / 60, 2)),
    }
    if pair.back is None:
        allowed = "" if way.emf_allowed is None else significant(way.emf_allowed * MILLI)
        return Step("drop-read", {**read, "supply": way.supply, "emf": allowed})
    drop, current = pair.back
    back = {"back": _milli(drop), "back_current": _plain(current), "emf": _milli(pair.emf or 0.0)}
    return Step("drop-reversed", {**read, **back})


def _lead(way: WorkedElectrical, lead: TakenOff) -> Step:
    numbers = {
        "by": lead.by,
        "name": as_printed(lead.source),
        "length": _plain(lead.length * MILLI),
        "metre": _milli(lead.per_metre),
        "temperature": numeral(lead.temperature, 1),
        "lead": _milli(lead.ohms),
        "between": _milli(way.between),
        "ohms": _milli(way.ohms),
    }
    return Step("lead", numbers)


def _told(way: WorkedElectrical) -> Iterator[Step]:
    numbers = {"ohms": _milli(way.ohms)}
    if way.temperature is not None:
        numbers["temperature"] = numeral(way.temperature, 1)
    if way.coefficient is not None:
        alpha = {"alpha": significant(way.coefficient, 4), "assumed": "yes" if way.assumed else ""}
        yield Step("at-20", {**numbers, **alpha, "figure": _milli(way.figure)})
    elif way.kind == "resistance" and way.temperature is not None:
        yield Step("as-warm", numbers)
    elif way.kind == "impedance":
        yield Step("impedance", numbers)
    elif way.set_current is not None:
        yield _at_current(way, way.set_current)


def _at_current(way: WorkedElectrical, current: float) -> Step:
    numbers = {"ohms": _milli(way.ohms), "set": _plain(current), "current": ""}
    if way.kind == "drop":
        return Step("drop-at", {**numbers, "figure": _milli(way.figure)})
    if way.current is not None:
        made = way.ohms * way.current**2
        numbers |= {"current": _plain(way.current), "made": numeral(made, DIGITS)}
    return Step("power-at", {**numbers, "figure": numeral(way.figure, DIGITS)})


def _milli(value: float) -> str:
    """In mV of V, in mΩ of Ω."""
    return numeral(value * MILLI, DIGITS)


def _plain(value: float) -> str:
    return plain(round(value, 3))
