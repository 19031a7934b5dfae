"""Conditions out of tolerance, each in turn, and what runs don't share."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.findings import MeasureFinding
from tests.evaluation.small import METHOD, Small, table

ASKED = (
    "{current: {value: 30 A, within: 2 %}, conductor: 4 mm2 class 5, enclosure: closed box 2 l, "
    "ambient: 18 to 28 degC, cable: {value: 500 mm, within: 10 mm}, humidity: 30 to 60 %}"
)
KEPT = "conductor: 4 mm² class  5, enclosure: Closed box 2 l, cable: 0.51 m, humidity: 45 %"


@pytest.fixture
def small(tmp_path: Path) -> Small:
    small = Small(tmp_path)
    small.write("methods/heat/1.yml", (METHOD % "").replace("{current: {value: 30 A, within: 2 %}}", ASKED))
    return small


def measured(small: Small, said: str, ambient: float = 20.0) -> MeasureFinding:
    small.run("tessvik", "A", table(40.0))
    small.run("tessvik", "B", table(41.0))
    small.run("veldrun", "A", table(50.0, ambient), more=f"conditions: {{{said}}}\n")
    small.run("veldrun", "B", table(51.0))
    return small.rise()


def test_inside_their_tolerances_conditions_change_nothing(small: Small) -> None:
    finding = measured(small, KEPT)
    assert [item.n for item in finding.items] == [2, 2]
    assert all(not run.departures for item in finding.items for piece in item.pieces for run in piece.runs)


@pytest.mark.parametrize(
    ("said", "condition", "asked", "found"),
    [
        ("conductor: 6 mm2 class 5", "conductor", "4 mm2 class 5", "6 mm2 class 5"),
        ("enclosure: open air", "enclosure", "closed box 2 l", "open air"),
        ("cable: 520 mm", "cable", "500 mm ± 10 mm", "520 mm"),
        ("humidity: 61 %", "humidity", "30 to 60 %", "61 %"),
    ],
)
def test_one_out_of_tolerance_is_shown_and_not_compared(
    small: Small, said: str, condition: str, asked: str, found: str
) -> None:
    run = measured(small, said).items[1].pieces[0].runs[0]
    assert (run.figure, run.why_not) == (None, "other-conditions")
    assert [(each.condition, each.asked, each.found) for each in run.departures] == [
        (condition, asked, found)
    ]
    assert all(reading.rise is not None for reading in run.readings)


def test_the_air_is_held_against_its_range_by_its_readings(small: Small) -> None:
    finding = measured(small, "", ambient=28.1)
    run = finding.items[1].pieces[0].runs[0]
    assert run.why_not == "other-conditions"
    assert [each.air for each in run.departures] == [(28.1, 28.1)]
    assert finding.items[1].n == 1


def test_the_current_is_held_reading_by_reading(small: Small) -> None:
    small.run("tessvik", "A", table(40.0, current="30.7"))
    assert small.rise().items[0].why_not == "current-outside-tolerance"


def test_what_is_open_and_differs_is_told_beside_the_comparison(small: Small) -> None:
    small.run("tessvik", "A", table(40.0), more="conditions: {air-measured: beside the box}\n")
    small.run("veldrun", "A", table(50.0), more="conditions: {air-measured: in the next room}\n")
    small.run("okvarn", "A", table(50.0), more="termination: {strip: 10 mm, tool: ratchet crimper}\n")
    small.run("grenlo", "A", table(50.0), more="termination: {strip: 10 mm, tool: pliers}\n")
    unlike = {each.what: [value for value, _ in each.values] for each in small.rise().unlike}
    assert unlike == {
        "air-measured": ["beside the box", "in the next room"],
        "tool": ["ratchet crimper", "pliers"],
    }
