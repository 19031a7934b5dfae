"""The table of units, every factor held against the pint library's registry."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.records.lookalikes import plain
from generator.records.units import QUANTITIES, UNITS, Gauge, Unit, find_unit, meant, offered

REGISTRY: Any = pint.UnitRegistry()

# Our quantities' base units, in pint's words.
BASE = {
    "temperature": "degC",
    "interval": "delta_degC",
    "current": "ampere",
    "voltage": "volt",
    "resistance": "ohm",
    "resistance per length": "ohm/meter",
    "power": "watt",
    "frequency": "hertz",
    "time": "second",
    "length": "meter",
    "area": "meter**2",
    "volume": "meter**3",
    "angle": "radian",
    "mass": "kilogram",
    "force": "newton",
    "torque": "newton*meter",
    "ratio": "dimensionless",
    "temperature coefficient": "1/delta_degC",
    "rate": "1/second",
    "temperature rate": "delta_degC/second",
}
# Ours to pint's, where they differ.
WORDS = {
    ("temperature", "°C"): "degC",
    ("temperature", "°F"): "degF",
    ("interval", "K"): "delta_degC",
    ("interval", "mK"): "millikelvin",
    ("interval", "°F"): "delta_degF",
    ("resistance", "mΩ"): "milliohm",
    ("resistance", "µΩ"): "microohm",
    ("resistance", "kΩ"): "kiloohm",
    ("resistance", "MΩ"): "megaohm",
    ("resistance", "GΩ"): "gigaohm",
    ("resistance", "Ω"): "ohm",
    ("resistance per length", "Ω/m"): "ohm/meter",
    ("resistance per length", "mΩ/m"): "milliohm/meter",
    ("resistance per length", "Ω/km"): "ohm/kilometer",
    ("time", "min"): "minute",
    ("time", "d"): "day",
    ("time", "weeks"): "week",
    ("length", "in"): "inch",
    ("length", "ft"): "foot",
    ("area", "mm²"): "millimeter**2",
    ("area", "cm²"): "centimeter**2",
    ("area", "m²"): "meter**2",
    ("area", "in²"): "inch**2",
    ("volume", "l"): "liter",
    ("volume", "ml"): "milliliter",
    ("volume", "cm³"): "centimeter**3",
    ("volume", "dm³"): "decimeter**3",
    ("volume", "m³"): "meter**3",
    ("volume", "in³"): "inch**3",
    ("angle", "°"): "degree",
    ("force", "lbf"): "pound_force",
    ("force", "kgf"): "kilogram_force",
    ("force", "gf"): "gram_force",
    ("torque", "N·m"): "newton*meter",
    ("torque", "N·cm"): "newton*centimeter",
    ("torque", "mN·m"): "millinewton*meter",
    ("torque", "lbf·in"): "pound_force*inch",
    ("torque", "lbf·ft"): "pound_force*foot",
    ("torque", "kgf·cm"): "kilogram_force*centimeter",
    ("ratio", "%"): "percent",
    ("temperature coefficient", "/K"): "1/delta_degC",
    ("temperature coefficient", "%/K"): "percent/delta_degC",
    ("temperature coefficient", "ppm/K"): "ppm/delta_degC",
    ("rate", "% per hour"): "percent/hour",
    ("rate", "% per minute"): "percent/minute",
    ("temperature rate", "K/h"): "delta_degC/hour",
    ("temperature rate", "K/min"): "delta_degC/minute",
    ("temperature rate", "°F/h"): "delta_degF/hour",
}
SCALED = [unit for unit in UNITS if not isinstance(unit, Gauge)]


def named(unit: Unit) -> str:
    return f"{unit.quantity}: {unit.symbol}"


@pytest.mark.parametrize("unit", SCALED, ids=named)
@pytest.mark.parametrize("value", [1.0, 38.6, -7.25])
def test_every_factor_agrees_with_pint(unit: Unit, value: float) -> None:
    theirs = WORDS.get((unit.quantity, unit.symbol), unit.symbol)
    expected = REGISTRY.Quantity(value, theirs).to(BASE[unit.quantity]).magnitude
    assert unit.to_si(value) == pytest.approx(expected, rel=1e-12)
    assert unit.from_si(unit.to_si(value)) == pytest.approx(value, rel=1e-12)
    assert unit.width_to_si(value) == pytest.approx(unit.to_si(value) - unit.to_si(0.0), rel=1e-12, abs=1e-15)
    assert unit.factor == pytest.approx(unit.width_to_si(1.0))


# ASTM B258 through its own formula: diameter in mm and area in mm² by gauge, computed with 40 digits.
AWG = [(22, 0.64380, 0.32553), (20, 0.81182, 0.51762), (14, 1.62773, 2.08091), (12, 2.05253, 3.30877)]
AWG += [(10, 2.58819, 5.26115), (4, 5.18940, 21.15064), (2, 6.54371, 33.63083)]


@pytest.mark.parametrize(("gauge", "diameter", "area"), AWG)
def test_gauges_follow_astm_b258(gauge: int, diameter: float, area: float) -> None:
    unit = find_unit("AWG", "area")
    assert unit is not None
    assert unit.to_si(gauge) * 1e6 == pytest.approx(area, abs=6e-6)
    assert math.sqrt(4 * unit.to_si(gauge) / math.pi) * 1e3 == pytest.approx(diameter, abs=6e-6)
    assert unit.from_si(unit.to_si(gauge)) == pytest.approx(gauge, abs=1e-9)


def test_the_gauge_has_the_two_sizes_that_define_it() -> None:
    """ASTM B258: 36 AWG is 0.005 in and 4/0 is 0.46 in."""
    unit = find_unit("AWG", "area")
    assert unit is not None
    for gauge, inches in ((36.0, 0.005), (-3.0, 0.46)):
        assert math.sqrt(4 * unit.to_si(gauge) / math.pi) / 25.4e-3 == pytest.approx(inches, rel=1e-12)
    with pytest.raises(ValueError, match="no width"):
        unit.width_to_si(1.0)


@given(
    st.sampled_from([unit for unit in SCALED if unit.over > 1 and unit.times == 1]),
    st.integers(-99999, 99999),
)
def test_a_whole_number_is_the_nearest_float_in_si(unit: Unit, digits: int) -> None:
    """386 mV are 0.386 V to the last bit, as if typed so."""
    power = math.log10(unit.over)
    if power == int(power):
        assert unit.to_si(digits) == float(f"{digits}e-{int(power)}")


def test_every_quantity_has_units_and_every_spelling_finds_its_own() -> None:
    assert set(QUANTITIES) == set(BASE)
    for unit in UNITS:
        for spelling in (plain(unit.symbol), *unit.variants):
            found = find_unit(spelling, unit.quantity)
            assert found is not None, spelling
            assert found.symbol == unit.symbol or {found.factor, found.symbol} & {unit.factor}, spelling
            assert plain(spelling) == spelling, "a variant is written as it comes out of the look-alike table"


def test_a_unit_alone_is_a_point_before_a_difference() -> None:
    assert [found.quantity for text in ("degC", "K", "mm2") if (found := find_unit(text))] == [
        "temperature",
        "interval",
        "area",
    ]
    assert find_unit("K", "temperature") is None
    assert find_unit("furlong") is None


def test_what_is_offered_can_be_typed() -> None:
    for quantity in QUANTITIES:
        assert offered(quantity)
        for spelling in offered(quantity):
            assert spelling.isascii()
            assert find_unit(spelling, quantity) is not None
    assert len(offered()) == len(QUANTITIES)


@pytest.mark.parametrize(
    ("typed", "quantity", "right"),
    [
        ("C", "temperature", "degC"),
        ("a", "current", "A"),
        ("mv", "voltage", "mV"),
        ("m", "time", "min"),
        ("lb", "force", "lbf"),
        ("kA", "voltage", ""),
        ("MOhm", "resistance", ""),
        ("zz", "", ""),
    ],
)
def test_what_a_mistyped_unit_means(typed: str, quantity: str, right: str) -> None:
    """`MOhm` may be mohm or Mohm, a thousand million apart: no guess."""
    assert meant(typed, quantity) == right
