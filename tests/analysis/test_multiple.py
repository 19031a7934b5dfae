"""Several comparisons held together."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.multitest import multipletests

from generator.analysis.multiple import holm

P_VALUES = st.lists(st.floats(0, 1), min_size=1, max_size=12)


def test_the_usual_textbook_example() -> None:
    # p = .01 .04 .03 .005 at 5 %: reject, keep, keep, reject (a usual textbook example, from memory; the
    # adjusted values .03 .06 .06 .02 recomputed).
    held = holm([0.01, 0.04, 0.03, 0.005])
    assert [each.shown for each in held] == [True, False, False, True]
    assert [each.level for each in held] == [0.05 / 3, 0.05 / 2, 0.05 / 2, 0.05 / 4]


def test_ozone_by_month() -> None:
    # R, tests/Examples/stats-Ex.Rout.save: pairwise.t.test(Ozone, Month) with pooled SD prints, by Holm,
    # .00026 .00019 .05113 .04987 .00488 .00388 and 1 for the others. Raw p-values recomputed.
    raw = {
        "May-Jun": 0.6087657893,
        "May-Jul": 2.931151249e-05,
        "May-Aug": 1.949060713e-05,
        "May-Sep": 0.3254530713,
        "Jun-Jul": 0.01022548271,
        "Jun-Aug": 0.008312221876,
        "Jun-Sep": 0.8583832976,
        "Jul-Aug": 0.9174363428,
        "Jul-Sep": 0.0006969711634,
        "Aug-Sep": 0.0004847635452,
    }
    shown = {name for name, each in zip(raw, holm(list(raw.values())), strict=True) if each.shown}
    assert shown == {"May-Jul", "May-Aug", "Jun-Aug", "Jul-Sep", "Aug-Sep"}


@given(P_VALUES)
def test_against_a_reference_library(p_values: list[float]) -> None:
    # statsmodels.stats.multitest.multipletests, method "holm".
    rejected = multipletests(p_values, alpha=0.05, method="holm")[0]
    close = any(abs(p - 0.05 / k) < 1e-12 for p in p_values for k in range(1, len(p_values) + 1))
    assert close or [each.shown for each in holm(p_values)] == list(rejected)


@given(P_VALUES)
def test_an_interval_at_the_told_level_excludes_zero_where_shown(p_values: list[float]) -> None:
    for p, each in zip(p_values, holm(p_values), strict=True):
        # The interval at level a excludes zero exactly where p ≤ a.
        assert (p <= each.level) == each.shown
