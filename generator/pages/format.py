"""How numbers, figures, dates and money are written on pages. The words around them are the templates'.

A rise of 1 K is told as 1 °C and as 1.8 °F, without offset; only a temperature has one. A figure is converted
first and then rounded, in each unit by itself.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from generator.analysis.interval import Estimate
from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN, rounded, rounded_range
from generator.charts.numerals import NO_BREAK, numeral, plain, true_minus
from generator.charts.systems import FREEZING_F
from generator.pages import converted
from generator.records.dates import PartialDate
from generator.records.money import Money
from generator.records.quantity import Quantity, Range
from generator.records.systems import in_both

CELSIUS = "°C"
FAHRENHEIT = "°F"
SIGNS = {"EUR": "€", "GBP": "£"}
"""Currencies with a sign of their own; the others go by their letters of ISO 4217."""
PRINTED = {"degC": CELSIUS, "degF": FAHRENHEIT, "mm2": "mm²", "uV": "µV"}
PRINTED |= {"ohm": "Ω", "mohm": "mΩ", "uohm": "µΩ", "kohm": "kΩ"}
"""Units that keyboards do not have, as typed and as printed."""
_TYPED = re.compile(rf"(?<![A-Za-z])(?:{'|'.join(PRINTED)})(?!\w)")
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=%|(?:°[CF]|K|mm²|[mc]?m|[mµ]?[ΩVA]|W|N|k?g|l|h|min|s|digits?)(?!\w))")


@dataclass(frozen=True)
class Plus:
    """A figure and its half-width, as text.

    Attributes:
        value: In °C above the air for a rise, else in the metric unit, or the one that is the same to all.
        half_width: Its ±; empty where there is none.
        value_us: In the US unit; empty where the unit is the same to everyone.
        half_width_us: Its ± in the US unit.
        unit: The unit's symbol; `°C` for a rise.
        unit_us: `°F` for a rise, `lbf` for a force in N; empty where the unit is the same to everyone.
        rise: Whether it is a rise or a difference of rises: "above the air", never a temperature.
    """

    value: str
    half_width: str
    value_us: str = ""
    half_width_us: str = ""
    unit: str = CELSIUS
    unit_us: str = ""
    rise: bool = False


@dataclass(frozen=True)
class Both:
    """A quantity as text, in both systems of units.

    Attributes:
        metric: In metric units, or in the unit that is the same to everyone.
        us: In US units; empty where it is the same.
        named: `metric` or `us` where that one is a conductor's name: it is always told, the other beside it.
    """

    metric: str
    us: str = ""
    named: str = ""


@dataclass(frozen=True)
class Span:
    """A range as text, the unit at its upper end alone; the `_us` are empty where they would be the same.

    `named` is as in `Both`.
    """

    low: str
    high: str
    low_us: str = ""
    high_us: str = ""
    named: str = ""


@dataclass(frozen=True)
class Around:
    """A rise or a difference with ends of unlike width, as text; the units stand behind the value."""

    value: str
    low: str
    high: str
    value_us: str
    low_us: str
    high_us: str


@dataclass(frozen=True)
class Day:
    """A date, for a template to spell; month and day are 0 where they are not known."""

    iso: str
    day: int
    month: int
    year: int


def figure(estimate: Estimate) -> Plus:
    """A figure with the ± of its own interval."""
    return plus(estimate.value, estimate.half_width, estimate.unit)


def plus(value: float, half_width: float, unit: str) -> Plus:
    """A figure with a ±, rounded in each unit to two significant digits of the ±.

    Args:
        value: In `unit`.
        half_width: In `unit`, above zero.
        unit: `K` is taken for a rise or a difference of rises, `°C` for a temperature.
    """
    if unit == CELSIUS:
        return temperature_plus(value, half_width)
    own = _rounded(value, half_width)
    if unit == "K":
        us = _rounded(value, half_width, FAHRENHEIT_PER_KELVIN)
        return Plus(*own, *us, CELSIUS, FAHRENHEIT, rise=True)
    units = in_both(unit)
    if units is None:
        return Plus(*own, unit=unit)
    other = _rounded(value, half_width, units.factor(unit))
    metric, us = (own, other) if unit == units.metric.symbol else (other, own)
    return Plus(*metric, *us, units.metric.symbol, units.us.symbol)


def temperature_plus(celsius: float, half_width: float) -> Plus:
    """A temperature with a ±; the ± is a difference and takes no offset in °F.

    Args:
        celsius: °C.
        half_width: K, above zero.
    """
    own = _rounded(celsius, half_width)
    us = _rounded(celsius * FAHRENHEIT_PER_KELVIN + FREEZING_F, half_width * FAHRENHEIT_PER_KELVIN)
    return Plus(*own, *us, CELSIUS, FAHRENHEIT)


def quantity(given: Quantity) -> Both:
    """A quantity of a record, its digits as written."""
    places = max(given.decimals, 0)
    if given.quantity == "temperature":
        return _temperature(given.magnitude_in(CELSIUS), places, given.bound)
    if given.quantity == "interval" and given.unit.symbol == FAHRENHEIT:
        return Both(*converted.fahrenheit_as_written(given))
    if given.quantity == "interval":
        told = difference(given.si, places + (3 if given.unit.symbol == "mK" else 0))
        return Both(f"{given.bound}{told.metric}", f"{given.bound}{told.us}")
    if given.unit.symbol in converted.CONDUCTORS:
        return _named(*converted.conductor(given))
    return Both(*converted.texts(given))


def condition(text: str) -> Both:
    """A condition as written; where it begins with a conductor's size, the other system's stands beside."""
    size = converted.size_in(text)
    if size is None:
        return Both(as_printed(text))
    metric, us, named = converted.conductor(size)
    own = as_printed(text)
    return _named(own, us, named) if named == "metric" else _named(metric, own, named)


def celsius(temperature: float, decimals: int = 1) -> Both:
    """A temperature without a ±, no more digits than it has."""
    us = plain(round(temperature * FAHRENHEIT_PER_KELVIN + FREEZING_F, decimals))
    return Both(f"{plain(round(temperature, decimals))}{NO_BREAK}{CELSIUS}", f"{us}{NO_BREAK}{FAHRENHEIT}")


def difference(kelvin: float, decimals: int = 1) -> Both:
    """A rise or a difference of temperatures without a ±."""
    us = plain(round(kelvin * FAHRENHEIT_PER_KELVIN, decimals + 1))
    metric = plain(round(kelvin, decimals))
    return Both(f"{metric}{NO_BREAK}{CELSIUS}", f"{us}{NO_BREAK}{FAHRENHEIT}")


def around(value: float, low: float, high: float) -> Around:
    """A rise with ends of unlike width, all in K; in °F without an offset.

    Args:
        value: Not outside its ends.
        low: Lower end.
        high: Upper end.
    """
    own, us = rounded_range(value, low, high), rounded_range(value, low, high, FAHRENHEIT_PER_KELVIN)
    return Around(
        *(true_minus(text) for each in (own, us) for text in (each.value_text, each.low_text, each.high_text))
    )


def narrow_difference(kelvin: float) -> Both:
    """A spread or a half-width of temperatures, to two significant digits."""
    us = significant(kelvin * FAHRENHEIT_PER_KELVIN)
    return Both(f"{significant(kelvin)}{NO_BREAK}{CELSIUS}", f"{us}{NO_BREAK}{FAHRENHEIT}")


def narrow(value: float, unit: str) -> Both:
    """A size that is known roughly, to two significant digits; `K` is of a rise or a difference."""
    if unit == "K":
        return narrow_difference(value)
    own, units = f"{significant(value)}{NO_BREAK}{unit}", in_both(unit)
    if units is None or unit != units.metric.symbol:
        return Both(own)
    return Both(own, f"{significant(value * units.factor(unit))}{NO_BREAK}{units.us.symbol}")


def span(given: Range) -> Span:
    """A range of a record, its unit once."""
    low, high = quantity(given.low), quantity(given.high)
    # What one end has in another system, both have.
    if not (low.us and high.us):
        return Span(_bare(low.metric, high.metric), high.metric)
    bare = _bare(low.metric, high.metric), _bare(low.us, high.us)
    return Span(bare[0], high.metric, bare[1], high.us, high.named)


def celsius_span(low: float, high: float) -> Span:
    """From one temperature to another, both in °C, to one decimal."""
    first, last = _temperature(low, 1), _temperature(high, 1)
    return Span(_bare(first.metric, last.metric), last.metric, _bare(first.us, last.us), last.us)


def as_printed(text: str) -> str:
    """A text of a record in which units may stand as typed; no number is parted from its unit."""
    printed = _TYPED.sub(lambda found: PRINTED[found[0]], text)
    return _BEFORE_UNIT.sub(NO_BREAK, printed)


def minutes(seconds: float) -> str:
    """A time in minutes."""
    return f"{plain(round(seconds / 60, 2))}{NO_BREAK}min"


def amperes(current: float | None) -> str:
    """A set current; empty without one."""
    return "" if current is None else f"{plain(round(current, 3))}{NO_BREAK}A"


def times(schedule: Sequence[Quantity]) -> str:
    """The times of a schedule in minutes, the unit once at the end."""
    numbers = [plain(round(each.si / 60, 2)) for each in schedule]
    return f"{', '.join(numbers)}{NO_BREAK}min"


def money(price: Money) -> str:
    """A price, its currency behind it."""
    return f"{price.amount:f}{NO_BREAK}{SIGNS.get(price.currency, price.currency)}"


def day(given: date | str) -> Day:
    """A day, from a date or its ISO text."""
    known = date.fromisoformat(given) if isinstance(given, str) else given
    return Day(known.isoformat(), known.day, known.month, known.year)


def part_day(given: PartialDate) -> Day:
    """A date of which day and month may not be known; what is not is 0."""
    return Day(str(given), given.day, given.month, given.year)


def percent(share: float) -> str:
    """A share in percent: whole, one decimal below ten, never a bare zero."""
    if share < 0.05:
        return "<" + NO_BREAK + "0.1"
    return numeral(share, 0 if share >= 9.95 else 1)


def significant(value: float, digits: int = 2) -> str:
    """A number to so many significant digits, without an exponent; for the rows of a budget."""
    return plain(float(f"{value:.{digits}g}"))


def _temperature(celsius: float, decimals: int, bound: str = "") -> Both:
    us = numeral(celsius * FAHRENHEIT_PER_KELVIN + FREEZING_F, decimals)
    metric = f"{bound}{numeral(celsius, decimals)}{NO_BREAK}{CELSIUS}"
    return Both(metric, f"{bound}{us}{NO_BREAK}{FAHRENHEIT}")


def _named(metric: str, us: str, named: str) -> Both:
    return Both(metric, us, named) if us else Both(metric)


def _rounded(value: float, half_width: float, factor: float = 1.0) -> tuple[str, str]:
    own = rounded(value, half_width, factor)
    return true_minus(own.value_text), own.uncertainty_text


def _bare(low: str, high: str) -> str:
    """The lower end without its unit where the upper end has the same."""
    number, _, unit = low.rpartition(NO_BREAK)
    return number if number and high.endswith(f"{NO_BREAK}{unit}") else low
