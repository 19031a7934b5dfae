"""Numbers with units as people type them: our own grammar, which refuses what it does not know.

`parse_quantity` for one value, `parse_range` for `18 to 28 degC`, `parse_times` for a schedule. All raise
`QuantityError`, whose words go to the person as they are.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, TypeAlias

from generator.records.grammar import NUMBER, QuantityError, checked, decimals_of, oddity
from generator.records.lookalikes import plain
from generator.records.units import (
    MINUTE,
    QUANTITIES,
    SECOND,
    TEMPERATURE,
    TIME,
    Gauge,
    Unit,
    find_unit,
    in_words,
    meant,
    offered,
)

__all__ = [
    "Bound",
    "Quantity",
    "QuantityError",
    "Range",
    "parse_quantity",
    "parse_range",
    "parse_times",
    "plain_quantity",
]

Bound: TypeAlias = Literal["", ">", "<"]

_LARGEST = 1e30

_QUANTITY = re.compile(rf"({NUMBER.pattern})\s*(.*)", re.ASCII)
_BOUND = re.compile(r"(over|under|>|<)\s*(.*)", re.ASCII)
_PART = re.compile(r"(\d{1,9}(?:\.\d{1,9})?)\s*([A-Za-z]+)\s*", re.ASCII)
_CLOCK = re.compile(r"(\d{1,4}):([0-5]\d)(?::([0-5]\d))?(?:\s*([^\s\d.:].*))?", re.ASCII)
_GAUGE = re.compile(r"(?:(\d{1,2}|[1-4]/0)\s*AWG|AWG\s*(\d{1,2}|[1-4]/0))", re.ASCII | re.IGNORECASE)
_TO = re.compile(r"(.+?)\s+to\s+(.+)", re.ASCII)


@dataclass(frozen=True)
class Quantity:
    """A number with its unit.

    Attributes:
        text: As written.
        value: The number, in `unit`; of `1 h 30 min` and `5:30 min` in the smallest unit that it names.
        unit: Its unit.
        bound: `>` where it is above what is written (over range), `<` where it is below.
        decimals: Digits after the point as written, less the exponent: the last digit is 10^−decimals.
    """

    text: str
    value: float
    unit: Unit
    bound: Bound = ""
    decimals: int = 0

    @property
    def quantity(self) -> str:
        """What it measures: one of `units.QUANTITIES`."""
        return self.unit.quantity

    @property
    def si(self) -> float:
        """The value in SI; points of temperature in °C, intervals in K, ratios as fractions."""
        return self.unit.to_si(self.value)

    @property
    def last_digit(self) -> float:
        """One step of the last digit written, in SI (of temperatures in K)."""
        return self.unit.width_to_si(1.0 / 10.0**self.decimals)

    def magnitude_in(self, symbol: str) -> float:
        """The value in another unit of the same quantity.

        Args:
            symbol: The unit, as printed or as typed.

        Raises:
            QuantityError: There is no such unit of this quantity.
        """
        unit = find_unit(plain(symbol), self.unit.quantity)
        if unit is None:
            what = f"'{symbol}' is no unit of {in_words(self.quantity)}"
            raise QuantityError(what, offered(self.quantity))
        return self.value if unit is self.unit else unit.from_si(self.si)


@dataclass(frozen=True)
class Range:
    """From one value to a higher one, both included.

    Attributes:
        text: As written.
        low: The lower end.
        high: The upper end.
    """

    text: str
    low: Quantity
    high: Quantity

    def holds(self, si: float) -> bool:
        """Whether a value in SI (points of temperature in °C) lies in it."""
        return self.low.si <= si <= self.high.si


def parse_quantity(text: str, quantity: str = "") -> Quantity:
    """Read a number with its unit.

    Args:
        text: As typed: `30 A`, `71.5 °F`, `1 h 30 min`, `5:30 min`, `12 AWG`, `over 150 degC`.
        quantity: What is asked for, one of `units.QUANTITIES`; it decides whether `2 degC` is a point
            (`temperature`) or a difference (`interval`). Empty: the unit decides, and `degC` is a point.

    Raises:
        QuantityError: It is something else; the words say what would do.
    """
    if quantity and quantity not in QUANTITIES:
        raise KeyError(quantity)
    written = checked(text)
    bound: Bound = ""
    rest = written
    if limited := _BOUND.fullmatch(written):
        bound = ">" if limited[1] in {"over", ">"} else "<"
        rest = limited[2]
    value, unit, decimals = _duration(rest, quantity) or _gauge(rest, quantity) or _single(rest, quantity)
    found = Quantity(text.strip(), value, unit, bound, decimals)
    if not abs(found.si) <= _LARGEST:
        raise QuantityError(
            "the number is larger than anything on a bench; over range is written 'over 150 degC'"
        )
    return found


def plain_quantity(text: str, quantity: str = "") -> Quantity:
    """Read a number with its unit that is no end of a range; the arguments are those of `parse_quantity`.

    Raises:
        QuantityError: It is something else, or says `over` or `under`.
    """
    found = parse_quantity(text, quantity)
    if found.bound:
        what = "one plain value is wanted here; 'over' and 'under' are for what a meter could not show"
        raise QuantityError(what, (text.strip().lstrip("overund<> "),))
    return found


def parse_range(text: str, quantity: str = "") -> Range:
    """Read a range: `18 to 28 degC`, `-50 degC to 200 degC`.

    Raises:
        QuantityError: It is no range, or its ends stand the wrong way round.
    """
    written = checked(text)
    ends = _TO.fullmatch(written)
    if ends is None:
        raise QuantityError("not a range", (f"18 to 28 {offered(quantity)[0]}",))
    if _BOUND.match(ends[1]) or _BOUND.match(ends[2]):
        raise QuantityError("a range has two plain ends", (f"18 to 28 {offered(quantity)[0]}",))
    if NUMBER.fullmatch(ends[1]) and NUMBER.fullmatch(ends[2]):
        told = tuple(f"{written} {each}" for each in offered(quantity))
        raise QuantityError("a range without a unit", told)
    high = parse_quantity(ends[2], quantity)
    first = f"{ends[1]} {high.unit.typed}" if NUMBER.fullmatch(ends[1]) else ends[1]
    low = parse_quantity(first, high.quantity)
    if not low.si < high.si:
        raise QuantityError("the range does not end above where it begins", (f"{high.text} to {low.text}",))
    return Range(text.strip(), low, high)


def parse_times(text: str) -> tuple[Quantity, ...]:
    """Read a schedule: `0 2 5 10 15 60 min`, times that rise, with one unit at the end.

    Raises:
        QuantityError: A part is no number, the unit is missing or no time, or the times do not rise.
    """
    *numbers, symbol = checked(text, longest=2000).split() or [""]
    example = ("0 2 5 10 15 60 min",)
    unit = find_unit(symbol, TIME)
    if unit is None:
        raise QuantityError(
            f"the unit is missing after '{symbol}'" if symbol else "there are no times", example
        )
    times = []
    for number in numbers:
        if not NUMBER.fullmatch(number):
            raise QuantityError(oddity(number, f" {unit.typed}") or f"'{number}' is no number", example)
        times.append(Quantity(f"{number} {symbol}", float(number), unit, "", decimals_of(number)))
    if not times:
        raise QuantityError("there are no times", example)
    if times[0].value < 0:
        raise QuantityError(f"times count from the start; {times[0].text} lies before it", example)
    for earlier, later in pairwise(times):
        if not earlier.value < later.value:
            raise QuantityError(f"the times must rise; {later.text} comes after {earlier.text}", example)
    return tuple(times)


def _single(text: str, quantity: str) -> tuple[float, Unit, int]:
    found = _QUANTITY.fullmatch(text)
    number, symbol = (found[1], found[2].strip()) if found else ("", "")
    unit = find_unit(symbol, quantity)
    if unit is None and (odd := oddity(text)):
        raise QuantityError(odd)
    if found is None:
        raise QuantityError("not a number with its unit", _examples(quantity))
    if unit is None or isinstance(unit, Gauge):
        raise _no_unit(symbol, number, quantity)
    return float(number), unit, decimals_of(number)


def _no_unit(symbol: str, number: str, quantity: str) -> QuantityError:
    told = offered(quantity)
    if not symbol:
        return QuantityError("a number without a unit", tuple(f"{number} {each}" for each in told))
    if quantity == TEMPERATURE and symbol in {"K", "kelvin"}:
        what = "a temperature is not given in kelvin here; a difference of temperatures is"
        return QuantityError(what, told)
    if guess := meant(symbol, quantity):
        return QuantityError(f"'{symbol}' is not the unit here; did you mean '{guess}'?", told)
    if other := find_unit(symbol):
        what = f"'{symbol}' is a unit of {in_words(other.quantity)}, not of {in_words(quantity)}"
        return QuantityError(what, told)
    return QuantityError(f"'{symbol}' is no unit known here", told)


def _duration(text: str, quantity: str) -> tuple[float, Unit, int] | None:
    if quantity not in {TIME, ""}:
        return None
    if clock := _CLOCK.fullmatch(text):
        return _clock(text, clock)
    parts = _PART.findall(text)
    if len(parts) < 2 or _PART.sub("", text):
        return None
    units = [find_unit(symbol, TIME) for _, symbol in parts]
    last = units[-1]
    if last is None or None in units:
        return None
    sizes = [unit.factor for unit in units if unit is not None]
    if any(not larger > smaller for larger, smaller in pairwise(sizes)):
        raise QuantityError("the parts of a time go from the larger to the smaller", ("1 h 30 min",))
    if any("." in number for number, _ in parts[:-1]):
        raise QuantityError("only the last part of a time may have a point", ("1 h 30 min",))
    total = math.fsum(float(number) * size for (number, _), size in zip(parts, sizes, strict=True))
    return last.from_si(total), last, decimals_of(parts[-1][0])


def _clock(text: str, clock: re.Match[str]) -> tuple[float, Unit, int]:
    first, second, third, symbol = int(clock[1]), int(clock[2]), clock[3], (clock[4] or "").strip()
    forms = (f"{first}:{clock[2]} min (minutes and seconds)", f"{first} h {second} min")
    unit = find_unit(symbol, TIME)
    if unit is None or unit.symbol not in {"min", "h"} or (third and unit is MINUTE):
        raise QuantityError(f"'{text}' can be read in two ways", forms)
    if third:
        return first * 3600.0 + second * 60.0 + int(third), SECOND, 0
    return first * 60.0 + second, SECOND if unit is MINUTE else MINUTE, 0


def _gauge(text: str, quantity: str) -> tuple[float, Unit, int] | None:
    found = _GAUGE.fullmatch(text) if quantity in {"area", ""} else None
    unit = find_unit("AWG", "area")
    if found is None or unit is None:
        return None
    number = found[1] or found[2]
    return float(number if "/" not in number else 1 - int(number[0])), unit, 0


def _examples(quantity: str) -> tuple[str, ...]:
    return tuple(f"30 {each}" for each in offered(quantity)[:3])
