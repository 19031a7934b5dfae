"""Accuracies as handbooks print them, and the classes of probes as the standards have them."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.records.accuracy import Accuracy, Tolerance, parse_accuracy
from generator.records.quantity import QuantityError, parse_quantity
from generator.records.units import QUANTITIES

PUBLISHED = Path(__file__).parents[1] / "published"


def refused(text: str, quantity: str = "temperature") -> QuantityError:
    with pytest.raises(QuantityError) as raised:
        parse_accuracy(text, quantity)
    return raised.value


@pytest.mark.parametrize(
    ("text", "quantity", "percent", "units", "digits"),
    [
        ("±(1.5 % + 2 °C)", "temperature", 0.015, 2.0, 0.0),
        ("±(0.8 % + 3 digits)", "voltage", 0.008, 0.0, 3.0),
        ("±(0.5 % + 0.5 degC)", "temperature", 0.005, 0.5, 0.0),
        ("±0.5 degC", "temperature", 0.0, 0.5, 0.0),
        ("0.5 K", "temperature", 0.0, 0.5, 0.0),
        ("±0.9 °F", "temperature", 0.0, 0.5, 0.0),
        ("±2 %", "current", 0.02, 0.0, 0.0),
        ("+/-2 %", "current", 0.02, 0.0, 0.0),
        ("± 2 % of reading", "current", 0.02, 0.0, 0.0),
        ("±(2 % rdg + 5 dgt)", "current", 0.02, 0.0, 5.0),
        ("±(1 % + 2 mV + 1 digit)", "voltage", 0.01, 0.002, 1.0),
        ("±2 N", "force", 0.0, 2.0, 0.0),
    ],
)
def test_percent_units_and_digits(
    text: str, quantity: str, percent: float, units: float, digits: float
) -> None:
    found = parse_accuracy(text, quantity)
    assert (found.text, found.distribution, found.k, found.tolerance) == (text, "rectangular", 1.0, None)
    assert (found.percent, found.digits) == (percent, digits)
    assert found.units == pytest.approx(units, rel=1e-15)


def test_the_whole_half_width_at_a_reading() -> None:
    """0.8 % of 38.6 mV and three counts of 0.1 mV: 0.3088 + 0.3 mV, worked by hand."""
    found = parse_accuracy("±(0.8 % + 3 digits)", "voltage")
    assert found.half_width(0.0386, 0.0001) == pytest.approx(0.0006088, rel=1e-12)
    assert found.half_width(-0.0386, 0.0001) == pytest.approx(0.0006088, rel=1e-12)
    warm = parse_accuracy("±(1.5 % + 2 °C)", "temperature")
    assert warm.half_width(100.0, 0.1) == pytest.approx(3.5)


@pytest.mark.parametrize("suffix", [" normal k=2", ", normal, k = 2", " normal, k=2.0"])
def test_a_normal_one_says_so(suffix: str) -> None:
    found = parse_accuracy("±(0.5 % + 0.5 degC)" + suffix, "temperature")
    assert (found.distribution, found.k, found.percent, found.units) == ("normal", 2.0, 0.005, 0.5)


def test_the_greater_of_two_as_thermometers_print_it() -> None:
    found = parse_accuracy("±1.5 % or ±1.5 °C, whichever is greater", "temperature")
    assert found.tolerance is not None
    assert (found.percent, found.units) == (0.0, 0.0)
    assert [found.half_width(t, 0.1) for t in (20.0, 100.0, 200.0)] == [1.5, 1.5, 3.0]


# IEC 60584-1:2013, tolerances of thermocouples: the greater of °C and a fraction of |t|, and up to where the
# first is the greater.
COUPLES = [
    ("type K class 1", 1.5, 0.004, 375.0),
    ("type K class 2", 2.5, 0.0075, 333.3),
    ("type K class 3", 2.5, 0.015, -166.7),
    ("type T class 1", 0.5, 0.004, 125.0),
    ("type T class 2", 1.0, 0.0075, 133.3),
    ("type T class 3", 1.0, 0.015, -66.7),
    ("type J class 1", 1.5, 0.004, 375.0),
    ("type J class 2", 2.5, 0.0075, 333.3),
    ("type N class 1", 1.5, 0.004, 375.0),
    ("type N class 2", 2.5, 0.0075, 333.3),
]


def published(name: str) -> list[dict[str, str]]:
    with (PUBLISHED / name).open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize(
    "row", published("thermocouples-iec60584.csv"), ids=lambda row: f"{row['type']} {row['class']}"
)
def test_every_class_of_the_table_of_thermocouples(row: dict[str, str]) -> None:
    """A maker's page prints ±1.0 °C for type T class 1 and ±4 °C for type K class 3: they are 0.5 and 2.5."""
    tolerance = parse_accuracy(f"type {row['type']} class {row['class']}", "temperature").tolerance
    assert tolerance is not None
    fixed, share, crossover = (float(row[name]) for name in ("abs_C", "rel", "crossover_C"))
    assert tolerance.half_width(20.0) == fixed
    assert fixed / share == pytest.approx(abs(crossover), abs=0.5)
    for end in (float(row["t_low_C"]), float(row["t_high_C"])):
        assert tolerance.half_width(end) == pytest.approx(max(fixed, share * abs(end)), rel=1e-12)
        assert not tolerance.holds(end + math.copysign(1.0, end - 20))


