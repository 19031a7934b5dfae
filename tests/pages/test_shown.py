"""The unit that figures are written in: readable in metric, converted for US readers."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from generator.evaluation.instruments import UNITS
from generator.pages.format import Both, Plus
from generator.pages.shown import STEPS, Shown, shown
from generator.records.bench import load
from generator.records.units import UNITS as KNOWN
from tests.evaluation.small import REPORT, Small
from tests.pages.factory import HOLDERS, estimate, item, measure, run
from tests.pages.rendered import Parsed, parsed
from tests.pages.sites import made


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


METHOD = """\
title: Resistance of a joint
hazard: [extra-low voltage]
conditions: {{conductor: 4 mm2 class 5}}
measures:
  - {{id: joint, name: {name}, kind: scalar, quantity: {quantity}, better: lower}}
cannot-show: [vibration]
"""
METER = """\
name: a meter
ranges:
  - {{quantity: {quantity}, from: {low}, to: {high}, accuracy: "±(1 % + 2 digits)", resolution: {step}, repeatability: {step}}}
calibrated: never
"""  # noqa: E501
RUN = """\
method: joint/1
item: {item}
specimen: {piece}
date: 2026-03-10
instruments: {{{quantity}: meter}}
values: {{joint: {value}}}
"""


def pages(folder: Path, name: str, values: Mapping[str, tuple[str, ...]], **meter: str) -> dict[str, Parsed]:
    """The pages of a bench whose question is answered by one quantity."""
    small = Small(folder)
    small.report = REPORT.replace("rise", "joint")
    small.write("methods/joint/1.yml", METHOD.format(name=name, **meter))
    small.write("instruments/meter.yml", METER.format(**meter))
    for item_id, own in values.items():
        small.items[item_id] = set()
        for piece, value in zip("ABC", own, strict=True):
            small.items[item_id].add(piece)
            run_text = RUN.format(item=item_id, piece=piece, value=value, **meter)
            small.write(f"r/runs/{item_id}-{piece.lower()}.yml", run_text)
    small.finish()
    bench = load(folder)
    assert bench.faults == ()
    return {each.uri: parsed(each) for each in made(bench).pages}


def test_small_resistances_are_told_in_milliohm_wherever_they_stand(tmp_path: Path) -> None:
    values = {
        "cool": ("0.00172 ohm", "0.00174 ohm", "0.00176 ohm"),
        "hot": ("0.00952 ohm", "0.00955 ohm", "0.00958 ohm"),
    }
    meter = {"low": "0 mohm", "high": "20 mohm", "step": "0.01 mohm"}
    found = pages(tmp_path, "Resistance of the joint", values, quantity="resistance", **meter)
    report = found["r/r/index.md"]
    (bars,) = report.all("div", class_="bars")
    assert bars.text.startswith("Resistance of the joint, mΩ 0 2 4 6 8 ")
    assert re.search(r"Cool X 1\.740 ± 0\.\d+", bars.text)
    (answer,) = report.all("p", class_="answer")
    assert re.search(r"came out lowest, 1\.740 ± 0\.\d+ mΩ", answer.text)
    assert re.search(r"1\.740 ± 0\.\d+ mΩ", found["i/cool/index.md"].text)
    # Budgets are in SI.
    before, _, _ = report.text.partition("that may be off, the largest first")
    assert len(before) < len(report.text)
    for each in (before, found["i/cool/index.md"].text):
        assert not re.search(r"\b0\.00\d*( ±|\N{NO-BREAK SPACE}Ω)", each)


def test_temperatures_that_are_measured_are_told_in_fahrenheit_with_their_offset(tmp_path: Path) -> None:
    """40 °C are 104 °F, 60 °C are 140 °F."""
    values = {
        "cool": ("39.8 degC", "40.0 degC", "40.2 degC"),
        "hot": ("59.8 degC", "60.0 degC", "60.2 degC"),
    }
    meter = {"low": "0 degC", "high": "100 degC", "step": "0.1 degC"}
    found = pages(tmp_path, "Temperature of the joint", values, quantity="temperature", **meter)
    report = found["r/r/index.md"]
    (bars,) = report.all("div", class_="bars")
    assert bars.text.startswith("Temperature of the joint, °C °F 0 20 40 60 50 100 ")
    assert re.search(r"Cool X 40\.0\d* ± 0\.\d+ 104\.0\d* ± \d\.\d+", bars.text)
    (answer,) = report.all("p", class_="answer")
    assert "came out lowest, about 40 °C (104 °F)" in answer.text
    assert re.search(r"104\.0\d* ± \d\.\d+ °F", found["i/cool/index.md"].text)
