"""Readings as plain facts."""

from __future__ import annotations

import pytest

from generator.analysis.uncertainty import Ledger, scatter
from generator.evaluation.values import Reading, Sought


def sought(u: float) -> Sought:
    ledger = Ledger()
    return Sought(ledger, ledger.input(scatter(("a",), "a", u, "K", "shared")))


def test_a_half_width_is_the_same_known_or_sought() -> None:
    # 1.96 is the 97.5 % quantile of the normal law.
    found = Reading(0.0, 60.0, 20.0, 30.0, 40.0, sought(0.5))
    assert found.half_width == pytest.approx(0.98, abs=1e-3)
    assert found.half_width == found.half_width
    assert Reading(0.0, 60.0, 20.0, 30.0, 40.0, 0.98).half_width == 0.98
    assert Reading(0.0, None, 20.0, 30.0, None, None).half_width is None


def test_readings_are_compared_by_their_half_widths() -> None:
    one, same, other = (Reading(0.0, 60.0, 20.0, 30.0, 40.0, sought(u)) for u in (0.5, 0.5, 0.7))
    assert one == same
    assert hash(one) == hash(same)
    assert one != other
    assert sought(0.5) != 0.98
    assert repr(sought(0.5)).startswith("Sought(0.9799")