@pytest.mark.parametrize(
    ("name", "celsius", "kelvin"),
    [
        *(("type K class 2", celsius, kelvin) for celsius, kelvin in ((25, 2.5), (300, 2.5), (400, 3.0))),
        *(("type T class 1", celsius, kelvin) for celsius, kelvin in ((100, 0.5), (200, 0.8), (350, 1.4))),
    ],
)
def test_thermocouples_worked(name: str, celsius: float, kelvin: float) -> None:
    assert parse_accuracy(name, "temperature").half_width(celsius, 0.0) == pytest.approx(kelvin)


@pytest.mark.parametrize("row", published("pt100-classes-iec60751.csv"), ids=lambda row: row["t_C"])
def test_every_row_of_the_table_of_platinum(row: dict[str, str]) -> None:
    for name in ("A", "B"):
        tolerance = parse_accuracy(f"Pt100 class {name}", "temperature").tolerance
        assert tolerance is not None
        celsius = float(row["t_C"])
        if tolerance.holds(celsius):
            printed = float(row[f"class_{name.lower()}_K"])
            assert tolerance.half_width(celsius) == pytest.approx(printed, abs=0.0051)


def test_a_percentage_is_of_degrees_celsius_on_a_meter_that_shows_fahrenheit() -> None:
    """ASTM E230's notes, as a maker's catalogue has them: in °F it is 1.8 times that in °C at the same point.

    By 0.75 % of the 752 that are shown it would be 3.13 K.
    """
    reading = parse_quantity("752 degF", "temperature")
    tolerance = parse_accuracy("type K class 2", "temperature")
    assert tolerance.half_width(reading.si, 0.0) == pytest.approx(3.0)


@pytest.mark.parametrize(("name", "fixed", "share", "crossover"), COUPLES)
def test_thermocouples_by_iec_60584(name: str, fixed: float, share: float, crossover: float) -> None:
    tolerance = parse_accuracy(name, "temperature").tolerance
    assert tolerance is not None
    assert tolerance.name == name
    assert tolerance.half_width(20.0) == fixed
    past = crossover + (10.0 if crossover > 0 else -10.0)
    assert tolerance.half_width(crossover * 0.99) == fixed
    assert tolerance.half_width(past) == pytest.approx(share * abs(past), rel=1e-12)
    with pytest.raises(QuantityError, match=rf"{name} holds from "):
        tolerance.half_width(1300.0)


# IEC 60751: classes A and B at °C, as an extract of the standard prints them.
PLATINUM = [(0, 0.15, 0.30), (100, 0.35, 0.80), (200, 0.55, 1.30), (400, 0.95, 2.30), (-50, 0.25, 0.55)]


@pytest.mark.parametrize(("celsius", "a", "b"), PLATINUM)
def test_platinum_by_iec_60751(celsius: float, a: float, b: float) -> None:
    for name, width in (("Pt100 class A", a), ("Pt100 class B", b)):
        tolerance = parse_accuracy(name, "temperature").tolerance
        assert tolerance is not None
        assert tolerance.half_width(celsius) == pytest.approx(width, abs=1e-12)
    assert parse_accuracy("Pt1000 class AA", "temperature").half_width(100.0, 0.0) == pytest.approx(0.27)


@given(st.sampled_from([name for name, *_ in COUPLES] + ["Pt100 class A"]), st.floats(-300, 1500))
def test_a_tolerance_is_told_only_where_it_is_stated(name: str, celsius: float) -> None:
    tolerance = parse_accuracy(name, "temperature").tolerance
    assert isinstance(tolerance, Tolerance)
    if tolerance.holds(celsius):
        assert tolerance.half_width(celsius) > 0.0
        assert tolerance.half_width(celsius) >= tolerance.share * abs(celsius)
    else:
        with pytest.raises(QuantityError):
            tolerance.half_width(celsius)


@pytest.mark.parametrize(
    ("text", "quantity", "what"),
    [
        ("2", "current", "the unit is missing after 2"),
        ("±2 A", "voltage", "'A' is no unit of voltage"),
        ("±2 AWG", "area", "'AWG' is no unit of area"),
        ("±1,5 %", "current", "a decimal comma; write 1.5 %"),
        ("±0 %", "current", "an accuracy of nothing; where none is stated, leave it out"),
        ("±1 A + 2 A", "current", "two units in one accuracy"),
        ("±-1 A", "current", "an accuracy is a small number above nought"),
        ("±(2 A", "current", "not an accuracy"),
        ("good", "current", "not an accuracy"),
        (
            "±2 % of range",
            "current",
            "a percentage of the reading is wanted, not '% of range'; write the rest in units",
        ),
        ("type K", "temperature", "the class of this probe is not known here"),
        ("type K class 2", "voltage", "'type K class 2' is a temperature probe, and voltage is asked for"),
        ("type Z class 1", "temperature", "no tolerance of type Z class 1 is known here; write it in degC"),
        ("±2 % normal k=7", "current", "a coverage factor k lies between 1 and 4"),
        (
            "±2 % or ±1 %, whichever is greater",
            "current",
            "'whichever is greater' takes one percentage and one value",
        ),
    ],
)
def test_what_is_no_accuracy(text: str, quantity: str, what: str) -> None:
    assert refused(text, quantity).what == what


@given(st.text("±0123456789.%+ ()digtsrkKVA=,normalPType cB", max_size=40), st.sampled_from(QUANTITIES))
def test_any_text_is_an_accuracy_or_told_apart(text: str, quantity: str) -> None:
    told = ""
    try:
        found = parse_accuracy(text, quantity)
    except QuantityError as error:
        told = error.what
    else:
        assert isinstance(found, Accuracy)
        assert found.tolerance or found.percent + found.units + found.digits > 0.0
    assert told or found.text
