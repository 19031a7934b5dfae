"""Places as ranges, and the gap that a comparison would find."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.power import TTestIndPower

from generator.analysis.interval import Parts, half_width
from generator.analysis.ranking import Place, gap_seen, places


def test_a_chain_that_is_shown_has_single_places() -> None:
    found = places(["a", "b", "c"], {("a", "b"), ("b", "c"), ("a", "c")})
    assert found == {"a": Place(1, 1, best=True), "b": Place(2, 2, best=False), "c": Place(3, 3, best=False)}


def test_what_is_not_shown_shares_a_range() -> None:
    # d is shown worse than a only: 2nd to 4th, like b and c.
    found = places(["a", "b", "c", "d"], {("a", "d")})
    assert found["a"] == Place(1, 3, best=False)
    assert found["b"] == found["c"] == Place(1, 4, best=False)
    assert found["d"] == Place(2, 4, best=False)


def test_best_is_better_than_every_other() -> None:
    shown = {("a", "b"), ("a", "c"), ("a", "d")}
    assert places(["a", "b", "c", "d"], shown)["a"] == Place(1, 1, best=True)
    assert not places(["a", "b", "c", "d", "e"], shown)["a"].best
    # Alone there is no other.
    assert places(["a"], set()) == {"a": Place(1, 1, best=False)}


def test_no_pair_shown_no_order() -> None:
    assert set(places(["a", "b", "c"], set()).values()) == {Place(1, 3, best=False)}


def test_a_stranger_among_the_pairs() -> None:
    with pytest.raises(ValueError, match="not ranked"):
        places(["a", "b"], {("a", "z")})


@given(figures=st.lists(st.floats(0, 10), min_size=1, max_size=8), gap=st.floats(0.1, 5))
def test_true_places_lie_within(figures: list[float], gap: float) -> None:
    # Where pairs further apart than a gap are shown, the place by value is always in the range.
    items = [str(place) for place in range(len(figures))]
    shown = {
        (a, b)
        for a, low in zip(items, figures, strict=True)
        for b, high in zip(items, figures, strict=True)
        if high - low > gap
    }
    for item, place in places(items, shown).items():
        rank = 1 + sum(other < figures[int(item)] for other in figures)
        assert place.first <= rank <= place.last


@pytest.mark.parametrize(
    ("n", "gap"),
    # Smallest δ/σ with 80 % power of the two-sample t test at 5 %, by statsmodels 0.15.0.
    list(
        zip(
            range(2, 11),
            (5.6535, 3.0709, 2.3808, 2.0244, 1.7955, 1.6317, 1.5066, 1.4069, 1.3249),
            strict=True,
        )
    ),
)
def test_the_gap_of_two_samples(n: int, gap: float) -> None:
    error = Parts(u_t=math.sqrt(2 / n), dof=2 * (n - 1))
    assert gap_seen(error, 0.05) == pytest.approx(gap, rel=1e-4)


def test_the_gap_at_a_stricter_level_and_another_power() -> None:
    # Reference: statsmodels, two-sample t with ten pieces each.
    error = Parts(u_t=math.sqrt(2 / 10), dof=18)
    for level, power in ((0.05 / 10, 0.8), (0.01, 0.9)):
        theirs = TTestIndPower().solve_power(nobs1=10, alpha=level, power=power)
        assert gap_seen(error, level, power) == pytest.approx(theirs, rel=1e-3)


@pytest.mark.parametrize(
    ("n", "level", "power"),
    # R, power.t.test(delta = 1, sd = 1), wch/r-source tests/Examples/stats-Ex.Rout.save: twenty of each find
    # it with 0.8689528; 22.02110 of each with 0.90, one-sided 17.84713.
    [(20.0, 0.05, 0.8689528), (22.02110, 0.05, 0.90), (17.84713, 0.10, 0.90)],
)
def test_power_as_r_prints_it(n: float, level: float, power: float) -> None:
    assert gap_seen(Parts(u_t=math.sqrt(2 / n), dof=2 * (n - 1)), level, power) == pytest.approx(
        1.0, rel=1e-4
    )


def test_the_gap_of_a_known_spread() -> None:
    # Normal alone: (z_0.975 + z_0.8)·u.
    expected = (stats.norm.ppf(0.975) + stats.norm.ppf(0.8)) * 0.7
    assert gap_seen(Parts(u_normal=0.7), 0.05) == pytest.approx(expected, rel=1e-9)
    assert gap_seen(Parts(), 0.05) == 0.0


@pytest.mark.parametrize(
    ("error", "level"),
    [
        (Parts(u_normal=0.3, half_width=0.8, u_t=0.5, dof=4), 0.05),
        (Parts(u_normal=1.0, half_width=0.2, u_t=0.3, dof=3), 0.01),
        (Parts(u_normal=0.1, half_width=1.5, u_t=0.5, dof=2), 0.05),
    ],
)
def test_the_gap_of_a_mixture_is_found_in_four_of_five(error: Parts, level: float) -> None:
    gap = gap_seen(error, level)
    source = np.random.default_rng(11)
    spreads = error.u_t * np.sqrt(source.chisquare(error.dof, 1500) / error.dof)
    needed = np.array(
        [
            half_width(Parts(error.u_normal, error.half_width, float(spread), error.dof), 1 - level)
            for spread in spreads
        ]
    )
    drawn = gap + error.half_width * source.uniform(-1, 1, (200, 1500))
    drawn += math.hypot(error.u_normal, error.u_t) * source.standard_normal((200, 1500))
    assert float(np.mean(drawn > needed)) == pytest.approx(0.8, abs=0.02)
