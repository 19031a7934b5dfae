"""Several comparisons held together."""

from __future__ import annotations

import warnings

from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.multiple import holm

P_VALUES = st.lists(st.floats(0, 1), min_size=1, max_size=12)


def test_the_usual_textbook_example() -> None:
    # p = .01 .04 .03 .005 at 5 %: reject, keep, keep, reject (textbook example of Holm's procedure, from memory;
    # the adjusted values .03 .06 .06 .02 recomputed).
    held = holm([0.01, 0.04, 0.03, 0.005])
    assert [each.shown for each in held] == [True, False, False, True]
    assert [each.level for each in held] == [0.05 / 3, 0.05 / 2, 0.05 / 2, 0.05 / 4]


def test_ozone_by_month() -> None:
    # R 4 tests/Examples/stats-Ex.Rout.save, pairwise.t.test(Ozone, Month), raw p-values recomputed; of the Holm-
    # adjusted ones R prints .00026 .00019 .04987 .00488 .00388 below 5 %, .05113 and ones above.
    raw = {
        "May-Jun": 0.6290, "May-Jul": 2.9e-05, "May-Aug": 1.93e-05, "May-Sep": 0.3490, "Jun-Jul": 0.010225,
        "Jun-Aug": 0.008312, "Jun-Sep": 0.8200, "Jul-Aug": 0.8960, "Jul-Sep": 0.000697, "Aug-Sep": 0.000485,
    }  # fmt: skip
    shown = {name for name, each in zip(raw, holm(list(raw.values())), strict=True) if each.shown}
    assert shown == {"May-Jul", "May-Aug", "Jun-Aug", "Jul-Sep", "Aug-Sep"}


@given(P_VALUES)
def test_against_a_reference_library(p_values: list[float]) -> None:
    # statsmodels.stats.multitest.multipletests, method "holm".
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from statsmodels.stats.multitest import multipletests
    rejected = multipletests(p_values, alpha=0.05, method="holm")[0]
    close = any(abs(p - 0.05 / k) < 1e-12 for p in p_values for k in range(1, len(p_values) + 1))
    assert close or [each.shown for each in holm(p_values)] == list(rejected)


@given(P_VALUES)
def test_an_interval_at_the_told_level_excludes_zero_where_shown(p_values: list[float]) -> None:
    for p, each in zip(p_values, holm(p_values), strict=True):
        # The interval at level a excludes zero exactly where p ≤ a.
        assert (p <= each.level) == each.shown
