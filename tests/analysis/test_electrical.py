"""Resistance of an item, and the same reduced to 20 °C."""

from __future__ import annotations

import csv
import math
import statistics
from pathlib import Path

import pytest
from uncertainties import ufloat

from generator.analysis.electrical import (
    at_20,
    between,
    brought,
    of_reversed,
    power,
    resistance,
    temperature_coefficient,
    warm,
)
from generator.analysis.uncertainty import NEW_IN_EACH_RUN, Ledger, Uncertain, combined, rectangle, scatter
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


def test_a_reversed_pair_gives_the_drop_and_its_emf() -> None:
    # By hand: +38.6 and −37.8 mV at 30 A are a drop of 38.2 mV and a thermal EMF of 0.4 mV.
    ledger = Ledger()
    thirty = ledger.exact(30.0)
    ohms, emf = of_reversed((ledger.exact(38.6e-3), thirty), (ledger.exact(-37.8e-3), thirty))
    assert ohms.x * 30.0 == pytest.approx(38.2e-3)
    assert emf.x == pytest.approx(0.4e-3)


def test_currents_that_differ_do_not_turn_into_emf() -> None:
    # 1.2 mΩ with 0.4 mV of EMF, at 30 A one way and 29 A the other.
    ledger = Ledger()
    forward = ledger.exact(1.2e-3 * 30 + 0.4e-3), ledger.exact(30.0)
    back = ledger.exact(-1.2e-3 * 29 + 0.4e-3), ledger.exact(29.0)
    ohms, emf = of_reversed(forward, back)
    # What is left of the EMF in it is e·(1/30 − 1/29)/2.
    assert ohms.x == pytest.approx(1.2e-3 + 0.4e-3 * (1 / 30 - 1 / 29) / 2)
    assert emf.x == pytest.approx(0.4e-3, rel=0.02)


def test_an_offset_of_the_meter_goes_out_with_the_emf() -> None:
    ledger = Ledger()
    offset = ledger.input(rectangle(("offset",), "offset", 1e-3, "V", "shared"))
    thirty = ledger.exact(30.0)
    ohms, emf = of_reversed((offset + 38.6e-3, thirty), (offset - 37.8e-3, thirty))
    assert ohms.u == pytest.approx(0.0, abs=1e-15)
    assert emf.u == pytest.approx(1e-3 / math.sqrt(3))


def test_against_a_general_library() -> None:
    """The way of one run by `uncertainties`, which knows nothing of this house."""
    volts, amps, metre, length, alpha = (
        (62.0e-3, 2e-4),
        (30.0, 0.2),
        (4.63e-3, 2e-4),
        (0.1, 2e-3),
        (3e-3, 6e-4),
    )
    warmth, share = (71.0, 0.6), (0.5, 0.5 / math.sqrt(3))
    air = 21.0
    ledger = Ledger()

    def ours(name: str, of: tuple[float, float]) -> Uncertain:
        return ledger.input(scatter((name,), name, of[1], "1", "run"), of[0])

    part = ours("part", warmth)
    lead = warm(
        ours("metre", metre) * ours("length", length), between(ledger, ("lead",), ledger.exact(air), part)
    )
    found = at_20(resistance(ours("drop", volts), ours("current", amps)) - lead, part, ours("alpha", alpha))

    number = ufloat
    hot = number(*warmth)
    lead_at = air + number(*share) * (hot - air)
    theirs = (
        number(*volts) / number(*amps) - number(*metre) * number(*length) * (1 + 0.00393 * (lead_at - 20))
    ) / (1 + number(*alpha) * (hot - 20))
    assert found.x == pytest.approx(theirs.nominal_value, rel=1e-12)
    assert found.u == pytest.approx(theirs.std_dev, rel=1e-9)


def test_heat_is_what_the_part_makes_alone() -> None:
    # (ΔV − I·R_lead)·I with 62 mV at 30 A and 0.47 mΩ of lead: (62 − 14.1) mV × 30 A = 1.437 W.
    ledger = Ledger()
    part = resistance(ledger.exact(62e-3), ledger.exact(30.0)) - 0.47e-3
    assert power(part, 30.0).x == pytest.approx(1.437)


def test_what_a_control_brings_is_one_error_for_all() -> None:
    ledger = Ledger()
    fixed = ledger.input(rectangle(("gain",), "gain", 0.01, "1", "shared"))
    noise = ledger.input(scatter(("noise",), "noise", 3e-6, "Ω", "reading"))
    setting = ledger.input(scatter(("new",), "new", 4e-6, "Ω", "run"))
    told = brought(ledger, ("control",), fixed * 0.5e-3 + noise + setting + 0.5e-3, "Ω")
    assert told.x == pytest.approx(0.5e-3)
    parts = {each.input.label: each for each in ledger.components(told, without=NEW_IN_EACH_RUN)}
    assert parts["control, as read in its run"].contribution == pytest.approx(5e-6)
    assert told.u == pytest.approx(math.hypot(5e-6, 0.5e-3 * 0.01 / math.sqrt(3)))
