"""The unit that figures are written in: readable in metric, converted for US readers."""

from __future__ import annotations

import dataclasses

import pytest

from generator.evaluation.instruments import UNITS
from generator.pages.format import Both, Plus
from generator.pages.shown import STEPS, Shown, shown
from generator.records.units import UNITS as KNOWN
from tests.pages.factory import HOLDERS, estimate, item, measure, run


def of(unit: str, *values: float) -> Shown:
    items = [
        item(f"i{n}", n, dataclasses.replace(run("r", f"i{n}", "A", {0: value})), figure=estimate(value, 0.1))
        for n, value in enumerate(values)
    ]
    items = [
        dataclasses.replace(
            each, pieces=tuple(dataclasses.replace(p, figure=each.figure) for p in each.pieces)
        )
        for each in items
    ]
    return shown(dataclasses.replace(measure(*items), unit=unit, kind="scalar"))


@pytest.mark.parametrize(
    ("unit", "values", "found"),
    [
        ("Ω", (0.00174, 0.0031), "mΩ"),
        ("Ω", (0.5, 3.1), "Ω"),
        ("V", (0.0524,), "mV"),
        ("N", (392.0, 0.4), "N"),
        ("N", (2500.0,), "kN"),
        ("kg", (0.023,), "g"),
        ("m", (0.012,), "mm"),
        ("1", (0.12,), "%"),
        ("A", (0.0,), "µA"),
    ],
)
def test_the_largest_figure_decides_for_all(unit: str, values: tuple[float, ...], found: str) -> None:
    assert of(unit, *values).unit == found


def test_a_figure_is_multiplied_before_it_is_rounded() -> None:
    assert of("Ω", 0.00174).plus(0.00174, 0.000042) == Plus("1.740", "0.042", unit="mΩ")


def test_a_force_is_told_in_pounds_force_too() -> None:
    """UL 486E, table 22: 13.5 lbf for AWG 12, printed as 60 N."""
    told = of("N", 60.0).plus(60.05, 0.44)
    assert (told.value, told.half_width, told.unit) == ("60.05", "0.44", "N")
    assert (told.value_us, told.unit_us) == ("13.500", "lbf")


def test_a_spread_of_forces_is_told_in_both() -> None:
    assert Shown("N").size(17.3) == Both("17\N{NO-BREAK SPACE}N", "3.9\N{NO-BREAK SPACE}lbf")


def test_a_temperature_has_its_offset_and_a_difference_of_two_has_none() -> None:
    """0 °C is 32 °F; 10 K are 18 °F."""
    unit = of("°C", 100.0)
    assert unit.plus(100.0, 1.0).value_us == "212.0"
    assert unit.gap(10.0, 1.0).value_us == "18.0"
    assert unit.size(10.0).us == "18\N{NO-BREAK SPACE}°F"


def test_a_rise_is_left_to_its_own_rule() -> None:
    unit = shown(HOLDERS)
    assert unit == Shown("K")
    assert unit.plus(50.0, 1.0).value_us == "90.0"


def test_every_unit_of_figures_is_readable() -> None:
    """Each has its steps, or is one that the pages have a rule for."""
    assert set(UNITS.values()) - {"K"} == set(STEPS)
    known = {each.symbol: each.quantity for each in KNOWN}
    for unit, steps in STEPS.items():
        quantities = {quantity for quantity, own in UNITS.items() if own == unit}
        assert {known[step] for step in steps} <= quantities
