"""Figures without a ±: what stands beside a figure, or has none; in both systems of units."""

from __future__ import annotations

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN
from generator.charts.numerals import NO_BREAK, numeral, plain
from generator.charts.systems import Unit, units_of
from generator.pages.format import CELSIUS, FAHRENHEIT, FREEZING_F, Both, Plus, Span, significant

RISE = 1
"""Decimals of a rise without a ±."""


def celsius(degrees: float) -> Both:
    """A temperature that a record states, with no more digits than it has."""
    us = degrees * FAHRENHEIT_PER_KELVIN + FREEZING_F
    return Both(_spaced(plain(round(degrees, 1)), CELSIUS), _spaced(plain(round(us, 1)), FAHRENHEIT))


def alone(value: float, unit: str) -> Plus:
    """A figure without a ±: one decimal of a rise, else three digits.

    Args:
        value: In `unit`.
        unit: `K` is taken for a rise.
    """
    metric, us = units_of(unit)
    if unit == "K":
        texts = [numeral(value * each.factor, RISE) for each in (metric, us) if each]
    else:
        texts = [significant(value * each.factor, 3) for each in (metric, us) if each]
    return _plus(texts, metric, us, rise=unit == "K")


def whole(value: float, unit: str) -> Plus:
    """A figure as a whole number of its unit, in each system by itself."""
    metric, us = units_of(unit)
    texts = [numeral(value * each.factor, 0) for each in (metric, us) if each]
    return _plus(texts, metric, us, rise=unit == "K")


def amount(value: float, unit: str) -> Both:
    """A figure without a ±, with its unit."""
    found = alone(value, unit)
    metric = _spaced(found.value, found.unit)
    return Both(metric, _spaced(found.value_us, found.unit_us) if found.unit_us else "")


def amounts(low: float, high: float, unit: str) -> Span:
    """From one figure to another, both without a ±, the unit once."""
    first, last = alone(low, unit), amount(high, unit)
    return Span(first.value, last.metric, first.value_us, last.us)


def _plus(texts: list[str], metric: Unit, us: Unit | None, *, rise: bool) -> Plus:
    if us is None:
        return Plus(texts[0], "", unit=metric.symbol)
    return Plus(texts[0], "", texts[1], "", metric.symbol, us.symbol, rise=rise)


def _spaced(number: str, unit: str) -> str:
    return f"{number}{NO_BREAK}{unit}"
