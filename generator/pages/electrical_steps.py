"""The steps from drops and currents to a resistance, a drop or a power, in one prefix and W."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.charts.numerals import numeral, plain
from generator.evaluation.worked_electrical import ReadPair, TakenOff, WorkedElectrical
from generator.pages.format import as_printed, significant
from generator.pages.in_unit import electric
from generator.pages.shown import Shown
from generator.pages.ways import Step

DIGITS = 4
"""Decimals of a number in mV and mΩ on its way."""
MILLI = 1e3
"""A length is told in mm."""


@dataclass(frozen=True)
class _Told:
    """A run on its way, its numbers in the units of its figure."""

    way: WorkedElectrical
    unit: Shown

    @property
    def units(self) -> dict[str, str]:
        """Units of drops and of resistances."""
        prefix = electric(self.unit).prefix
        return {"volt": f"{prefix}V", "ohm": f"{prefix}Ω"}

    def number(self, value: float) -> str:
        """Of V or Ω."""
        return numeral(value * electric(self.unit).factor, DIGITS)

    def step(self, code: str, numbers: dict[str, str]) -> Step:
        """A step with its units beside its numbers."""
        return Step(code, {**numbers, **self.units})


def electrical_steps(way: WorkedElectrical | None, unit: Shown) -> Iterator[Step]:
    """Each step with its numbers; none for another kind.

    Args:
        way: From drops and currents to the figure.
        unit: How the figure is written.
    """
    if way is None:
        return
    told = _Told(way, unit)
    yield from (_pair(each, told) for each in way.pairs)
    if not way.pairs:
        yield told.step("ohms-read", {"ohms": told.number(way.between)})
    elif len(way.pairs) > 1:
        texts = " + ".join(told.number(each.ohms) for each in way.pairs)
        yield told.step(
            "ohms-mean", {"n": str(len(way.pairs)), "sum": texts, "ohms": told.number(way.between)}
        )
    if way.lead is not None:
        yield _lead(told, way.lead)
    elif way.included:
        yield told.step("lead-in-it", {})
    yield from _to_figure(told)


def _pair(pair: ReadPair, told: _Told) -> Step:
    way = told.way
    read = {
        "drop": told.number(pair.drop),
        "current": _plain(pair.current),
        "ohms": told.number(pair.ohms),
        "time": "" if way.time is None else plain(round(way.time / 60, 2)),
    }
    if pair.back is None:
        allowed = ""
        if way.emf_allowed is not None:
            allowed = significant(way.emf_allowed * electric(told.unit).factor)
        return told.step("drop-read", {**read, "supply": way.supply, "emf": allowed})
    drop, current = pair.back
    back = {"back": told.number(drop), "back_current": _plain(current), "emf": told.number(pair.emf or 0.0)}
    return told.step("drop-reversed", {**read, **back})


def _lead(told: _Told, lead: TakenOff) -> Step:
    way = told.way
    numbers = {
        "by": lead.by,
        "name": as_printed(lead.source),
        "length": _plain(lead.length * MILLI),
        "over": "" if lead.same_length else " and ".join(_plain(each * MILLI) for each in lead.over),
        "metre": told.number(lead.per_metre),
        "temperature": numeral(lead.temperature, 1),
        "lead": told.number(lead.ohms),
        "between": told.number(way.between),
        "ohms": told.number(way.ohms),
    }
    return told.step("lead", numbers)


def _to_figure(told: _Told) -> Iterator[Step]:
    way = told.way
    numbers = {"ohms": told.number(way.ohms)}
    if way.temperature is not None:
        numbers["temperature"] = numeral(way.temperature, 1)
    if way.coefficient is not None:
        alpha = {"alpha": significant(way.coefficient, 4), "assumed": "yes" if way.assumed else ""}
        yield told.step("at-20", {**numbers, **alpha, "figure": told.number(way.figure)})
    elif way.kind == "resistance" and way.temperature is not None:
        yield told.step("as-warm", numbers)
    elif way.kind == "impedance":
        yield told.step("impedance", numbers)
    elif way.set_current is not None:
        yield _at_current(told, way.set_current)


def _at_current(told: _Told, current: float) -> Step:
    way = told.way
    numbers = {"ohms": told.number(way.ohms), "set": _plain(current), "current": ""}
    if way.kind == "drop":
        return told.step("drop-at", {**numbers, "figure": told.number(way.figure)})
    if way.current is not None:
        made = way.ohms * way.current**2
        numbers |= {"current": _plain(way.current), "made": numeral(made * told.unit.factor, DIGITS)}
    return told.step(
        "power-at",
        {**numbers, "figure": numeral(way.figure * told.unit.factor, DIGITS), "watt": told.unit.unit},
    )


def _plain(value: float) -> str:
    return plain(round(value, 3))
