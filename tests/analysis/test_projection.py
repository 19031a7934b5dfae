"""The search of the rate: every turn of the sum of squares is found, and the lowest is taken."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.projection import Data, NoFit, least_squares


def squares(data: Data, rates: np.ndarray) -> np.ndarray:
    """Sum of squares at many rates, by another library's linear least squares."""
    times, values, weights = (np.array(each) for each in (data.times, data.values, data.weights))
    root = np.sqrt(weights)
    found = []
    for rate in rates:
        columns = [1 - np.exp(-rate * times)]
        if data.free:
            columns.append(np.ones_like(times))
        matrix = np.stack(columns, axis=1) * root[:, None]
        solution = np.linalg.lstsq(matrix, values * root, rcond=None)[0]
        found.append(float(np.sum((values * root - matrix @ solution) ** 2)))
    return np.array(found)


values = st.lists(st.floats(-1, 1), min_size=6, max_size=6)
weights = st.lists(st.floats(0.1, 1), min_size=6, max_size=6)


@given(values=values, weights=weights, free=st.booleans())
def test_no_rate_is_better(values: list[float], weights: list[float], free: bool) -> None:
    data = Data((0.0, 0.1, 0.3, 0.5, 0.8, 1.0), tuple(values), tuple(weights), free)
    scan = squares(data, np.geomspace(1e-3, 300, 400))
    try:
        found = least_squares(data)
    except NoFit:
        # Then the lowest of the scan lies at one of its ends, where the curve is a line or a step.
        assert scan.min() >= min(scan[0], scan[-1]) - 1e-6 * (1e-9 + scan.max())
        return
    assert found.square <= scan.min() * (1 + 1e-9) + 1e-15
    assert found.square == pytest.approx(squares(data, np.array([found.rate]))[0], rel=1e-6, abs=1e-12)


@pytest.mark.parametrize(("early", "lower"), [(0.03, 2.33), (0.3, 64.46)])
def test_of_two_minima_the_lower(early: float, lower: float) -> None:
    # A fast rise and a slow one: the weight of the early readings decides which of them the curve follows.
    times = (0.0, 0.005, 0.01, 0.02, 0.4, 0.7, 1.0)
    data = Data(times, (0.0, 0.3, 0.42, 0.44, 0.6, 0.8, 0.9), (early,) * 4 + (1.0,) * 3, free=False)
    rates = np.geomspace(1e-2, 1e4, 3000)
    scan = squares(data, rates)
    inner = np.flatnonzero((scan[1:-1] < scan[:-2]) & (scan[1:-1] < scan[2:])) + 1
    assert len(inner) == 2
    assert least_squares(data).rate == pytest.approx(lower, rel=5e-3)
    assert least_squares(data).rate == pytest.approx(rates[int(scan.argmin())], rel=5e-3)


def test_a_hint_is_looked_at_and_does_not_decide() -> None:
    data = Data((0.0, 0.25, 0.5, 0.75, 1.0), (0.0, 0.5, 0.75, 0.88, 0.95), (1.0,) * 5, free=False)
    plain = least_squares(data)
    for hint in (1e-9, 0.5, 2.0, 1e9):
        assert least_squares(data, (hint,)).rate == pytest.approx(plain.rate, rel=1e-12)


def test_a_lower_end_is_no_answer() -> None:
    # There is a turn at a finite rate, but a straight line meets the readings better.
    data = Data((0.0, 0.2, 0.4, 0.6, 0.8, 1.0), (0.0, 0.21, 0.4, 0.59, 0.82, 1.01), (1.0,) * 6, free=False)
    with pytest.raises(NoFit, match="no-minimum"):
        least_squares(data)
