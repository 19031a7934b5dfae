"""Grubbs' test against the e-Handbook's example, tables, and simulated samples."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from statsmodels.regression.linear_model import OLS

from generator.analysis.outliers import critical_value, differing, grubbs

PUBLISHED = Path(__file__).parents[1] / "published"
MASSES = (199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57)
VENUS = (-1.40, -0.44, -0.30, -0.24, -0.22, -0.13, -0.05, 0.06, 0.10, 0.18, 0.20, 0.39, 0.48, 0.63, 1.01)


def test_the_handbooks_example() -> None:
    # NIST/SEMATECH e-Handbook 1.3.5.17.1: G = 2.4687 (2.468765, cut off), and 2.032 as a limit of one side;
    # the limit of both sides is 2.1266.
    found = grubbs(MASSES)
    assert found is not None
    assert (found.place, found.stands_out) == (7, True)
    assert found.statistic == pytest.approx(2.468765, abs=5e-7)
    assert found.critical == pytest.approx(2.126645, abs=5e-7)
    assert critical_value(8, 0.10) == pytest.approx(2.031652, abs=5e-7)


def test_the_semidiameters_of_venus() -> None:
    # F. E. Grubbs 1969 after W. Chauvenet: 15 residuals, of which −1.40 is farthest out.
    found = grubbs(VENUS)
    assert found is not None
    assert found.place == 0
    assert found.statistic == pytest.approx(2.573737, abs=5e-7)
    assert found.critical == pytest.approx(2.548308, abs=5e-7)


def test_the_table() -> None:
    # Computed from the same formula with scipy by others; 1.822 and 2.176 (one-sided, n = 6 and 10) are
    # printed in a course's table.
    with (PUBLISHED / "grubbs-critical-5pct.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            n = int(row["n"])
            assert critical_value(n) == pytest.approx(float(row["two_sided"]), abs=6e-5)
            assert critical_value(n, 0.10) == pytest.approx(float(row["one_sided"]), abs=6e-5)


def test_a_normal_law_is_flagged_in_five_of_a_hundred() -> None:
    draws = np.random.default_rng(13).normal(size=(4000, 8))
    flagged = sum(found.stands_out for row in draws if (found := grubbs(row.tolist())) is not None)
    assert flagged / 4000 == pytest.approx(0.05, abs=3 * (0.05 * 0.95 / 4000) ** 0.5)


@given(st.lists(st.floats(10, 99), min_size=6, max_size=15))
def test_against_another_library(values: list[float]) -> None:
    # Reference: statsmodels' outlier_test of a mean alone, studentized residuals by Bonferroni: the same test
    # said otherwise.
    assume(np.std(values) > 0.1)
    found = grubbs(values)
    assert found is not None
    theirs = OLS(values, np.ones(len(values))).fit().outlier_test()
    p = float(theirs[found.place, 2])
    if math.isfinite(p):  # all but one alike leave nothing to scale by
        assert p == pytest.approx(float(theirs[:, 2].min()))
        assert abs(p - 0.05) < 1e-9 or found.stands_out == (p <= 0.05)


def test_too_few_and_too_coarse() -> None:
    assert grubbs((1.0, 1.1, 1.2, 1.1, 9.0)) is None
    assert grubbs((20.0, 20.0, 20.0, 20.0, 20.0, 20.1), resolution=0.1) is None
    assert grubbs((20.0,) * 7) is None
    with pytest.raises(ValueError, match="no outlier"):
        critical_value(2)


FOUR_ALIKE = [(10.0, 11.0, 12.0), (20.0, 21.0, 22.0), (30.0, 31.0, 32.0)]


def test_of_few_pieces_one_differs_without_a_test() -> None:
    # s = 1 of 6 degrees of freedom and 0.5 of 1 from the two beside it; √(6.5/7)·√1.5·4 = 4.72.
    assert differing([*FOUR_ALIKE, (40.0, 41.0, 45.3)]) == (None, None, None, 2)
    assert differing([*FOUR_ALIKE, (40.0, 41.0, 45.1)]) == (None, None, None, None)


def test_nothing_differs_where_nothing_can_be_said() -> None:
    # Of two pieces either may be the one; six have a test; too few others give no scatter.
    assert differing([*FOUR_ALIKE, (40.0, 90.0)])[3] is None
    assert differing([*FOUR_ALIKE, (40.0, 41.0, 40.5, 40.2, 40.1, 90.0)])[3] is None
    assert differing([(40.0, 41.0, 90.0), (10.0, 11.0)]) == (None, None)


def test_a_step_differs_in_nothing() -> None:
    still = [(10.0, 10.0, 10.0), (20.0, 20.0, 20.0), (30.0, 30.0, 30.1)]
    assert differing(still, resolution=0.2) == (None, None, None)
    assert differing(still, resolution=0.01)[2] == 2


def test_equal_pieces_rarely_differ() -> None:
    """No level is claimed; in about 5 of 100 reports of five items of three pieces one is told to differ."""
    draws = np.random.default_rng(17).normal(size=(2000, 5, 3))
    told = sum(any(place is not None for place in differing(report.tolist())) for report in draws)
    assert told / 2000 < 0.07
