"""Rows in groups by outcome, and the brackets of those not told apart."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from generator.charts.groups import Bracket, brackets, code_of, groups
from generator.evaluation.statements import Place
from tests.pages.states import EVERY, TITLES, bar

ROWS = {row.item: row for row in EVERY}


def test_groups_stand_in_their_order_and_hold_each_row_once() -> None:
    found = groups(EVERY)
    assert [(group.code, [row.item for row in group.rows]) for group in found] == [
        ("within", ["cool", "near", "third"]),
        ("undecided", ["close"]),
        ("beyond", ["over", "amended", "blind"]),
        ("stopped", ["stops"]),
        ("not-finished", ["rig"]),
        ("single", ["single"]),
        ("older", ["past"]),
        ("none", ["absent"]),
    ]


def test_the_group_follows_the_pieces_and_not_the_mean() -> None:
    far_below = replace(ROWS["cool"], outcome="beyond")
    assert code_of(far_below) == "beyond"
    far_above = replace(ROWS["amended"], outcome="within")
    assert code_of(far_above) == "within"


def test_one_piece_is_over_or_too_close_but_never_within() -> None:
    single = ROWS["single"]
    assert code_of(single) == "single"
    assert code_of(replace(single, outcome="beyond")) == "beyond"
    assert code_of(replace(single, outcome="undecided")) == "undecided"
    assert code_of(replace(single, meter_only=False)) == "within"


def test_without_a_limit_all_figures_are_one_group() -> None:
    rows = [replace(row, outcome=None) for row in EVERY]
    assert [group.code for group in groups(rows)] == ["plain", "stopped", "not-finished", "older", "none"]


def test_what_went_beyond_the_meter_s_range_and_is_not_beyond_is_too_close_or_without_figure() -> None:
    assert code_of(replace(ROWS["blind"], outcome="undecided")) == "undecided"
    assert code_of(replace(ROWS["blind"], outcome=None)) == "none"
    assert code_of(replace(ROWS["absent"], why_not="no-ambient")) == "none"


def test_stopped_rows_stand_by_their_place_and_better_ones_first() -> None:
    late, soon = (
        replace(ROWS["stops"], item=item, place=Place(n, n, best=False)) for item, n in (("a", 8), ("b", 7))
    )
    assert [row.item for group in groups([late, soon]) for row in group.rows] == ["b", "a"]
    figures = [ROWS["cool"], ROWS["third"]]
    (group,) = groups(figures, better="higher")
    assert [row.item for row in group.rows] == ["third", "cool"]


def test_a_bracket_joins_neighbours_and_overlapping_ones_stand_side_by_side() -> None:
    (group, *_) = groups(EVERY)
    assert group.brackets == (Bracket(0, 1, 0), Bracket(1, 2, 1))
    assert not group.untold
    (pair,) = groups([ROWS["cool"], ROWS["near"]])
    assert pair.brackets == (Bracket(0, 1, 0),)
    assert pair.untold
    (alone,) = groups([ROWS["close"]])
    assert not alone.untold


@given(st.data(), st.integers(1, 8))
def test_no_bracket_joins_two_that_were_told_apart(data: st.DataObject, size: int) -> None:
    items = list(TITLES)[:size]
    untold = {pair for pair in combinations(items, 2) if data.draw(st.booleans())}
    untold |= {(second, first) for first, second in untold}
    rows = [
        bar(each, 20.0 + n, alike=tuple(o for o in items if (each, o) in untold))
        for n, each in enumerate(items)
    ]
    found = brackets(rows)
    for each in found:
        inside = items[each.first : each.last + 1]
        assert len(inside) > 1
        assert all(pair in untold for pair in combinations(inside, 2))
    for one, other in combinations(found, 2):
        assert one.column != other.column or one.last < other.first
