"""The solution of the fit in the units given."""

from __future__ import annotations

import math

import numpy as np
import pytest

from generator.analysis.exponential import solve
from generator.analysis.projection import NoFit

TIMES = [0.0, 120.0, 300.0, 600.0, 1200.0, 2400.0, 3600.0]
RISES = [0.3, 6.1, 13.9, 23.6, 33.5, 39.9, 41.1]
WEIGHTS = [100.0, 25.0, 100.0, 100.0, 50.0, 100.0, 100.0]


def jacobian(parameters: tuple[float, ...], *, free: bool) -> np.ndarray:
    start, settled, rate = parameters
    left = np.exp(-rate * np.array(TIMES))
    columns = [left, 1 - left, (settled - start) * np.array(TIMES) * left]
    return np.stack(columns if free else columns[1:], axis=1)


@pytest.mark.parametrize("free", [True, False])
def test_what_linearised_least_squares_say(free: bool) -> None:
    # Reference: the normal equations by numpy.
    found = solve(TIMES, RISES, WEIGHTS, free=free)
    j, w = jacobian(found.parameters, free=free), np.diag(WEIGHTS)
    inverse = np.linalg.inv(j.T @ w @ j)
    since = 0 if free else 1
    ours = np.array(found.inverse)[since:, since:]
    assert ours == pytest.approx(inverse, rel=1e-6)
    by_reading = np.array(found.sensitivities())[since:]
    assert by_reading == pytest.approx(inverse @ j.T @ w, rel=1e-6, abs=1e-12)
    if not free:
        assert found.parameters[0] == 0.0
        assert set(found.inverse[0]) == {0.0}
        assert set(found.sensitivity(0)) == {0.0}


@pytest.mark.parametrize("free", [True, False])
def test_the_residuals_lie_across_the_curve(free: bool) -> None:
    # At the least sum of squares JᵀW·r = 0.
    found = solve(TIMES, RISES, WEIGHTS, free=free)
    pulls = jacobian(found.parameters, free=free).T @ (np.array(WEIGHTS) * np.array(found.residuals))
    scale = np.abs(jacobian(found.parameters, free=free)).T @ (np.array(WEIGHTS) * np.array(RISES))
    assert np.abs(pulls / scale).max() < 1e-11
    assert found.square == pytest.approx(
        sum(w * r * r for w, r in zip(WEIGHTS, found.residuals, strict=True))
    )


def test_a_late_first_reading_does_not_cost_digits() -> None:
    times = [10_000.0 + 60 * place for place in range(12)]
    rises = [40 - 30 * math.exp(-(time - 10_000) / 200) for time in times]
    found = solve(times, rises, [1.0] * 12, free=True)
    assert found.parameters[1] == pytest.approx(40, rel=1e-9)
    assert 1 / found.parameters[2] == pytest.approx(200, rel=1e-9)
    # θ₀ = 40 − 30·e^50, as far back as zero is.
    assert found.parameters[0] == pytest.approx(40 - 30 * math.exp(50), rel=1e-6)


def test_a_start_without_bounds_is_no_answer() -> None:
    times = [100_000.0 + place for place in range(8)]
    rises = [40 - 30 * math.exp(-(time - 100_000) / 2) for time in times]
    with pytest.raises(NoFit, match="no-minimum"):
        solve(times, rises, [1.0] * 8, free=True)
