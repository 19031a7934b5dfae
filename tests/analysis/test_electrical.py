"""Resistance of an item, and the same reduced to 20 °C."""

from __future__ import annotations

import csv
import math
import statistics
from pathlib import Path

import pytest
from uncertainties import ufloat

from generator.analysis.electrical import at_20, resistance, temperature_coefficient
from generator.analysis.uncertainty import Ledger, combined, scatter
from generator.analysis.worsening import Coefficient

PUBLISHED = Path(__file__).parents[1] / "published"

ALPHA = Coefficient()


def test_resistance_by_hand() -> None:
    # 90 mV at 30 A are 3 mΩ; at 70 °C with 0.003 /K they are 3/1.15 mΩ at 20 °C.
    ledger = Ledger()
    found = resistance(ledger.exact(0.090), ledger.exact(30.0))
    assert found.x == pytest.approx(3e-3)
    alpha = temperature_coefficient(ledger, ("heat", "alpha"), ALPHA)
    assert at_20(found, ledger.exact(70.0), alpha).x == pytest.approx(3e-3 / 1.15)


def test_against_another_library() -> None:
    # Reference: `uncertainties`; drop and current of one meter, with its gain in both.
    ledger = Ledger()
    gain, volts, warm = (
        ledger.input(scatter((name,), name, u, "1", "shared"))
        for name, u in (("gain", 0.004), ("volts", 0.0003), ("warm", 1.5))
    )
    alpha = temperature_coefficient(ledger, ("a",), Coefficient(0.0036, 0.0004))
    found = at_20(resistance(0.0386 * (1.0 + gain) + volts, 30.0 * (1.0 + gain)), 71.5 + warm, alpha)

    g, v, w = ufloat(0, 0.004), ufloat(0, 0.0003), ufloat(0, 1.5)
    a = ufloat(0.0036, 0.0004 / 3**0.5)
    theirs = (0.0386 * (1 + g) + v) / (30.0 * (1 + g)) / (1 + a * (71.5 + w - 20))
    assert found.x == pytest.approx(theirs.n, rel=1e-12)
    assert combined(ledger.components(found)) == pytest.approx(theirs.s, rel=1e-9)


def gum_h2() -> list[tuple[float, float, float]]:
    with (PUBLISHED / "gum-h2.csv").open(encoding="utf-8") as file:
        return [
            (float(row["V"]), float(row["I_mA"]) / 1000, float(row["phi_rad"]))
            for row in csv.DictReader(file)
        ]


def test_errors_of_readings_taken_together_are_correlated() -> None:
    # GUM H.2, approach 1: voltage and current read together, r = −0.36 between their means; Z = V/I is
    # 254.260 Ω with u = 0.236 Ω (table H.4). As if they had nothing in common it would be 0.204 Ω.
    rows = gum_h2()
    for together, u in ((True, 0.236), (False, 0.204)):
        ledger = Ledger()
        means = []
        for place, name in enumerate(("V", "I")):
            values = [row[place] for row in rows]
            mean = statistics.fmean(values)
            # The standard deviation of the mean of five is one of five equal errors, of which each reading
            # brings its own part: (reading − mean)/√(n(n − 1)).
            number = ledger.exact(mean)
            for reading, value in enumerate(values):
                key = (str(reading),) if together else (name, str(reading))
                one = ledger.input(scatter(key, "reading", 1.0, "1", "shared"))
                number = number + one * ((value - mean) / math.sqrt(20))
            means.append(number)
        found = resistance(means[0], means[1])
        assert found.x == pytest.approx(254.260, abs=5e-4)
        assert combined(ledger.components(found)) == pytest.approx(u, abs=5e-4)


def test_copper_at_75_degrees() -> None:
    # IEC 60028: α = 0.00393 /K at 20 °C, so R75/R20 = 1.21615 (as the Industrial Power Engineering Handbook
    # has it, table 30.1).
    ledger = Ledger()
    copper = temperature_coefficient(ledger, ("copper",), Coefficient(0.00393, 0.0, assumed=False))
    assert at_20(ledger.exact(1.21615), ledger.exact(75.0), copper).x == pytest.approx(1.0, rel=1e-5)


def test_the_default_coefficient_is_told_as_assumed() -> None:
    ledger = Ledger()
    at = at_20(ledger.exact(3e-3), ledger.exact(70.0), temperature_coefficient(ledger, ("a",), ALPHA))
    (part,) = ledger.components(at)
    assert part.input.assumed
    # ∂R/∂α = −R·50 K/1.15², half-width 0.001 /K.
    assert part.half_width == pytest.approx(3e-3 * 50 / 1.15**2 * 0.001)
    assert (part.input.distribution, part.estimate) == ("rectangular", 0.003)
