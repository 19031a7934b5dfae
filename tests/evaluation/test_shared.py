"""Runs of differing length: the mark that they share, and items that are still warming at it."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from tests.evaluation.small import METHOD, Small

MINUTES = [0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60]
SCHEDULE = "schedule: 0 2 5 10 15 20 25 30 40 45 50 55 60 min"


def curve(settled: float, tau: float, until: float = 60, ambient: float = 20.0) -> str:
    rows = ["time min | temperature@body degC | ambient degC | current A"]
    rows += [
        f"{at} | {ambient + settled * -math.expm1(-at / tau):.1f} | {ambient:.1f} | 30.0"
        for at in MINUTES
        if at <= until
    ]
    return "\n".join(rows)


@pytest.fixture
def small(tmp_path: Path) -> Small:
    small = Small(tmp_path)
    long = (METHOD % "").replace("schedule: 0 30 60 min", SCHEDULE)
    short = long.replace(" 50 55 60 min", " min").replace("at: 60 min", "at: 45 min")
    small.write("methods/heat/1.yml", short)
    small.write("methods/heat/2.yml", long + "changes: A later mark.\ncomparable-with: [1]\n")
    return small


def two_each(small: Small, *, slow: float, until: float) -> None:
    for letter in "AB":
        small.run("tessvik", letter, curve(30.0, 8.0), version=2)
        small.run("veldrun", letter, curve(50.0, slow, until), version=2 if until == 60 else 1)
        small.run("okvarn", letter, curve(45.0, 8.0), version=2)


def test_runs_of_one_length_stay_at_the_methods_mark(small: Small) -> None:
    two_each(small, slow=30.0, until=60)
    finding = small.rise()
    assert (finding.at, finding.own_mark) == (3600, 3600)
    # Three time constants are not asked for where every run went to the method's own mark.
    assert not any(item.warming for item in finding.items)


def test_a_shorter_run_brings_all_to_its_last_mark(small: Small) -> None:
    two_each(small, slow=8.0, until=45)
    finding = small.rise()
    assert (finding.at, finding.own_mark) == (45 * 60, 3600)
    first = finding.items[0].figure
    assert first is not None
    assert first.value == pytest.approx(30.0 * -math.expm1(-45 / 8), abs=0.1)
    assert [item.place is not None for item in finding.items] == [True, True, True]


def test_what_is_warming_at_the_shared_mark_has_no_place_and_the_others_keep_theirs(small: Small) -> None:
    two_each(small, slow=16.0, until=45)
    finding = small.rise()
    assert [item.warming for item in finding.items] == [False, True, False]
    assert [
        None if item.place is None else (item.place.first, item.place.last) for item in finding.items
    ] == [
        (1, 1),
        None,
        (2, 2),
    ]
    assert {(pair.first, pair.second) for pair in finding.pairs} == {("tessvik", "okvarn")}
    assert finding.items[1].figure is not None


def test_a_stopped_run_does_not_set_the_mark(small: Small) -> None:
    two_each(small, slow=8.0, until=60)
    stopped = "stopped: {at: 21 min, because: smoke}\n"
    small.run("grenlo", "A", curve(60.0, 8.0, 20), more=stopped, version=2)
    finding = small.rise()
    assert finding.at == 3600
    assert finding.items[3].place is not None
    assert finding.items[3].place.first == finding.items[3].place.last == 4


def test_limits_stay_at_the_mark_of_each_ones_method(small: Small) -> None:
    for letter in "AB":
        small.run("tessvik", letter, curve(30.0, 16.0), version=2)
        small.run("veldrun", letter, curve(50.0, 8.0, 45))
        small.run("okvarn", letter, curve(45.0, 8.0), version=2)
    small.finish()
    limit = (
        "limits:\n  - {kind: rise, value: 100 K, point: body, standing: reviewer's own, source: the cable}\n"
    )
    report = small.root / "reports/r/report.yml"
    report.write_text(report.read_text(encoding="utf-8") + limit, encoding="utf-8")
    items = small.evaluated().measure("rise").items
    said = [[piece.value for piece in item.limits[0].pieces] for item in items]
    assert said == [[pytest.approx(figure, abs=0.1)] * 2 for figure in AT_OWN_MARK]


def test_a_run_stopped_behind_the_shared_mark_stays_stopped(small: Small) -> None:
    """At 50 of 60 min: at 45 it was still going, and yet it is no completed one, nor within a limit."""
    two_each(small, slow=8.0, until=45)
    stopped = "stopped: {at: 51 min, because: smoke}\n"
    small.run("grenlo", "A", curve(30.0, 8.0), version=2)
    small.run("grenlo", "B", curve(31.0, 8.0, 50), more=stopped, version=2)
    small.finish()
    limit = (
        "limits:\n  - {kind: rise, value: 100 K, point: body, standing: reviewer's own, source: the cable}\n"
    )
    report = small.root / "reports/r/report.yml"
    report.write_text(report.read_text(encoding="utf-8") + limit, encoding="utf-8")
    finding = small.evaluated().measure("rise")
    assert finding.at == 45 * 60
    item = finding.items[3]
    assert (item.figure, item.why_not) == (None, "stopped")
    assert item.place is not None
    assert item.place.first == 4
    assert [piece.outcome for piece in item.limits[0].pieces] == ["within", "stopped"]
    assert item.limits[0].outcome == "stopped"


def test_a_report_without_a_run_that_is_compared_has_no_mark_to_share(small: Small) -> None:
    small.run("control", "", curve(10.0, 8.0), version=2)
    asked = small.root / "reports/methods/heat/2.yml"
    text = asked.read_text(encoding="utf-8")
    asked.write_text(text.replace("within: 2 %}}", "within: 2 %}, enclosure: closed box}"), encoding="utf-8")
    small.run("tessvik", "A", curve(30.0, 8.0), more="conditions: {enclosure: open air}\n", version=2)
    finding = small.rise()
    assert finding.items[0].why_not == "other-conditions"
    assert finding.at == 3600


AT_OWN_MARK = (30.0 * -math.expm1(-60 / 16), 50.0 * -math.expm1(-45 / 8), 45.0 * -math.expm1(-60 / 8))
