"""Accuracy as handbooks print it: `±(1.5 % + 2 °C)`, `±(0.8 % + 3 digits)`, `type K class 2`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, TypeAlias

from generator.records.grammar import NUMBER, QuantityError, checked, oddity
from generator.records.units import INTERVAL, TEMPERATURE, Gauge, find_unit, in_words, offered

Distribution: TypeAlias = Literal["rectangular", "normal"]

_EXAMPLES = ("±(1.5 % + 2 degC)", "±(0.8 % + 3 digits)", "±0.5 degC", "type K class 2", "Pt100 class A")
_TERM = re.compile(rf"({NUMBER.pattern})\s*(.*)", re.ASCII)
_NORMAL = re.compile(r"(.*?),?\s*normal,?\s*k\s*=\s*(\d(?:\.\d{1,3})?)", re.ASCII)
_PROBE = re.compile(r"(?:type ([A-Z]) class ([123])|Pt\d{2,4} class (AA|A|B|C))", re.ASCII | re.IGNORECASE)
_GREATER = re.compile(r"(.+?) or (.+?),? (?:whichever|which ever) is (?:the )?(?:greater|larger)", re.ASCII)
_DIGITS = frozenset({"digit", "digits", "dgt", "dgts", "d", "count", "counts"})
_PERCENT = frozenset({"%", "% of reading", "% rdg", "% of rdg", "% reading"})


@dataclass(frozen=True)
class Tolerance:
    """A half-width that depends on the reading: `fixed` and `share`·|reading|, added or the greater of them.

    Attributes:
        name: As printed: `type K class 2`.
        fixed: In SI (of temperatures in K).
        share: Fraction of the reading (of temperatures: of the °C indication).
        rule: `greater` or `sum`.
        low: Lowest reading that it holds for; minus infinity where nothing is said.
        high: Highest reading that it holds for.
    """

    name: str
    fixed: float
    share: float
    rule: Literal["greater", "sum"]
    low: float = float("-inf")
    high: float = float("inf")

    def holds(self, reading: float) -> bool:
        """Whether the tolerance is stated for this reading."""
        return self.low <= reading <= self.high

    def half_width(self, reading: float) -> float:
        """The half-width at a reading.

        Args:
            reading: In SI; temperatures in °C.

        Raises:
            QuantityError: The reading lies outside what the tolerance is stated for.
        """
        if not self.holds(reading):
            raise QuantityError(f"{self.name} holds from {self.low:g} to {self.high:g} degC")
        part = self.share * abs(reading)
        return max(self.fixed, part) if self.rule == "greater" else self.fixed + part


@dataclass(frozen=True)
class Accuracy:
    """How far a reading may be from the truth.

    Attributes:
        text: As written.
        percent: Fraction of the reading (0.015 of `1.5 %`); of temperatures, of the °C indication.
        units: Half-width in SI (of temperatures in K).
        digits: Counts of the last digit.
        distribution: `rectangular` unless it says normal.
        k: Coverage factor of a normal one; 1 where rectangular.
        tolerance: Of a probe's class, or of `… or …, whichever is greater`; the other parts are then 0.
    """

    text: str
    percent: float = 0.0
    units: float = 0.0
    digits: float = 0.0
    distribution: Distribution = "rectangular"
    k: float = 1.0
    tolerance: Tolerance | None = None

    def half_width(self, reading: float, last_digit: float) -> float:
        """The whole half-width (of a normal one: k standard uncertainties) at a reading.

        Args:
            reading: In SI; temperatures in °C.
            last_digit: What one count is worth, in SI.

        Raises:
            QuantityError: The reading lies outside what a probe's class is stated for.
        """
        if self.tolerance is not None:
            return self.tolerance.half_width(reading)
        return self.percent * abs(reading) + self.units + self.digits * last_digit


# IEC 60584-1:2013, thermocouple tolerances: the greater of °C and a fraction of |t|; lowest and highest °C.
_THERMOCOUPLES: dict[str, tuple[float, float, float, float]] = {
    "K1": (1.5, 0.004, -40.0, 1000.0),
    "K2": (2.5, 0.0075, -40.0, 1200.0),
    "K3": (2.5, 0.015, -200.0, 40.0),
    "T1": (0.5, 0.004, -40.0, 350.0),
    "T2": (1.0, 0.0075, -40.0, 350.0),
    "T3": (1.0, 0.015, -200.0, 40.0),
    "J1": (1.5, 0.004, -40.0, 750.0),
    "J2": (2.5, 0.0075, -40.0, 750.0),
    "N1": (1.5, 0.004, -40.0, 1000.0),
    "N2": (2.5, 0.0075, -40.0, 1200.0),
}
# IEC 60751:2008, platinum resistance thermometers: °C plus a fraction of |t|; the lowest and highest °C are
# those of wire-wound ones (from memory).
_PLATINUM: dict[str, tuple[float, float, float, float]] = {
    "AA": (0.1, 0.0017, -50.0, 250.0),
    "A": (0.15, 0.002, -100.0, 450.0),
    "B": (0.3, 0.005, -196.0, 600.0),
    "C": (0.6, 0.01, -196.0, 600.0),
}


def parse_accuracy(text: str, quantity: str) -> Accuracy:
    """Read an accuracy.

    Args:
        text: As the handbook prints it; ` normal k=2` behind it makes it normal.
        quantity: What the instrument measures, one of `units.QUANTITIES`.

    Raises:
        QuantityError: It is something else, or in units of something else.
    """
    written = checked(text).replace("+/-", "±").replace("+-", "±")
    stated: Distribution = "rectangular"
    k = 1.0
    if normal := _NORMAL.fullmatch(written):
        written, stated, k = normal[1], "normal", float(normal[2])
        if not 1.0 <= k <= 4.0:
            raise QuantityError("a coverage factor k lies between 1 and 4")
    if probe := _probe(written, quantity):
        return Accuracy(text.strip(), distribution=stated, k=k, tolerance=probe)
    if either := _GREATER.fullmatch(written):
        tolerance = _greater(either, quantity)
        return Accuracy(text.strip(), distribution=stated, k=k, tolerance=tolerance)
    percent, units, digits = _sum(written, quantity)
    return Accuracy(text.strip(), percent, units, digits, stated, k)


def _probe(text: str, quantity: str) -> Tolerance | None:
    found = _PROBE.fullmatch(text.removeprefix("±").strip())
    if found is None:
        if re.match(r"(?i)±?\s*(type|pt\d|class)", text):
            raise QuantityError("the class of this probe is not known here", _known_probes())
        return None
    if quantity not in {TEMPERATURE, INTERVAL}:
        raise QuantityError(f"'{text}' is a temperature probe, and {in_words(quantity)} is asked for")
    rule: Literal["greater", "sum"] = "greater" if found[1] else "sum"
    key = f"{found[1]}{found[2]}".upper() if found[1] else found[3].upper()
    known = (_THERMOCOUPLES if found[1] else _PLATINUM).get(key)
    if known is None:
        raise QuantityError(f"no tolerance of {text} is known here; write it in degC", _known_probes())
    fixed, share, low, high = known
    return Tolerance(text, fixed, share, rule, low, high)


def _known_probes() -> tuple[str, ...]:
    couples = tuple(f"type {key[0]} class {key[1]}" for key in _THERMOCOUPLES)
    return couples + tuple(f"Pt100 class {key}" for key in _PLATINUM)


def _greater(either: re.Match[str], quantity: str) -> Tolerance:
    first, second = (_sum(part, quantity) for part in either.groups())
    percent, units = first[0] + second[0], first[1] + second[1]
    single = all(sum(part > 0 for part in each) == 1 for each in (first, second))
    if not single or first[2] or second[2] or not percent or not units:
        raise QuantityError("'whichever is greater' takes one percentage and one value", _EXAMPLES)
    return Tolerance(either.group(), units, percent, "greater")


def _sum(text: str, quantity: str) -> tuple[float, float, float]:
    """The percentage as a fraction, the half-width in SI and the digits of `±(1.5 % + 2 °C + 3 digits)`."""
    inner = text.removeprefix("±").strip()
    if inner.startswith("(") and inner.endswith(")"):
        inner = inner[1:-1].strip()
    parts = {"percent": 0.0, "units": 0.0, "digits": 0.0}
    seen: set[str] = set()
    for term in inner.split("+"):
        kind, value = _term(term.strip().removeprefix("±").strip(), quantity)
        if kind in seen:
            raise QuantityError(f"two {kind} in one accuracy", _EXAMPLES)
        seen.add(kind)
        parts[kind] = value
    if not any(parts.values()):
        raise QuantityError("an accuracy of nothing; where none is stated, leave it out", _EXAMPLES)
    return parts["percent"], parts["units"], parts["digits"]


def _term(term: str, quantity: str) -> tuple[str, float]:
    found = _TERM.fullmatch(term)
    if found is None:
        raise QuantityError(oddity(term) or "not an accuracy", _EXAMPLES)
    value, symbol = float(found[1]), found[2].strip()
    if not 0.0 <= value <= 1e9:
        raise QuantityError("an accuracy is a small number above nought", _EXAMPLES)
    if symbol in _DIGITS:
        return "digits", value
    if symbol in _PERCENT:
        return "percent", value / 100.0
    if symbol.startswith("%"):
        raise QuantityError(
            f"a percentage of the reading is wanted, not '{symbol}'; write the rest in units", _EXAMPLES
        )
    width = INTERVAL if quantity == TEMPERATURE else quantity
    unit = find_unit(symbol, width)
    if unit is None or isinstance(unit, Gauge):
        no_unit = f"'{symbol}' is no unit of {in_words(quantity)}"
        what = oddity(term) or (no_unit if symbol else f"the unit is missing after {found[1]}")
        raise QuantityError(what, ("%", "digits", *offered(width)))
    return "units", unit.width_to_si(value)
