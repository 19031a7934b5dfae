"""The mean of repeats: published means with their standard deviations, and what stays beside the scatter."""

from __future__ import annotations

import csv
import math
from collections.abc import Callable
from pathlib import Path
from statistics import fmean, stdev

import pytest
from uncertainties import ufloat

from generator.analysis.repeats import Repeats, mean_of_repeats
from generator.analysis.specimens import Spread, own_spread
from generator.analysis.uncertainty import (
    NEW_IN_EACH_RUN,
    Ledger,
    Uncertain,
    effective_dof,
    rectangle,
    scatter,
)

PUBLISHED = Path(__file__).parents[1] / "published"
READINGS = Repeats(("run", "pull"), "readings", frozenset({"reading"}), "reading", "V")


def bare(ledger: Ledger, values: list[float]) -> list[Uncertain]:
    return [ledger.exact(each) for each in values]


def column(name: str) -> list[float]:
    with (PUBLISHED / "gum-h2.csv").open(encoding="utf-8") as file:
        return [float(row[name]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(
    ("name", "mean", "deviation"),
    [("V", 4.9990, 0.0032), ("I_mA", 19.6610, 0.0095), ("phi_rad", 1.04446, 0.00075)],
)
def test_five_readings_of_a_voltmeter(name: str, mean: float, deviation: float) -> None:
    """GUM H.2.2, table H.2: the means and their experimental standard deviations."""
    ledger, values = Ledger(), column(name)
    found = mean_of_repeats(ledger, bare(ledger, values), own_spread(values), READINGS)
    last = 10.0 ** -len(str(deviation).partition(".")[2])
    assert found.x == pytest.approx(mean, abs=last / 2)
    assert found.u == pytest.approx(deviation, abs=last / 2)
    assert effective_dof(ledger.components(found)) == pytest.approx(4)


@pytest.mark.parametrize(
    ("made", "mean", "deviation"),
    [
        (lambda v, i, phi: v / i * math.cos(phi), 127.732, 0.071),
        (lambda v, i, phi: v / i * math.sin(phi), 219.847, 0.295),
        (lambda v, i, _: v / i, 254.260, 0.236),
    ],
    ids=["R", "X", "Z"],
)
def test_five_resistances_of_readings_taken_together(
    made: Callable[[float, float, float], float], mean: float, deviation: float
) -> None:
    """GUM H.2.4, approach 2, table H.5: each set of readings makes a figure, and their scatter holds what is
    correlated. From the means of the inputs as if they had nothing in common: 0.195, 0.201 and 0.204 Ω."""
    voltages, currents, phases = (column(name) for name in ("V", "I_mA", "phi_rad"))
    ledger = Ledger()
    values = [made(v, i / 1000, phi) for v, i, phi in zip(voltages, currents, phases, strict=True)]
    found = mean_of_repeats(ledger, bare(ledger, values), own_spread(values), READINGS)
    assert found.x == pytest.approx(mean, abs=6e-4)
    assert found.u == pytest.approx(deviation, abs=6e-4)


def test_twenty_readings_of_a_temperature() -> None:
    """GUM 4.4.3, table 1 (values from memory; they give the printed mean and deviations)."""
    values = [
        *(96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07),
        *(100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72),
    ]
    ledger = Ledger()
    found = mean_of_repeats(ledger, bare(ledger, values), own_spread(values), READINGS)
    assert found.x == pytest.approx(100.145, abs=5e-4)
    assert found.u == pytest.approx(0.333, abs=5e-4)


def test_means_of_ten_days() -> None:
    """GUM H.5.2.3: the mean of the day means, 10.000097 V, with 57 µV/√10 = 18 µV and ν = 9."""
    with (PUBLISHED / "gum-h5.csv").open(encoding="utf-8") as file:
        days = [float(row["mean_V"]) for row in csv.DictReader(file)]
    ledger = Ledger()
    of = Repeats(("zener",), "terminations", NEW_IN_EACH_RUN, "run", "V")
    found = mean_of_repeats(ledger, bare(ledger, days), own_spread(days), of)
    assert found.x == pytest.approx(10.000097, abs=5e-7)
    assert found.u == pytest.approx(18e-6, abs=5e-7)
    assert effective_dof(ledger.components(found)) == pytest.approx(9)


def test_common_errors_stay_and_new_ones_are_in_the_scatter() -> None:
    ledger = Ledger()
    common = ledger.input(rectangle(("scale",), "scale", 3.0, "N", "shared"))
    numbers = [
        value + common + ledger.input(scatter(("noise", str(value)), "noise", 1.0, "N", "reading"))
        for value in (100.0, 104.0)
    ]
    found = mean_of_repeats(ledger, numbers, own_spread([100.0, 104.0]), READINGS)
    assert found.x == 102.0
    # 3/√3 of the scale; s = 2·√2, over √2; none of the noise.
    assert found.u == pytest.approx(math.sqrt(3.0 + 4.0))


def test_against_another_library() -> None:
    # Reference: `uncertainties`; five readings with one gain, and s/√5 of their scatter.
    ledger, values = Ledger(), [386.0, 391.5, 388.0, 379.5, 390.0]
    gain = ledger.input(scatter(("gain",), "gain", 0.006, "1", "shared"))
    found = mean_of_repeats(ledger, [value * (1.0 + gain) for value in values], own_spread(values), READINGS)
    theirs = fmean(values) * ufloat(1, 0.006) + ufloat(0, stdev(values) / 5**0.5)
    assert found.x == pytest.approx(theirs.n)
    assert found.u == pytest.approx(theirs.s, rel=1e-9)


def test_repeats_that_fall_on_one_step_keep_that_step() -> None:
    ledger = Ledger()
    of = Repeats(("run",), "readings", frozenset({"reading"}), "reading", "N", resolution=2.0)
    found = mean_of_repeats(ledger, bare(ledger, [388.0] * 3), own_spread([388.0] * 3), of)
    # GUM F.2.2.1: δ/√12.
    assert found.u == pytest.approx(2.0 / math.sqrt(12.0))


def test_a_pooled_spread_brings_its_own_degrees_of_freedom() -> None:
    ledger = Ledger()
    found = mean_of_repeats(ledger, bare(ledger, [1.0, 3.0]), Spread(2.0, 7.0, "pooled"), READINGS)
    assert found.u == pytest.approx(2.0 / math.sqrt(2.0))
    assert effective_dof(ledger.components(found)) == pytest.approx(7)


def test_one_repeat_is_itself_and_none_is_refused() -> None:
    ledger = Ledger()
    alone = ledger.input(rectangle(("scale",), "scale", 3.0, "N", "reading"))
    assert mean_of_repeats(ledger, [alone], None, READINGS) is alone
    with pytest.raises(ValueError, match="no readings"):
        mean_of_repeats(ledger, [], None, READINGS)
    with pytest.raises(ValueError, match="no spread"):
        mean_of_repeats(ledger, [alone, alone], None, READINGS)
