"""Figures as text."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.rounding import (
    FAHRENHEIT_PER_KELVIN,
    Rounded,
    RoundedRange,
    rounded,
    rounded_range,
)


@pytest.mark.parametrize(
    ("value", "half_width", "text"),
    [
        (41.2749, 1.7812, ("41.3", "1.8", 1)),
        (41.2749, 0.9961, ("41.3", "1.0", 1)),
        (41.2749, 0.9949, ("41.27", "0.99", 2)),
        (41.2749, 9.96, ("41", "10", 0)),
        (41.2749, 14.4, ("41", "14", 0)),
        (1234.5, 123.0, ("1230", "120", -1)),
        (99951.0, 996.0, ("100000", "1000", -2)),
        (0.0123456, 0.000987, ("0.01235", "0.00099", 5)),
        (-3.04, 1.2, ("-3.0", "1.2", 1)),
        (-0.04, 1.2, ("0.0", "1.2", 1)),
        (1e-12, 3.4e-12, ("0.0000000000010", "0.0000000000034", 13)),
    ],
)
def test_two_digits_of_the_uncertainty(value: float, half_width: float, text: tuple[str, str, int]) -> None:
    assert rounded(value, half_width) == Rounded(*text)


def test_as_the_gum_rounds() -> None:
    # GUM 7.2.6 (from memory): an estimate of 10.057 62 Ω with u = 27 mΩ is given as 10.058 Ω.
    assert rounded(10.05762, 0.027) == Rounded("10.058", "0.027", 3)
    # GUM 7.2.2 (from memory): m_S = 100.021 47 g with u = 0.35 mg.
    assert rounded(100.021470, 0.00035) == Rounded("100.02147", "0.00035", 5)


@pytest.mark.parametrize(
    ("value", "text"),
    [(41.25, "41.2"), (41.35, "41.4"), (2.675, "2.7"), (-41.25, "-41.2"), (41.250000001, "41.3")],
)
def test_a_tie_goes_to_the_even_digit(value: float, text: str) -> None:
    # ISO 80000-1:2009, annex B, rule A (from memory).
    assert rounded(value, 1.0).value_text == text


@pytest.mark.parametrize("value", [41.25, 41.35, 0.15, 2.65, 1.005, 8.575])
def test_the_last_bit_does_not_decide(value: float) -> None:
    around = (math.nextafter(value, 0), value, math.nextafter(value, 99))
    decimals = 0.011 if value in (1.005, 8.575) else 1.1
    assert len({rounded(each, decimals) for each in around}) == 1


@pytest.mark.parametrize(
    ("rise", "us", "taken_for_a_temperature"),
    [
        ("30", "54", "86"),
        ("45", "81", "113"),
        ("50", "90", "122"),
        ("52", "93.6", "125.6"),
        ("70", "126", "158"),
        ("125", "225", "257"),
        ("5", "9", "41"),
    ],
)
def test_a_maker_s_catalogue_takes_rises_for_temperatures(
    rise: str, us: str, taken_for_a_temperature: str
) -> None:
    # Two editions of one maker's catalogue print rises of "30 °C (86 °F)", "50 °C (122 °F)", "5 °C (41 °F)"
    # and "125 °C (257 °F)".
    found = float(rounded(float(rise), 1.0, FAHRENHEIT_PER_KELVIN).value_text)
    assert found == float(us)
    assert float(taken_for_a_temperature) - found == pytest.approx(32)


def test_a_rise_in_fahrenheit_has_no_offset() -> None:
    # 45 K is 81 °F as an interval; 1 K = 1.8 °F (SI brochure, NIST SP 811, from memory).
    assert rounded(45.0, 1.0, FAHRENHEIT_PER_KELVIN) == Rounded("81.0", "1.8", 1)
    assert rounded(41.3, 1.78, FAHRENHEIT_PER_KELVIN) == Rounded("74.3", "3.2", 1)


def test_fahrenheit_is_scaled_before_it_is_rounded() -> None:
    # 0.056 K is 0.1008 °F, two digits 0.10; from the rounded 0.056 K nothing else may follow.
    assert rounded(1.0049, 0.05649, FAHRENHEIT_PER_KELVIN) == Rounded("1.81", "0.10", 2)


def test_unlike_widths() -> None:
    assert rounded_range(41.31, 40.93, 44.21) == RoundedRange("41.3", "40.9", "44.2", 1)
    assert rounded_range(41.31, 41.31, 41.77) == RoundedRange("41.31", "41.31", "41.77", 2)
    assert rounded_range(40.0, 39.0, 42.5, FAHRENHEIT_PER_KELVIN) == RoundedRange("72.0", "70.2", "76.5", 1)


@pytest.mark.parametrize("half_width", [0.0, -1.0, math.nan, math.inf])
def test_nothing_to_round_by(half_width: float) -> None:
    with pytest.raises(ValueError, match="digits"):
        rounded(41.3, half_width)


def test_a_value_must_lie_within_its_ends() -> None:
    with pytest.raises(ValueError, match="not between"):
        rounded_range(41.3, 41.5, 42.0)
    with pytest.raises(ValueError, match="no significant digits"):
        rounded_range(41.3, 41.3, 41.3)


@given(value=st.floats(-1e6, 1e6), half_width=st.floats(1e-6, 1e6))
def test_text_stays_within_half_a_place(value: float, half_width: float) -> None:
    result = rounded(value, half_width)
    place = Decimal(1).scaleb(-result.decimals)
    # Twelve digits are kept before rounding: that much more is allowed.
    slack = Decimal(abs(value)) * Decimal("1e-11")
    assert abs(Decimal(result.value_text) - Decimal(value)) <= place / 2 + slack
    digits = result.uncertainty_text.replace(".", "").strip("0") or "0"
    assert len(digits) <= 2
    assert 10 * place <= Decimal(result.uncertainty_text) <= 99 * place
    assert not result.value_text.startswith("-0") or float(result.value_text) != 0
