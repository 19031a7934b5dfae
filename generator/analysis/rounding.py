"""Figures for print: two significant digits of the uncertainty, the value to the same place (GUM 7.2.6).

Rounding is to nearest, a tie to the even digit (ISO 80000-1, annex B, rule A; from memory), on the decimal
text of the number and never on its binary form.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal

FAHRENHEIT_PER_KELVIN = 1.8
"""An interval of 1 K is one of 1.8 °F, without offset."""


@dataclass(frozen=True)
class Rounded:
    """A figure as text.

    Attributes:
        value_text: The value, with an ASCII minus.
        uncertainty_text: The half-width, never negative.
        decimals: Decimals of both; below zero where the last digit stands left of the point.
    """

    value_text: str
    uncertainty_text: str
    decimals: int


@dataclass(frozen=True)
class RoundedRange:
    """A figure whose interval reaches further to one side, as text.

    Attributes:
        value_text: The value.
        low_text: Lower end.
        high_text: Upper end.
        decimals: Decimals of all three.
    """

    value_text: str
    low_text: str
    high_text: str
    decimals: int


def rounded(value: float, half_width: float, factor: float = 1.0) -> Rounded:
    """Round a figure and the half-width of its interval.

    Args:
        value: The figure.
        half_width: U, above zero.
        factor: Multiplies both before rounding: `FAHRENHEIT_PER_KELVIN` for a rise in °F.

    Raises:
        ValueError: The half-width is not above zero, or one of the numbers is not finite.
    """
    reach = _decimal(half_width) * _decimal(factor)
    decimals = _places(reach)
    return Rounded(
        _at_place(_decimal(value) * _decimal(factor), decimals), _at_place(reach, decimals), decimals
    )


def rounded_range(value: float, low: float, high: float, factor: float = 1.0) -> RoundedRange:
    """Round a figure with unlike widths: the wider side decides the place ("41.3, 40.9 to 44.2").

    Args:
        value: The figure, not outside its ends.
        low: Lower end.
        high: Upper end.
        factor: Multiplies all three before rounding.

    Raises:
        ValueError: The ends do not enclose the value, or enclose nothing.
    """
    scale = _decimal(factor)
    middle, bottom, top = (_decimal(each) * scale for each in (value, low, high))
    if not min(bottom, top) <= middle <= max(bottom, top):
        raise ValueError(f"{value} is not between {low} and {high}")
    decimals = _places(max(abs(top - middle), abs(middle - bottom)))
    return RoundedRange(
        _at_place(middle, decimals), _at_place(bottom, decimals), _at_place(top, decimals), decimals
    )


def _decimal(number: float) -> Decimal:
    # Twelve digits first: the last bits differ between processors and must not decide a tie.
    text = Decimal(f"{number:.12g}")
    if not text.is_finite():
        raise ValueError(f"{number} has no digits")
    return text


def _places(reach: Decimal) -> int:
    """Decimals at which a positive number shows two significant digits after rounding."""
    if reach <= 0:
        raise ValueError(f"a half-width of {reach} has no significant digits")
    decimals = 1 - reach.adjusted()
    # 0.0996 to two digits is 0.10, which shows them one place earlier.
    if _quantized(reach, decimals).adjusted() > reach.adjusted():
        decimals -= 1
    return decimals


def _quantized(number: Decimal, decimals: int) -> Decimal:
    return number.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_EVEN)


def _at_place(number: Decimal, decimals: int) -> str:
    text = _quantized(number, decimals)
    return f"{abs(text) if text.is_zero() else text:f}"
