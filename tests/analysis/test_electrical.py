"""Resistance of an item, and the same reduced to 20 °C."""

from __future__ import annotations

import pytest

from generator.analysis.electrical import at_20, resistance, temperature_coefficient
from generator.analysis.uncertainty import Ledger
from generator.analysis.worsening import Coefficient

ALPHA = Coefficient()


def test_resistance_by_hand() -> None:
    # 90 mV at 30 A are 3 mΩ; at 70 °C with 0.003 /K they are 3/1.15 mΩ at 20 °C.
    ledger = Ledger()
    found = resistance(ledger.exact(0.090), ledger.exact(30.0))
    assert found.x == pytest.approx(3e-3)
    alpha = temperature_coefficient(ledger, ("heat", "alpha"), ALPHA)
    assert at_20(found, ledger.exact(70.0), alpha).x == pytest.approx(3e-3 / 1.15)


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
