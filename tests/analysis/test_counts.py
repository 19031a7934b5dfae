"""k of n with the exact interval, against published rows and the binomial law itself."""

from __future__ import annotations

import csv
from math import comb
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from generator.analysis.counts import share

PUBLISHED = Path(__file__).parents[1] / "published"


@pytest.mark.parametrize(
    ("k", "n", "level", "low", "high"),
    [
        # NIST/SEMATECH e-Handbook 7.2.4.1, which then rounds its own upper end to 0.400.
        (4, 20, 0.90, 0.071354, 0.401029),
        # As quoted in the comment of a public R function.
        (4, 20, 0.95, 0.057334, 0.436614),
        # R, binom.test(682, 925) (Conover 1971), wch/r-source tests/Examples/stats-Ex.Rout.save.
        (682, 925, 0.95, 0.7076683, 0.7654066),
        # 3 of 10: the chart of Clopper and Pearson 1934 (from memory).
        (3, 10, 0.95, 0.067, 0.652),
    ],
)
def test_published_intervals(k: int, n: int, level: float, low: float, high: float) -> None:
    found = share(k, n, level)
    digits = 0.5 * 10 ** -len(str(low).partition(".")[2])
    assert found.low == pytest.approx(low, abs=1.01 * digits)
    assert found.high == pytest.approx(high, abs=2.01 * digits)


@pytest.mark.parametrize(
    ("k", "n", "level", "high"),
    [
        # Boost, binomial_example.qbk, 200 of 2000 (its lower limits use k where k − 1 belongs).
        (200, 2000, 0.95, 0.11399),
        # GenBinomApps manual: 5 of 100,000, one-sided 95 %.
        (5, 100_000, 0.90, 0.0001051275),
        # 0 of 10: 1 − 0.025^(1/10) and one-sided 1 − 0.05^(1/10).
        (0, 10, 0.95, 0.30849711),
        (0, 10, 0.90, 0.25886555),
    ],
)
def test_published_upper_ends(k: int, n: int, level: float, high: float) -> None:
    assert share(k, n, level).high == pytest.approx(high, rel=1e-5)


def test_the_lower_end_counts_one_less() -> None:
    # 2 of 20 at 95 %: 0.01235, not the 0.03207 of an old document of Boost's.
    assert share(2, 20).low == pytest.approx(0.01235, abs=5e-6)
    assert share(2, 20).high == pytest.approx(0.31698, abs=5e-6)


@pytest.mark.parametrize("n", range(1, 51))
def test_the_share_is_within_in_at_least_as_many_cases_as_said(n: int) -> None:
    # By enumeration: whatever the true share, the chance of a count whose interval holds it is at least 95 %.
    # It is least at either side of an end of an interval.
    found = [share(k, n) for k in range(n + 1)]
    ends = sorted({end for each in found for end in (each.low, each.high)})
    for true in (beside for end in ends for beside in (end - 1e-9, end + 1e-9) if 0 < beside < 1):
        holding = [each.k for each in found if each.low <= true <= each.high]
        assert sum(float(stats.binom.pmf(k, n, true)) for k in holding) >= 0.95 - 1e-9, true


@pytest.mark.parametrize(
    ("n", "at_most"), [(10, 0.2589), (30, 0.0950), (100, 0.0295), (300, 0.00994), (59, 0.05), (299, 0.01)]
)
def test_none_of_many_is_less_than_three_in_n(n: int, at_most: float) -> None:
    # The rule of three, 3/n, against the exact one-sided 95 %, 1 − 0.05^(1/n); none of 59 shows less than
    # 5 %, none of 299 less than 1 %.
    high = share(0, n, 0.90).high
    assert high < 3 / n
    assert high <= at_most + 5e-5
    assert high == pytest.approx(at_most, rel=0.01)


def test_none_and_all() -> None:
    # 0 of 3 up to 71 %, 0 of 50 up to 7.1 %: 1 − 0.025^(1/n).
    assert share(0, 3).high == pytest.approx(0.708, abs=5e-4)
    assert share(0, 50).high == pytest.approx(0.071, abs=5e-4)
    assert (share(0, 3).low, share(3, 3).high, share(1, 1).high) == (0.0, 1.0, 1.0)
    assert share(3, 3).low == pytest.approx(0.025 ** (1 / 3))
    assert share(1, 1).low == pytest.approx(0.025)


@given(n=st.integers(1, 400), part=st.floats(0, 1), level=st.floats(0.5, 0.999))
def test_each_end_leaves_half_of_the_rest(n: int, part: float, level: float) -> None:
    k = round(part * n)
    found = share(k, n, level)
    rest = (1 - level) / 2
    if k > 0:
        assert stats.binom.sf(k - 1, n, found.low) == pytest.approx(rest, rel=1e-6)
    if k < n:
        assert stats.binom.cdf(k, n, found.high) == pytest.approx(rest, rel=1e-6)
    # Reference: statsmodels.
    theirs = proportion_confint(k, n, alpha=1 - level, method="beta")
    assert [found.low, found.high] == pytest.approx(list(theirs), rel=1e-9, abs=1e-15)


@pytest.mark.parametrize(("k", "n"), [(0, 0), (-1, 3), (4, 3)])
def test_what_is_no_count(k: int, n: int) -> None:
    with pytest.raises(ValueError, match="no count"):
        share(k, n)


@pytest.mark.parametrize("level", [0.0, 1.0, 95.0])
def test_what_is_no_level(level: float) -> None:
    with pytest.raises(ValueError, match="no interval"):
        share(1, 3, level)


def test_the_table_to_eight_digits() -> None:
    # Clopper and Pearson 1934, computed by others with scipy's beta quantiles.
    with (PUBLISHED / "binomial-clopper-pearson-95.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            k, n = int(row["k"]), int(row["n"])
            found = share(k, n)
            assert found.low == pytest.approx(float(row["lower_two_sided"]), abs=6e-9)
            assert found.high == pytest.approx(float(row["upper_two_sided"]), abs=6e-9)
            if k < n:
                assert share(k, n, 0.90).high == pytest.approx(float(row["upper_one_sided"]), abs=6e-9)


@pytest.mark.parametrize("n", range(1, 51))
def test_ends_by_adding_up_the_binomial_law(n: int) -> None:
    # The law itself, each term from integers: what is left beyond each end is 2.5 %.
    for k in range(n + 1):
        found = share(k, n)
        above = sum(
            comb(n, each) * found.low**each * (1 - found.low) ** (n - each) for each in range(k, n + 1)
        )
        below = sum(
            comb(n, each) * found.high**each * (1 - found.high) ** (n - each) for each in range(k + 1)
        )
        assert k == 0 or above == pytest.approx(0.025, rel=1e-9)
        assert k == n or below == pytest.approx(0.025, rel=1e-9)
