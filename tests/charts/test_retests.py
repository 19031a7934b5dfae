"""Figures over editions: where marks, lines and numbers stand."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.charts.looks import look_of
from generator.charts.retests import APART, Point, RetestChart, Strip, retest_stills


def point(
    edition: int, value: float, *, pieces: int = 3, older: bool = False, corrected: bool = False
) -> Point:
    return Point(edition, value, 2.0, pieces, older, corrected)


def strip(*points: Point, told: int = 3) -> Strip:
    return Strip("a", "A", look_of(0), points, told)


def part(text: str) -> float:
    return float(text.rstrip("%")) / 100


DAYS = {1: 0, 2: 50, 3: 100}


def test_marks_stand_at_their_editions_and_figures() -> None:
    (still,) = retest_stills(RetestChart("K", DAYS, (strip(point(1, 40.0), point(2, 60.0)),)))
    assert [each.text for each in still.x_ticks] == ["1", "2", "3"]
    assert [part(each.at) for each in still.x_ticks] == [0.05, 0.5, 0.95]
    assert [each.x for each in still.marks] == [each.at for each in still.x_ticks[:2]]
    first, second = still.marks
    assert part(second.y) < part(first.y)
    # All of one scale: a ± of 2 on both sides is as long as a tenth of what parts 40 and 60.
    for mark in still.marks:
        assert part(mark.bottom) - part(mark.y) == pytest.approx(
            (part(first.y) - part(second.y)) / 10, abs=2e-4
        )
        assert part(mark.y) - part(mark.top) == pytest.approx(part(mark.bottom) - part(mark.y), abs=2e-4)


def test_a_line_leads_to_where_a_figure_still_stands() -> None:
    (still,) = retest_stills(RetestChart("K", DAYS, (strip(point(1, 40.0), point(2, 60.0), told=2),)))
    assert [(each.x1, each.x2) for each in still.levels] == [("5.00%", "50.00%"), ("50.00%", "50.00%")]
    assert all(each.y1 == each.y2 for each in still.levels)
    assert still.corrections == ()


def test_a_corrected_figure_is_hollow_and_leads_to_the_one_in_its_place() -> None:
    (still,) = retest_stills(RetestChart("K", DAYS, (strip(point(1, 40.0, corrected=True), point(3, 60.0)),)))
    assert [each.filled for each in still.marks] == [False, True]
    (step,) = still.corrections
    assert (step.x1, step.y1, step.x2, step.y2) == (
        still.marks[0].x, still.marks[0].y, still.marks[1].x, still.marks[1].y,
    )  # fmt: skip
    assert len(still.levels) == 1


@pytest.mark.parametrize(("told", "filled"), [({}, True), ({"pieces": 1}, False), ({"older": True}, False)])
def test_one_piece_and_an_older_stock_are_hollow(told: dict[str, int], filled: bool) -> None:
    (still,) = retest_stills(RetestChart("K", DAYS, (strip(point(1, 40.0, **told)),)))  # type: ignore[arg-type]
    assert still.marks[0].filled is filled


def test_both_systems_have_ticks_and_one_unit_has_one() -> None:
    for unit, both in (("K", True), ("N", True), ("A", False)):
        (still,) = retest_stills(RetestChart(unit, DAYS, (strip(point(1, 40.0), point(2, 60.0)),)))
        assert still.y_ticks
        assert bool(still.y_ticks_us) is both


@given(st.lists(st.integers(0, 2000), min_size=2, max_size=8))
def test_editions_keep_their_order_and_stand_apart(days: list[int]) -> None:
    by_number = dict(enumerate(sorted(days), 1))
    (still,) = retest_stills(RetestChart("K", by_number, (strip(point(1, 40.0), told=1),)))
    places = [part(each.at) for each in still.x_ticks]
    assert all(later - earlier >= APART - 2e-4 for earlier, later in pairwise(places))
    assert min(places) >= 0.05
    assert max(places) <= 0.95
