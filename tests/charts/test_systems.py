"""Units of both systems on one scale."""

from __future__ import annotations

import pytest

from generator.charts.scales import value_scale
from generator.charts.systems import Unit, ticked, units_of


def test_a_rise_is_told_in_both_scales_without_offset() -> None:
    assert units_of("K") == (Unit("°C", 1.0), Unit("°F", 1.8))


def test_a_temperature_is_told_in_both_with_its_offset() -> None:
    """0 °C is 32 °F, and −40 is the same in both."""
    _, us = units_of("°C")
    assert us is not None
    assert (us.of(0.0), us.of(-40.0)) == (32.0, -40.0)
    scale = value_scale([60.0])
    assert [us.of(tick) for tick in ticked(scale, us).ticks] == pytest.approx([50.0, 100.0])


def test_a_force_is_told_in_both_whichever_it_was_read_in() -> None:
    """1 lbf is 4.4482216152605 N exactly (NIST SP 811, B.8)."""
    metric, us = units_of("N")
    assert us is not None
    assert (metric.symbol, us.symbol) == ("N", "lbf")
    assert us.factor == pytest.approx(1 / 4.4482216152605)
    metric, us = units_of("lbf")
    assert us is not None
    assert (us.symbol, us.factor) == ("lbf", 1.0)
    assert metric.factor == pytest.approx(4.4482216152605)


def test_what_is_the_same_to_everyone_is_told_once() -> None:
    assert units_of("mΩ") == (Unit("mΩ", 1.0), None)


def test_ticks_stand_where_the_other_unit_is_round_and_the_scale_stays() -> None:
    scale = value_scale([97.0])
    told = ticked(scale, Unit("°F", 1.8))
    assert (told.low, told.high) == (scale.low, scale.high)
    assert [tick * 1.8 for tick in told.ticks] == pytest.approx([0.0, 50.0, 100.0, 150.0])
