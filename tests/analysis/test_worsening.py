"""The slope that tells a joint that worsens from one that warms up."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from generator.analysis.electrical import at_20, resistance
from generator.analysis.uncertainty import Ledger, combined, scatter
from generator.analysis.worsening import (
    ALLOWANCE,
    Coefficient,
    Electrical,
    Noise,
    relative_noise,
    slope_uncertainty,
    trend,
)

MINUTE, HOUR = 60.0, 3600.0
SCHEDULE = [MINUTE * minute for minute in (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60)]
ALPHA = Coefficient()
QUIET = Noise(drop=4e-5, current=0.02, temperature=0.04)


def heated(
    *,
    slope: float = 0.0,
    creep: float = 0.0,
    alpha: float = 0.003,
    tau: float = 720.0,
    seed: int | None = None,
) -> list[Electrical]:
    """A run at 30 A on 3 mΩ that ends some 41 K above 22 °C.

    Args:
        slope: Rise of the resistance, 1/h.
        creep: Rise of the supply, 1/h.
        alpha: Of the item, 1/K.
        tau: Time constant, s.
        seed: Of the noise; None for none.
    """
    source = np.random.default_rng(seed)
    found = []
    for time in SCHEDULE:
        noise = source.standard_normal(3) if seed is not None else np.zeros(3)
        current = 30.0 * (1 + creep * time / HOUR)
        temperature = 22 + 41 * (1 - math.exp(-time / tau)) * (1 + 2 * creep * time / HOUR)
        ohm = 3e-3 * (1 + alpha * (temperature - 20)) * math.exp(slope * time / HOUR)
        found.append(
            Electrical(
                time,
                ohm * current + QUIET.drop * float(noise[0]),
                current + QUIET.current * float(noise[1]),
                temperature + QUIET.temperature * float(noise[2]),
            )
        )
    return found


@given(slope=st.floats(-0.2, 0.5), tau=st.floats(200, 3000))
def test_a_known_slope_comes_back(slope: float, tau: float) -> None:
    found = trend(heated(slope=slope, tau=tau), QUIET, ALPHA)
    assert found is not None
    assert found.slope == pytest.approx(slope, abs=1e-9)
    assert found.readings == 8
    assert found.low == pytest.approx(found.slope - 1.644854 * found.standard_uncertainty, abs=1e-7)


def test_the_slope_against_a_library() -> None:
    run = heated(slope=0.04, seed=5)
    found = trend(run, QUIET, ALPHA)
    assert found is not None
    warm = [each for each in run if each.time >= 20 * MINUTE]
    logs = [math.log(each.drop / each.current / (1 + 0.003 * (each.temperature - 20))) for each in warm]
    # Reference: scipy.stats.linregress.
    theirs = stats.linregress([each.time / HOUR for each in warm], logs)
    assert found.slope == pytest.approx(theirs.slope, rel=1e-9)


def test_a_joint_that_worsens_is_told_from_one_that_warms_up() -> None:
    # Nothing but warming, even with three hours to go; a supply that creeps by 2 % an hour.
    for healthy in (heated(tau=720), heated(tau=10_000), heated(creep=0.02), heated(creep=-0.02)):
        found = trend(healthy, QUIET, ALPHA)
        assert found is not None
        assert not found.worsening
    # Three times the allowance.
    bad = trend(heated(slope=3 * ALLOWANCE), QUIET, ALPHA)
    assert bad is not None
    assert bad.worsening


def test_a_drift_of_three_kelvin_an_hour_by_its_resistance() -> None:
    # Heat goes with resistance: 3 K an hour on 41 K are 7.3 % an hour.
    found = trend(heated(slope=3 / 41, seed=1), QUIET, ALPHA)
    assert found is not None
    assert found.worsening


@pytest.mark.parametrize("alpha", [0.002, 0.003, 0.004])
def test_another_coefficient_than_assumed_accuses_nobody(alpha: float) -> None:
    # Still warming at 60 min and α off by a third: the uncertainty of α covers what that makes of the slope.
    for tau in (720.0, 1800.0):
        found = trend(heated(alpha=alpha, tau=tau), QUIET, ALPHA)
        assert found is not None
        assert not found.worsening
        assert abs(found.slope) < math.sqrt(3) * found.standard_uncertainty * 1.05


def test_the_uncertainty_against_simulation() -> None:
    known = Coefficient(0.003, 0.0, assumed=False)
    drawn = [trend(heated(seed=seed), QUIET, known) for seed in range(600)]
    slopes = [each.slope for each in drawn if each is not None]
    assert drawn[0] is not None
    assert float(np.std(slopes)) == pytest.approx(drawn[0].standard_uncertainty, rel=0.1)


def test_the_uncertainty_of_a_schedule() -> None:
    # Readings at 20 25 30 40 45 50 55 60 min.
    minutes = np.array([20, 25, 30, 40, 45, 50, 55, 60])
    expected = 0.001 / math.sqrt(float(np.sum((minutes / 60 - np.mean(minutes) / 60) ** 2)))
    assert slope_uncertainty(SCHEDULE, HOUR, 0.001) == pytest.approx(expected)
    assert slope_uncertainty(SCHEDULE, 20 * MINUTE, 0.001) == math.inf
    # The same as a run has, where α is known.
    known = Coefficient(0.003, 0.0, assumed=False)
    even = [Electrical(time, 0.1, 30.0, 60.0) for time in SCHEDULE]
    found = trend(even, QUIET, known)
    assert found is not None
    by_schedule = slope_uncertainty(SCHEDULE, HOUR, relative_noise(even[0], QUIET, known))
    assert by_schedule == pytest.approx(found.standard_uncertainty)


def test_the_noise_of_one_reading_against_propagation() -> None:
    # Reference: the resistance as an uncertain number.
    ledger = Ledger()
    drop, current, temperature = (
        ledger.input(scatter((name,), name, u, "1", "reading"), at)
        for name, u, at in (("V", 4e-5, 0.1), ("I", 0.02, 30.0), ("T", 0.04, 60.0))
    )
    found = at_20(resistance(drop, current), temperature, ledger.exact(0.003))
    relative = combined(ledger.components(found)) / found.x
    assert relative_noise(Electrical(0, 0.1, 30.0, 60.0), QUIET, ALPHA) == pytest.approx(relative, rel=1e-9)


def test_too_few_readings_say_nothing() -> None:
    assert trend([], QUIET, ALPHA) is None
    assert trend(heated()[:6], QUIET, ALPHA) is None
    assert trend(heated()[:7], QUIET, ALPHA) is not None


@pytest.mark.parametrize(
    ("drop", "current", "temperature"),
    [(0.0, 30.0, 60.0), (-0.1, 30.0, 60.0), (0.1, 0.0, 60.0), (0.1, 30.0, -400.0)],
)
def test_what_is_no_resistance(drop: float, current: float, temperature: float) -> None:
    run = [Electrical(time, drop, current, temperature) for time in SCHEDULE]
    with pytest.raises(ValueError, match="no resistance"):
        trend(run, QUIET, ALPHA)


def test_both_signs_turned_are_the_same_resistance() -> None:
    turned = [
        Electrical(each.time, -each.drop, -each.current, each.temperature) for each in heated(slope=0.05)
    ]
    found = trend(turned, QUIET, ALPHA)
    assert found is not None
    assert found.slope == pytest.approx(0.05, abs=1e-9)
