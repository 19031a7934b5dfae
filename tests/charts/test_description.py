"""The description of a heating chart: lines, looks, scales."""

from __future__ import annotations

import dataclasses

import pytest

from generator.charts.description import HeatingChart, Name, heating_chart
from generator.charts.looks import CONTROL, ITEMS, look_of
from generator.evaluation.findings import PieceFinding
from tests.pages.factory import HOLDERS, item, measure, run

NAMES = {key: Name(key.title(), key.title()) for key in ("cool", "single", "stops", "plain-cable")}


@pytest.fixture(scope="module")
def chart() -> HeatingChart:
    stops = {"r/stops-a": 34 * 60.0}
    return heating_chart("c", HOLDERS, NAMES, schedule=(0, 1800, 3600), within=30, stops=stops)


def test_pieces_stand_thin_behind_their_mean(chart: HeatingChart) -> None:
    kinds = [(line.item, line.kind, line.lead) for line in chart.lines]
    assert kinds == [
        ("cool", "piece", False),
        ("cool", "piece", False),
        ("plain-cable", "control", True),
        ("cool", "mean", True),
        ("single", "single", True),
        ("stops", "single", True),
    ]


def test_looks_go_by_the_place_in_the_report(chart: HeatingChart) -> None:
    looks = {line.item: line.look for line in chart.lines}
    assert looks == {"cool": ITEMS[0], "single": ITEMS[1], "stops": ITEMS[2], "plain-cable": CONTROL}
    assert look_of(6).role == "soft"
    assert len({(each.marker, each.dash) for each in ITEMS}) == len({each.role for each in ITEMS}) == 6


def test_a_stopped_run_says_when(chart: HeatingChart) -> None:
    assert [line.stopped for line in chart.lines if line.item == "stops"] == [34.0]
    assert [line.figure for line in chart.lines if line.item == "stops"] == [None]


def test_scales_hold_zero_every_band_and_the_mark(chart: HeatingChart) -> None:
    assert (chart.x.low, chart.x.high) == (0, 60)
    assert chart.y.low <= -2
    assert chart.y.high >= 82


def test_fahrenheit_ticks_are_round_and_without_offset(chart: HeatingChart) -> None:
    """50 K are a difference of 90 °F; zero stays zero."""
    assert [round(tick * 1.8, 9) for tick in chart.y_us.ticks] == [0, 50, 100, 150]
    assert (chart.y_us.low, chart.y_us.high) == (chart.y.low, chart.y.high)


def test_without_a_mean_every_piece_leads() -> None:
    two = item(
        "stops",
        0,
        run("r/a", "stops", "A", {0: 0.0, 60: 50.0}),
        run("r/b", "stops", "B", {0: 0.0, 10: 60.0}, why_not="stopped"),
    )
    chart = heating_chart("c", measure(two), NAMES, stops={"r/b": 720.0})
    assert [(line.piece, line.kind, line.lead, line.stopped) for line in chart.lines] == [
        ("A", "piece", True, None),
        ("B", "piece", True, 12.0),
    ]


def test_several_controls_are_told_apart() -> None:
    cable = HOLDERS.controls[0]
    chart = heating_chart("c", measure(controls=(cable, cable)), NAMES)
    assert [line.piece for line in chart.lines] == ["1", "2"]


def test_an_item_without_readings_has_no_line() -> None:
    empty = dataclasses.replace(item("cool", 0), pieces=(PieceFinding("A", "", (), None),))
    assert heating_chart("c", measure(empty), NAMES).lines == ()
