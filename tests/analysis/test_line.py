"""The least-squares slope as weights."""

from __future__ import annotations

import csv
import math
from operator import mul
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from generator.analysis.line import Z95, scatter_about_line, slope_weights
from generator.analysis.uncertainty import Ledger, scatter, weighted

PUBLISHED = Path(__file__).parents[1] / "published"


def test_the_thermometer_calibration() -> None:
    # GUM H.3.3: slope 0.00218 with standard uncertainty 0.00067, s = 0.0035 °C, eleven readings.
    with (PUBLISHED / "gum-h3.csv").open(encoding="utf-8") as file:
        rows = [(float(row["t_C"]), float(row["b_C"])) for row in csv.DictReader(file)]
    weights = slope_weights([t for t, _ in rows])
    assert weights is not None
    assert math.fsum(c * b for c, (_, b) in zip(weights, rows, strict=True)) == pytest.approx(
        0.00218, abs=5e-6
    )
    assert math.hypot(*weights) * 0.0035 == pytest.approx(0.00067, abs=5e-6)


def test_a_correction_carries_the_covariance_of_intercept_and_slope() -> None:
    # GUM H.3.4: b(30 °C) = −0.1494 °C with 0.0041 °C, about 20 °C; with intercept and slope taken for
    # independent it would be 0.0073 °C.
    with (PUBLISHED / "gum-h3.csv").open(encoding="utf-8") as file:
        rows = [(float(row["t_C"]), float(row["b_C"])) for row in csv.DictReader(file)]
    times = [t for t, _ in rows]
    slopes = slope_weights(times)
    assert slopes is not None
    middle = math.fsum(times) / len(times)
    ledger = Ledger()
    read = [
        ledger.input(scatter((str(place),), "reading", 0.0034976, "°C", "reading"), b)
        for place, (_, b) in enumerate(rows)
    ]
    slope = weighted(slopes, read)
    at_20 = weighted([1 / len(rows) + (20 - middle) * each for each in slopes], read)
    assert (at_20.x, at_20.u) == pytest.approx((-0.1712, 0.0029), abs=5e-5)
    at_30 = at_20 + slope * 10.0
    assert at_30.x == pytest.approx(-0.1494, abs=5e-5)
    assert at_30.u == pytest.approx(0.0041, abs=5e-5)
    assert math.hypot(at_20.u, 10 * slope.u) == pytest.approx(0.0073, abs=5e-5)


def test_certified_slope_of_the_ozone_meters() -> None:
    # NIST StRD, linear regression, Norris: slope, its standard deviation and the residual one, at least 8
    # digits.
    with (PUBLISHED / "nist-strd-norris.csv").open(encoding="utf-8") as file:
        rows = [(float(row["x"]), float(row["y"])) for row in csv.DictReader(file)]
    with (PUBLISHED / "nist-strd-certified.csv").open(encoding="utf-8") as file:
        told = {r["statistic"]: float(r["value"]) for r in csv.DictReader(file) if r["dataset"] == "norris"}
    times, values = [x for x, _ in rows], [y for _, y in rows]
    weights = slope_weights(times)
    scatter = scatter_about_line(times, values)
    assert weights is not None
    assert scatter is not None
    assert math.fsum(map(mul, weights, values)) == pytest.approx(told["b1"], rel=1e-10)
    assert scatter == pytest.approx(told["rsd"], rel=1e-8)
    assert scatter**2 * (told["n"] - 2) == pytest.approx(told["ss_res"], rel=1e-8)
    assert math.hypot(*weights) * scatter == pytest.approx(told["b1_sd"], rel=1e-8)


@given(values=st.lists(st.floats(-50, 50), min_size=3, max_size=12))
def test_against_a_library(values: list[float]) -> None:
    times = [float(place**1.5) for place in range(len(values))]
    weights = slope_weights(times)
    assert weights is not None
    theirs = stats.linregress(times, values).slope
    found = math.fsum(c * y for c, y in zip(weights, values, strict=True))
    assert found == pytest.approx(theirs, rel=1e-9, abs=1e-9)
    # A common offset has no slope, and time itself has slope 1.
    assert math.fsum(weights) == pytest.approx(0, abs=1e-12)
    assert math.fsum(c * t for c, t in zip(weights, times, strict=True)) == pytest.approx(1)


@pytest.mark.parametrize("times", [[], [5.0], [5.0, 5.0]])
def test_what_has_no_slope(times: list[float]) -> None:
    assert slope_weights(times) is None


def test_the_quantile_of_a_one_sided_limit() -> None:
    assert pytest.approx(stats.norm.ppf(0.95), rel=1e-15) == Z95


def test_the_scatter_of_the_thermometer_calibration() -> None:
    # GUM H.3.3: s = 0.0035 °C about the line (0.003497564 unrounded, statsmodels and GTC).
    with (PUBLISHED / "gum-h3.csv").open(encoding="utf-8") as file:
        rows = [(float(row["t_C"]), float(row["b_C"])) for row in csv.DictReader(file)]
    found = scatter_about_line([t for t, _ in rows], [b for _, b in rows])
    assert found == pytest.approx(0.003497564, abs=5e-10)


@given(st.floats(-5, 5), st.floats(-50, 50), st.integers(3, 12))
def test_a_line_has_no_scatter(slope: float, start: float, n: int) -> None:
    times = [60.0 * place for place in range(n)]
    found = scatter_about_line(times, [start + slope * time / 60 for time in times])
    assert found == pytest.approx(0.0, abs=1e-9)


def test_two_readings_are_always_on_a_line() -> None:
    assert scatter_about_line([0.0, 60.0], [20.0, 21.0]) is None
    assert scatter_about_line([60.0, 60.0, 60.0], [20.0, 21.0, 22.0]) is None
