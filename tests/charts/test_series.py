"""Curves from readings: what is missing leaves a gap, what is struck is in no line."""

from __future__ import annotations

import dataclasses

from generator.charts.series import Place, Struck, counted, curve_of, mean_curve, struck_of
from generator.evaluation.findings import PieceFinding
from tests.pages.factory import HOLDERS, item, run

RUN = run("r/a", "a", "A", {0: 0.0, 10: 9.0, 20: None, 30: 27.0, 60: 30.0})


def test_a_missing_reading_is_a_gap() -> None:
    assert [place and place.minutes for place in curve_of(RUN)] == [0, 10, None, 30, 60]


def test_a_struck_reading_is_a_gap_and_a_mark_of_its_own() -> None:
    readings = (
        *RUN.readings[:1],
        dataclasses.replace(RUN.readings[1], excluded="lid open"),
        *RUN.readings[2:],
    )
    struck = dataclasses.replace(RUN, readings=readings)
    assert curve_of(struck)[1] is None
    assert struck_of(struck) == (Struck(10.0, 9.0),)
    assert struck_of(RUN) == ()


def test_a_bound_is_no_point_of_a_curve() -> None:
    bound = dataclasses.replace(RUN.readings[-1], bound=">")
    assert curve_of(dataclasses.replace(RUN, readings=(*RUN.readings[:-1], bound)))[-1] == Place(
        30, 27.0, 2.0
    )


def test_a_mean_breaks_where_one_piece_was_not_read() -> None:
    cool = HOLDERS.items[0]
    assert mean_curve(cool, (0, 1800, 3600), 30) == (Place(0, 0.0, 1.0), None, Place(60, 29.0, 1.0))
    assert len(mean_curve(cool, (), 30)) == 2


def test_a_reading_near_its_scheduled_time_leaves_no_gap() -> None:
    late = item("a", 0, run("r/a", "a", "A", {0: 0.0, 30.4: 20.0, 60: 30.0}))
    assert None not in mean_curve(late, (0, 1800, 3600), 30)
    assert None in mean_curve(late, (0, 1800, 3600), 20)


def test_the_run_that_counts_is_the_one_with_the_figure() -> None:
    early = run("r/1", "a", "A", {0: 0.0, 10: 9.0}, why_not="no-reading-at-mark")
    piece = PieceFinding("A", "", (early, RUN), RUN.figure)
    older = PieceFinding("B", "first", (RUN,), RUN.figure)
    two = dataclasses.replace(item("a", 0, RUN), pieces=(piece, older))
    assert counted(two) == ((piece, RUN),)
