"""The scatter of single readings, from what a meter states."""

from __future__ import annotations

import numpy as np
import pytest

from generator.analysis.noise import reading_noise


def test_a_digit_alone_is_the_deviation_of_rounding() -> None:
    # GUM F.2.2.1: half a digit to either side, u = 0.29 of the digit.
    assert reading_noise(0.1, 0.0) == pytest.approx(0.1 * 0.2887, rel=1e-4)
    assert reading_noise(0.0, 0.3) == 0.3


def test_both_together_against_simulated_readings() -> None:
    source = np.random.default_rng(20260301)
    true = source.uniform(20.0, 30.0, 200_000)
    shown = np.round((true + source.normal(0.0, 0.1, true.size)) / 0.1) * 0.1
    assert reading_noise(0.1, 0.1) == pytest.approx(float(np.std(shown - true)), rel=0.01)
