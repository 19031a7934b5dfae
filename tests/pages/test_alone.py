"""Figures without a ±, in both systems of units."""

from __future__ import annotations

from generator.pages.alone import alone, amount, amounts, whole
from generator.pages.format import Both, Plus, Span


def test_a_temperature_has_its_offset() -> None:
    """Water boils at 100 °C, which is 212 °F."""
    assert alone(100.0, "°C") == Plus("100", "", "212", "", "°C", "°F")
    assert whole(-40.0, "°C") == Plus("\N{MINUS SIGN}40", "", "\N{MINUS SIGN}40", "", "°C", "°F")


def test_a_rise_has_none() -> None:
    assert alone(28.14, "K") == Plus("28.1", "", "50.7", "", "°C", "°F", rise=True)
    assert amount(10.0, "K") == Both("10.0\u00a0°C", "18.0\u00a0°F")
    assert amounts(10.0, 20.0, "K") == Span("10.0", "20.0\u00a0°C", "18.0", "36.0\u00a0°F")


def test_each_system_is_rounded_by_itself() -> None:
    assert whole(28.3, "K") == Plus("28", "", "51", "", "°C", "°F", rise=True)
    assert whole(388.4, "N") == Plus("388", "", "87", "", "N", "lbf")


def test_what_is_the_same_to_everyone_is_told_once() -> None:
    assert amount(1.2345, "mΩ") == Both("1.23\u00a0mΩ")
    assert amounts(1.2, 2.5, "mΩ") == Span("1.2", "2.5\u00a0mΩ")
