"""US units in the files to take away: behind the columns in SI, which stay as they are."""

from __future__ import annotations

import csv
import io

import pytest

from generator.evaluation.report import evaluate
from generator.pages.downloads import pairs, readings, results
from generator.pages.us_columns import with_us_columns
from tests.pages.factory import demo

FINDING = evaluate(demo(), demo().reports["fuse-holders-30a"])
RUNS = demo().reports["fuse-holders-30a"].runs


def rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode("utf-8"), newline="")))


def test_a_rise_takes_no_offset_and_a_temperature_does() -> None:
    heads, made = with_us_columns(
        ("air (°C)", "rise (K)", "time (min)"), [(20.0, 50.0, 60.0), (None, None, 0)]
    )
    assert heads == ("air (°C)", "rise (K)", "time (min)", "air (°F)", "rise (°F)")
    assert list(made) == [(20.0, 50.0, 60.0, 68.0, 90.0), (None, None, 0, None, None)]


def test_an_amount_has_the_us_unit_of_its_row() -> None:
    """NIST SP 811, B.8: 1 lbf = 4.448 222 N."""
    heads, made = with_us_columns(
        ("item", "value", "unit"), [("a", 50.0, "K"), ("b", 388.0, "N"), ("c", 1, "Ω")]
    )
    assert heads == ("item", "value", "unit", "value, in the US unit", "US unit")
    assert [row[3:] for row in made] == [(90.0, "°F"), (87.2259, "lbf"), (None, None)]


def test_a_temperature_of_a_measure_takes_its_offset_and_its_half_width_does_not() -> None:
    """Water boils at 100 °C, which is 212 °F; 10 K are a difference of 18 °F (NIST SP 811, B.8)."""
    heads = ("value", "half-width of its 95 % interval", "standard uncertainty", "difference", "unit")
    made, found = with_us_columns(heads, [(100.0, 10.0, 5.0, 50.0, "°C")])
    assert made[5:] == (*(f"{head}, in the US unit" for head in heads[:4]), "US unit")
    assert next(found)[5:] == (212.0, 18.0, 9.0, 90.0, "°F")


def test_a_file_without_units_gets_no_column() -> None:
    heads, made = with_us_columns(("value", "p"), [(1.0, 0.5)])
    assert (heads, list(made)) == (("value", "p"), [(1.0, 0.5)])


def test_the_files_of_a_report_have_them() -> None:
    for row in rows(readings(FINDING, RUNS)):
        if row["rise (K)"]:
            assert float(row["rise (°F)"]) == pytest.approx(1.8 * float(row["rise (K)"]), rel=1e-5)
        if row["air (°C)"]:
            assert float(row["air (°F)"]) == pytest.approx(1.8 * float(row["air (°C)"]) + 32, rel=1e-5)
    for found, amount in ((results(FINDING), "value"), (pairs(FINDING), "difference")):
        kelvins = [row for row in rows(found) if row["unit"] == "K" and row[amount]]
        assert len(kelvins) > 5
        for row in kelvins:
            assert row["US unit"] == "°F"
            assert float(row[f"{amount}, in the US unit"]) == pytest.approx(
                1.8 * float(row[amount]), rel=1e-5
            )
