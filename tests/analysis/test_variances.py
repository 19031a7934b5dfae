"""Two spreads beside each other, held against published figures and another library."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy import stats

from generator.analysis.variances import FEWEST, spread_ratio


def values(count: int, deviation: float) -> list[float]:
    """Values of a mean of nought with just that standard deviation."""
    raw = np.arange(count) - (count - 1) / 2
    return [float(each) for each in raw * deviation / raw.std(ddof=1)]


def test_the_published_test_of_two_batches_comes_out() -> None:
    # NIST/SEMATECH e-Handbook 1.3.5.9, JAHANMI2.DAT, from memory: 240 values each, s of 65.54909 and
    # 61.85425; F = 1.123037, critical values 0.7756 and 1.2894 at 5 %: no difference.
    found = spread_ratio(values(240, 61.85425), values(240, 65.54909))
    assert found is not None
    assert found.ratio**2 == pytest.approx(1.123037, abs=5e-7)
    assert found.ratio**2 / found.low**2 == pytest.approx(1.2894, abs=5e-5)
    assert found.ratio**2 / found.high**2 == pytest.approx(0.7756, abs=5e-5)
    assert not found.shown


@pytest.mark.parametrize(("before", "after"), [(6, 6), (6, 10), (10, 7), (30, 12)])
def test_quantiles_are_those_of_another_library(before: int, after: int) -> None:
    found = spread_ratio(values(before, 2.0), values(after, 3.0))
    assert found is not None
    assert found.ratio == pytest.approx(1.5)
    law = stats.f(after - 1, before - 1)
    assert found.low == pytest.approx(1.5 / math.sqrt(law.ppf(0.975)))
    assert found.high == pytest.approx(1.5 / math.sqrt(law.ppf(0.025)))


def test_the_interval_holds_the_truth_95_times_in_100() -> None:
    drawn, held, count = random.Random(7), 0, 4000  # noqa: S311  # a seeded study
    for _ in range(count):
        first = [drawn.gauss(50.0, 1.0) for _ in range(6)]
        second = [drawn.gauss(70.0, 2.5) for _ in range(8)]
        found = spread_ratio(first, second)
        assert found is not None
        held += found.low <= 2.5 <= found.high
    # Three binomial standard errors of 95 %.
    assert abs(held / count - 0.95) < 3 * math.sqrt(0.95 * 0.05 / count)


def test_it_turns_round_with_its_sides() -> None:
    one, other = values(7, 1.0), values(9, 4.0)
    found, turned = spread_ratio(one, other), spread_ratio(other, one)
    assert found is not None
    assert turned is not None
    assert (1 / turned.ratio, 1 / turned.high, 1 / turned.low) == pytest.approx(
        (found.ratio, found.low, found.high)
    )
    assert found.shown


def test_few_pieces_and_no_scatter_have_none() -> None:
    assert spread_ratio(values(FEWEST - 1, 1.0), values(20, 1.0)) is None
    assert spread_ratio(values(20, 1.0), values(FEWEST - 1, 1.0)) is None
    assert spread_ratio([1.0] * 8, values(8, 1.0)) is None
