"""Figures, quantities, dates and money as written on pages."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.pages.format import (
    Both,
    Day,
    Plus,
    Span,
    amperes,
    as_printed,
    celsius_span,
    day,
    difference,
    figure,
    minutes,
    money,
    narrow_difference,
    percent,
    plus,
    quantity,
    significant,
    span,
    times,
)
from generator.records.money import parse_money
from generator.records.quantity import parse_quantity, parse_range, parse_times
from tests.pages.factory import estimate

NB = "\N{NO-BREAK SPACE}"


def test_a_rise_is_told_in_both_units_without_an_offset() -> None:
    """GUM 7.2.6: two digits of the ±, the value to the same place. 1 K is an interval of 1.8 °F."""
    assert figure(estimate(27.94, 2.06)) == Plus("27.9", "2.1", "50.3", "3.7", "°C", "°F", rise=True)


def test_a_force_is_told_in_pounds_force_rounded_by_itself() -> None:
    """NIST SP 811, B.8: 1 lbf = 4.448 222 N, so 388.4 N are 87.316 lbf and 21.3 N are 4.788 lbf."""
    assert figure(estimate(388.4, 21.3, "N")) == Plus("388", "21", "87.3", "4.8", "N", "lbf")
    assert figure(estimate(87.316, 4.788, "lbf")) == Plus("388", "21", "87.3", "4.8", "N", "lbf")


def test_a_figure_in_everyone_s_unit_has_that_alone() -> None:
    assert figure(estimate(1.234, 0.12, "mΩ")) == Plus("1.23", "0.12", unit="mΩ")


def test_a_negative_value_has_a_true_minus() -> None:
    assert plus(-1.24, 0.52, "K").value == "−1.24"


@given(st.floats(-200, 2000), st.floats(0.001, 100))
def test_fahrenheit_is_the_kelvins_times_1_8(value: float, half_width: float) -> None:
    made = plus(value, half_width, "K")
    read = [float(text.replace("−", "-")) for text in (made.value_us, made.half_width_us)]
    assert read == pytest.approx([value * 1.8, half_width * 1.8], abs=0.051 * half_width * 1.8)


def test_fifty_kelvins_are_a_difference_of_ninety_fahrenheit() -> None:
    assert quantity(parse_quantity("50 K")) == Both(f"50{NB}°C", f"90{NB}°F")
    assert difference(50) == Both(f"50{NB}°C", f"90{NB}°F")
    assert narrow_difference(1.2987) == Both(f"1.3{NB}°C", f"2.3{NB}°F")


def test_a_temperature_has_its_offset() -> None:
    assert quantity(parse_quantity("110 degC")) == Both(f"110{NB}°C", f"230{NB}°F")
    assert quantity(parse_quantity("-10 degC")) == Both(f"−10{NB}°C", f"14{NB}°F")
    assert quantity(parse_quantity("212 degF")).metric == f"100{NB}°C"


def test_a_quantity_keeps_its_digits_and_its_bound() -> None:
    assert quantity(parse_quantity("30.0 A")) == Both(f"30.0{NB}A")
    assert quantity(parse_quantity("2 %")) == Both(f"2{NB}%")
    assert quantity(parse_quantity(">150.0 degC")).metric == f">150.0{NB}°C"


def test_a_range_has_its_unit_once() -> None:
    assert span(parse_range("18 to 28 degC")) == Span("18", f"28{NB}°C", "64", f"82{NB}°F")
    assert span(parse_range("900 mA to 2 A")) == Span(f"900{NB}mA", f"2{NB}A")
    assert celsius_span(19.13, 21.66) == Span("19.1", f"21.7{NB}°C", "66.4", f"71.0{NB}°F")


def test_times_are_minutes() -> None:
    assert minutes(3600) == f"60{NB}min"
    assert minutes(330) == f"5.5{NB}min"
    assert times(parse_times("0 30 60 min")) == f"0, 30, 60{NB}min"
    assert amperes(30.0) == f"30{NB}A"
    assert amperes(None) == ""


@pytest.mark.parametrize(
    ("price", "text"),
    [("6.40 EUR", f"6.40{NB}€"), ("5.00 GBP", f"5.00{NB}£"), ("12.50 USD", f"12.50{NB}USD")],
)
def test_money_keeps_its_digits_and_has_its_currency_behind(price: str, text: str) -> None:
    assert money(parse_money(price)) == text


def test_a_day_is_told_from_a_date_and_from_its_text() -> None:
    assert day("2026-03-08") == day(date(2026, 3, 8)) == Day("2026-03-08", 8, 3, 2026)


@pytest.mark.parametrize(("share", "text"), [(32.4, "32"), (9.96, "10"), (7.94, "7.9"), (0.04, f"<{NB}0.1")])
def test_a_share_is_never_a_bare_zero(share: float, text: str) -> None:
    assert percent(share) == text


@pytest.mark.parametrize(
    ("value", "text"), [(0.8437, "0.84"), (-58.3, "−58"), (0.00561, "0.0056"), (12345.0, "12000"), (0.0, "0")]
)
def test_a_row_s_number_has_two_digits_and_no_exponent(value: float, text: str) -> None:
    assert significant(value) == text


def test_units_as_typed_are_printed_as_units() -> None:
    assert as_printed("±(0.5 % + 0.5 degC), 4 mm2") == f"±(0.5{NB}% + 0.5{NB}°C), 4{NB}mm²"


def test_a_number_is_parted_from_a_word_and_never_from_its_unit() -> None:
    assert as_printed("12 V from 2 shops, 3 digits, 5 A") == f"12{NB}V from 2 shops, 3{NB}digits, 5{NB}A"
    assert as_printed("4 Amber lamps") == "4 Amber lamps"
    assert as_printed("1 mohm or 2 ohm, 1 milliohm") == f"1{NB}mΩ or 2{NB}Ω, 1 milliohm"
