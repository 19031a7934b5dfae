"""Endurance with survivors, against statsmodels and a published example."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.duration.survfunc import SurvfuncRight

from generator.analysis.survival import Lasted, kaplan_meier, survivors

# Remission of 21 leukaemia patients under 6-mercaptopurine, weeks, + still in remission (E. J. Freireich and
# others 1963; the worked example of most books on survival, from memory).
FAILED = (6, 6, 6, 7, 10, 13, 16, 22, 23)
STAYED = (6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)
PATIENTS = [Lasted(each, failed=True) for each in FAILED] + [Lasted(each, failed=False) for each in STAYED]


def test_the_books_example() -> None:
    found = {step.cycles: step for step in kaplan_meier(PATIENTS)}
    expected = {6: 0.857, 7: 0.807, 10: 0.753, 13: 0.690, 16: 0.627, 22: 0.538, 23: 0.448}
    assert {cycles: round(step.surviving, 3) for cycles, step in found.items()} == expected
    assert (found[6].at_risk, found[6].failed, found[23].at_risk) == (21, 3, 6)


def test_against_statsmodels() -> None:
    theirs = SurvfuncRight([*FAILED, *STAYED], [1] * len(FAILED) + [0] * len(STAYED))
    rows = dict(zip(theirs.surv_times, zip(theirs.surv_prob, theirs.surv_prob_se, strict=True), strict=True))
    for step in kaplan_meier(PATIENTS):
        share, error = rows[step.cycles]
        assert step.surviving == pytest.approx(share, rel=1e-12)
        # Kalbfleisch and Prentice, 1.4: S^exp(±z·se/(S·|ln S|)).
        reach = 1.959963984540054 * error / (share * abs(math.log(share)))
        assert step.low == pytest.approx(share ** math.exp(reach), rel=1e-9)
        assert step.high == pytest.approx(share ** math.exp(-reach), rel=1e-9)


@given(st.lists(st.tuples(st.integers(1, 50), st.booleans()), min_size=1, max_size=30))
def test_the_share_falls_and_its_interval_holds_it(given_pieces: list[tuple[int, bool]]) -> None:
    steps = kaplan_meier([Lasted(cycles, failed=failed) for cycles, failed in given_pieces])
    shares = [1.0, *(step.surviving for step in steps)]
    assert all(after < before for before, after in pairwise(shares))
    assert all(0 <= step.low <= step.surviving <= step.high <= 1 for step in steps)
    assert sum(step.failed for step in steps) == sum(failed for _, failed in given_pieces)


@given(st.integers(1, 30), st.integers(0, 30))
def test_without_survivors_who_left_early_it_is_a_count(failures: int, whole: int) -> None:
    pieces = [Lasted(each + 1, failed=True) for each in range(failures)]
    pieces += [Lasted(50, failed=False)] * whole
    last = kaplan_meier(pieces)[-1]
    found = survivors(pieces)
    assert found is not None
    assert (found.k, found.n) == (failures, failures + whole)
    assert last.surviving == pytest.approx(whole / (failures + whole), abs=1e-12)


def test_one_that_left_early_needs_the_estimate() -> None:
    assert survivors([Lasted(10, failed=False), Lasted(20, failed=True)]) is None
    assert survivors([Lasted(10, failed=False), Lasted(20, failed=False)]) is None
    assert survivors([]) is None
    all_whole = survivors([Lasted(50, failed=False)] * 3)
    assert all_whole is not None
    # None of three: up to 1 − 0.025^(1/3) of all may fail (Clopper and Pearson 1934).
    assert all_whole.high == pytest.approx(1 - 0.025 ** (1 / 3))


def test_what_is_no_test() -> None:
    with pytest.raises(ValueError, match="needs pieces"):
        kaplan_meier([])
    with pytest.raises(ValueError, match="needs pieces"):
        kaplan_meier([Lasted(-1, failed=True)])
    assert kaplan_meier([Lasted(5, failed=False)]) == ()
    assert not math.isnan(kaplan_meier([Lasted(5, failed=True)])[0].low)
