"""What a planned comparison finds, against published power values and against the comparison itself."""

from __future__ import annotations

import math
from collections import Counter

import numpy as np
import pytest
from statsmodels.stats.power import TTestIndPower

from generator.analysis.interval import Parts, tail
from generator.analysis.planning import comparison, enough, plans, run_order
from generator.analysis.specimens import Spread

ONE = Spread(1.0, 10, "declared")


# Smallest difference in standard deviations found with 80 % power at 5 %, two items of n each: statsmodels'
# TTestIndPower, as computed by others.
@pytest.mark.parametrize(
    ("n", "gap"),
    list(
        zip(
            range(2, 11),
            (5.6535, 3.0709, 2.3808, 2.0244, 1.7955, 1.6317, 1.5066, 1.4069, 1.3249),
            strict=True,
        )
    ),
)
def test_two_items(n: int, gap: float) -> None:
    found = comparison(2, n, ONE, Parts())
    assert found.gap == pytest.approx(gap, rel=2e-3)
    assert (found.level, found.dof) == (0.05, 2 * (n - 1))


@pytest.mark.parametrize(("gap", "n"), [(0.2, 393.41), (0.5, 63.77), (0.8, 25.52)])
def test_cohens_sizes(gap: float, n: float) -> None:
    # J. Cohen, Statistical Power Analysis (1988): 393, 64 and 26 of each for 80 % (from memory).
    assert comparison(2, math.floor(n), ONE, Parts()).gap > gap
    assert comparison(2, math.ceil(n), ONE, Parts()).gap < gap


@pytest.mark.parametrize(("items", "pieces"), [(5, 2), (5, 3), (3, 4), (5, 6)])
def test_many_items_against_statsmodels(items: int, pieces: int) -> None:
    found = comparison(items, pieces, ONE, Parts())
    assert found.level == pytest.approx(0.05 / math.comb(items, 2))
    # A two-sample t of the pooled ν is the same as one of nobs1 = nobs2 with that ν: take the power from it.
    from scipy.stats import nct, t

    critical = t.isf(found.level / 2, found.dof)
    assert nct.sf(critical, found.dof, found.gap / math.sqrt(2 / pieces)) == pytest.approx(0.8, abs=2e-3)
    if pieces >= 5:
        power = TTestIndPower().power(found.gap, pieces, found.level, ratio=1, alternative="larger")
        assert power > 0.8  # held at one side alone, it is found oftener


@pytest.mark.parametrize(("pieces", "between"), [(3, Parts(u_normal=0.4)), (2, Parts(half_width=1.0))])
def test_a_gap_of_that_size_is_found_in_four_of_five(pieces: int, between: Parts) -> None:
    items, cases = 4, 3000
    planned = comparison(items, pieces, ONE, between)
    rng = np.random.default_rng(37)
    found = 0
    for _ in range(cases):
        runs = rng.normal(size=(items, pieces))
        s = math.sqrt(runs.var(axis=1, ddof=1).mean())
        meter = rng.normal(0, between.u_normal) + rng.uniform(-1, 1) * between.half_width
        d = float(runs[0].mean() - runs[1].mean()) + meter + planned.gap
        error = Parts(between.u_normal, between.half_width, s * math.sqrt(2 / pieces), items * (pieces - 1))
        found += d > 0 and 2 * tail(d, error) <= planned.level
    assert found / cases == pytest.approx(0.8, abs=4 * math.sqrt(0.8 * 0.2 / cases))


def test_more_pieces_find_less_and_meters_set_a_floor() -> None:
    bare = [each.gap for each in plans(5, ONE, Parts())]
    assert [each.pieces for each in plans(5, ONE, Parts())] == list(range(2, 11))
    # From four to five pieces each side's own spread takes over from the pooled one.
    assert bare[:3] == sorted(bare[:3], reverse=True)
    assert bare[3:] == sorted(bare[3:], reverse=True)
    metered = [each.gap for each in plans(5, ONE, Parts(u_normal=1.0))]
    assert all(with_meter > without for with_meter, without in zip(metered, bare, strict=True))
    assert metered[-1] > 2.8


def test_one_piece_with_the_declared_spread() -> None:
    found = comparison(2, 1, Spread(1.0, math.inf, "declared"), Parts())
    # Both normal: (1.959964 + 0.841621)·√2.
    assert found.gap == pytest.approx(2.801585 * math.sqrt(2), rel=1e-4)
    assert comparison(2, 1, Spread(1.0, 4, "declared"), Parts()).gap > found.gap


def test_enough() -> None:
    found = plans(5, ONE, Parts())
    fewest = enough(found, 3.0)
    assert fewest is not None
    assert fewest.gap <= 3.0
    assert all(each.gap > 3.0 for each in found if each.pieces < fewest.pieces)
    assert enough(found, 0.1) is None


@pytest.mark.parametrize(("items", "pieces"), [(1, 3), (0, 3), (3, 0)])
def test_what_is_no_comparison(items: int, pieces: int) -> None:
    with pytest.raises(ValueError, match="no comparison"):
        comparison(items, pieces, ONE, Parts())


def test_an_order_is_drawn_by_rounds() -> None:
    items, pieces = ("a", "b", "c", "d"), ("A", "B", "C")
    order = run_order(items, pieces, "2026-03")
    assert [piece for _, piece in order] == [each for each in pieces for _ in items]
    assert all({item for item, piece in order if piece == each} == set(items) for each in pieces)
    assert order == run_order(items[::-1], pieces, "2026-03")
    assert order != run_order(items, pieces, "2026-04")
    firsts = Counter(run_order(items, pieces, str(seed))[0][0] for seed in range(2000))
    assert all(abs(count - 500) < 4 * math.sqrt(2000 * 0.25 * 0.75) for count in firsts.values())
