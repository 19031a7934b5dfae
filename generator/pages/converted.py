"""A quantity of a record told in both systems of units: as written in its own, converted in the other.

What is converted has no fewer digits than what was written, and two at least.
"""

from __future__ import annotations

import math
import re

from generator.charts.numerals import NO_BREAK, numeral, plain
from generator.records.quantity import Quantity, parse_quantity
from generator.records.systems import gauge_name, gauge_near, in_both
from generator.records.units import Gauge, Unit

CONDUCTORS = ("mm²", "AWG")
"""Units by whose sizes conductors are called."""

_READ_AS = {"K/h": "°C/h", "K/min": "°C/min"}
"""Kelvins are for data; readers are told of degrees."""

_SIZE = re.compile(r"\d+(?:\.\d+)? ?(?:mm2|mm²)(?!\w)|(?:\d{1,2}|[1-4]/0) ?AWG\b|AWG ?(?:\d{1,2}|[1-4]/0)\b")


def texts(given: Quantity) -> tuple[str, str]:
    """What is not a temperature, a difference of them or a conductor.

    Returns:
        In metric units and in US units; the second is empty where both are the same.
    """
    places = max(given.decimals, 0)
    own = told(given.bound, numeral(given.value, places), given.unit.symbol)
    units = in_both(given.unit.symbol)
    if units is None:
        return own, ""
    if given.unit == units.us:
        return _converted(given, units.metric), own
    return own, _converted(given, units.us)


def conductor(given: Quantity) -> tuple[str, str, str]:
    """A conductor's size, which stays its name: the nearest of the other system is another conductor.

    Returns:
        In mm², as a gauge (empty where no gauge is near), and which of the two is the name.
    """
    if isinstance(given.unit, Gauge):
        area = f"{given.si * 1e6:.3g}"
        return told(given.bound, area, "mm²"), told(given.bound, gauge_name(given.value), "AWG"), "us"
    near = gauge_near(given.si) if given.si > 0 else None
    gauge = "" if near is None else told(given.bound, gauge_name(near), "AWG")
    return told(given.bound, numeral(given.value, max(given.decimals, 0)), "mm²"), gauge, "metric"


def size_in(text: str) -> Quantity | None:
    """The conductor's size that a text begins with; None where it begins with something else."""
    found = _SIZE.match(text.strip())
    return parse_quantity(found[0], "area") if found else None


def told(bound: str, number: str, symbol: str) -> str:
    """A number that stays with its unit at a line's end."""
    return f"{bound}{number}{NO_BREAK}{_READ_AS.get(symbol, symbol)}"


def fahrenheit_as_written(given: Quantity) -> tuple[str, str]:
    """A difference of temperatures that a record states in °F, in °C and as written."""
    places = max(given.decimals, 0)
    metric, us = plain(round(given.si, places + 1)), numeral(given.value, places)
    return told(given.bound, metric, "°C"), told(given.bound, us, "°F")


def _converted(given: Quantity, unit: Unit) -> str:
    value = unit.from_si(given.si)
    finest = given.last_digit / unit.factor
    # The small allowance keeps 25.4 mm, which is an inch to the last bit or so, from a digit more.
    places = math.ceil(-math.log10(finest) - 1e-9)
    if value:
        places = max(places, 1 - math.floor(math.log10(abs(value))))
    return told(given.bound, numeral(value, max(places, 0)), unit.symbol)
