"""The figures side by side."""

from __future__ import annotations

from generator.charts.bars import bars
from tests.charts.test_description import NAMES
from tests.pages.factory import HOLDERS, item, measure, run


def test_rows_stand_by_their_figures_and_those_without_last() -> None:
    swapped = measure(*reversed(HOLDERS.items))
    assert [row.item for row in bars("b", swapped, NAMES).rows] == ["cool", "single", "stops"]


def test_the_scale_holds_zero_intervals_and_pieces() -> None:
    made = bars("b", HOLDERS, NAMES)
    assert made.scale.low == 0
    assert made.scale.part(32.0) < 1
    assert made.rows[0].pieces == (28.0, 30.0)


def test_one_piece_of_unknown_spread_has_the_meter_s_interval_only() -> None:
    made = bars("b", HOLDERS, NAMES)
    assert [row.meter_only for row in made.rows] == [False, True, False]
    assert [row.why_not for row in made.rows] == [None, None, "stopped"]


def test_a_control_without_a_figure_is_left_out() -> None:
    cold = item(
        "plain-cable", 0, run("r/c", "plain-cable", "", {0: 0.0}, why_not="no-reading-at-mark"), control=True
    )
    made = bars("b", measure(controls=(cold, *HOLDERS.controls)), NAMES)
    assert [(name.full, figure.value, when) for name, figure, when in made.controls] == [
        ("Plain-Cable", 14.2, "2026-03-08")
    ]


def test_a_stopped_item_s_row_ends_where_it_was_last_read() -> None:
    made = bars("b", HOLDERS, NAMES)
    assert [row.stopped for row in made.rows] == [None, None, 80.0]
    assert made.scale.high >= 80
