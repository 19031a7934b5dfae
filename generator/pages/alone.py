"""Figures without a ±: what stands beside a figure, or has none; in both systems of units."""

from __future__ import annotations

from generator.charts.numerals import NO_BREAK, numeral
from generator.charts.systems import Unit, units_of
from generator.pages.format import Both, Plus, Span, significant

RISE = 1
"""Decimals of a rise without a ±."""


def alone(value: float, unit: str) -> Plus:
    """A figure without a ±: one decimal of a rise, else three digits.

    Args:
        value: In `unit`.
        unit: `K` is taken for a rise.
    """
    metric, us = units_of(unit)
    if unit == "K":
        texts = [numeral(each.of(value), RISE) for each in (metric, us) if each]
    else:
        texts = [significant(each.of(value), 3) for each in (metric, us) if each]
    return _plus(texts, metric, us, rise=unit == "K")


def whole(value: float, unit: str) -> Plus:
    """A figure as a whole number of its unit, in each system by itself."""
    metric, us = units_of(unit)
    texts = [numeral(each.of(value), 0) for each in (metric, us) if each]
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
