"""Heating runs read at several points, between readings, over range or not to the end."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path

import pytest

from generator.evaluation.findings import RunFinding
from tests.evaluation.small import METHOD, Small, table

TWO_POINTS = """\
time min | temperature@body degC | temperature@cap degC | ambient degC | current A
0        | 20.0                  | 20.0                 | 20.0         | 30.0
30       | 56.0                  | 50.0                 | 20.0         | 30.0
60       | 60.0                  | %s                   | 20.0         | 30.0
"""
POINTS = """\
points:
  body: {where: side, held-by: cement, reads-low-by-at-most: 0 K}
  cap: {where: cap, held-by: cement, reads-low-by-at-most: 2 K}
"""


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


def hottest(small: Small, cap: str) -> RunFinding:
    point = "points: {body: {where: side, held-by: cement, reads-low-by-at-most: 0 K}}\n"
    method = (METHOD % "").replace("point: body,", "point: hottest,").replace(point, POINTS)
    small.write("methods/heat/1.yml", method)
    small.run("tessvik", "A", TWO_POINTS % cap)
    run = small.root / "reports/r/runs/run-001.yml"
    text = run.read_text(encoding="utf-8")
    run.write_text(
        text.replace("ambient: logger", "temperature@cap: logger/CH3, ambient: logger", 1), encoding="utf-8"
    )
    return small.rise().items[0].pieces[0].runs[0]


def curve(minutes: Sequence[float], settled: float, tau: float, ambient: float = 20.0) -> str:
    rows = ["time min | temperature@body degC | ambient degC | current A"]
    rows += [
        f"{at:g} | {ambient + settled * -math.expm1(-at / tau):.1f} | {ambient:.1f} | 30.0" for at in minutes
    ]
    return "\n".join(rows)


def test_the_hottest_point_gives_the_figure_with_its_own_probe(small: Small) -> None:
    run = hottest(small, "64.0")
    assert run.worked is not None
    assert (run.worked.point, run.worked.probe) == ("cap", 1.0)
    assert run.worked.figure == pytest.approx(45.0)
    # Until then the other point is the hotter one.
    assert [reading.temperature for reading in run.readings] == [20.0, 56.0, 64.0]


def test_the_other_point_where_that_is_hotter(small: Small) -> None:
    run = hottest(small, "58.0")
    assert run.worked is not None
    assert (run.worked.point, run.worked.probe) == ("body", 0.0)
    assert run.worked.figure == pytest.approx(40.0)


def test_the_hottest_is_not_known_where_a_point_was_not_read(small: Small) -> None:
    run = hottest(small, "")
    assert run.figure is None
    assert run.readings[-1].temperature is None


def test_between_readings_the_curve_gives_the_shape(small: Small) -> None:
    """A mark that no reading is near: between 55 and 65 min, by the curve that the readings follow."""
    at = [0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 65]
    small.run("tessvik", "A", curve(at, 40.0, 12.0))
    run = small.rise().items[0].pieces[0].runs[0]
    assert run.worked is not None
    assert (run.worked.by, run.worked.time) == ("fit", 3600.0)
    assert run.worked.figure == pytest.approx(40.0 * -math.expm1(-60 / 12), abs=0.1)


def test_without_a_curve_a_straight_line_is_bent_as_its_neighbours_are(small: Small) -> None:
    """By hand: through (20, 36), (40, 39.6) and (70, 39.9), Newton's form, at 60.

    First differences 0.18 and 0.01 a minute, second (0.01 − 0.18)/50 = −0.0034; 39.6 + 0.01·20 is 39.8 on the
    line, −0.0034·(60 − 40)·(60 − 70) = 0.68 the bend of the parabola with the reading before.
    """
    rows = [(0, 20.0), (1, 55.0), (20, 56.0), (40, 59.6), (70, 59.9)]
    text = "time min | temperature@body degC | ambient degC | current A\n" + "\n".join(
        f"{at} | {hot:.1f} | 20.0 | 30.0" for at, hot in rows
    )
    small.run("tessvik", "A", text)
    run = small.rise().items[0].pieces[0].runs[0]
    assert run.worked is not None
    assert run.worked.by == "line"
    assert run.worked.figure == pytest.approx(39.8 + 0.68)
    assert run.budget is not None
    assert [row.label for row in run.budget.rows if "curvature" in row.label] == [
        "curvature between two readings"
    ]


def test_what_the_rig_stopped_is_not_finished_and_not_the_items_doing(small: Small) -> None:
    readings = "\n".join(table(40.0).splitlines()[:-1])
    small.run("tessvik", "A", readings, more="stopped: {at: 40 min, because: rig}\n")
    small.run("tessvik", "B", table(41.0))
    item = small.rise().items[0]
    assert item.pieces[0].runs[0].why_not == "not-finished"
    assert item.figure is not None
    assert item.n == 1
    assert item.figure.value == pytest.approx(41.0)


def test_the_way_to_a_figure_adds_up(small: Small) -> None:
    small.run("tessvik", "A", table(40.0, current="30.3"))
    run = small.rise().items[0].pieces[0].runs[0]
    way = run.worked
    assert way is not None
    assert way.temperature - way.air_felt == pytest.approx(way.rise)
    assert (way.rise + way.probe) * (way.set_current / way.current) ** way.exponent == pytest.approx(
        way.figure
    )
    assert run.figure is not None
    assert way.figure == run.figure.value
    assert (way.tau_from, way.by) == ("fit", "reading")


def test_a_drifting_room_is_told_as_a_slope_an_hour(small: Small) -> None:
    text = table(40.0).replace("| 20.0 | 30.0", "| 20.0 | 30.0", 1)
    rows = text.splitlines()
    for row, air in zip((1, 2, 3), ("20.0", "21.5", "23.0"), strict=True):
        cells = rows[row].split(" | ")
        rows[row] = " | ".join([*cells[:2], air, cells[3]])
    small.run("tessvik", "A", "\n".join(rows))
    assert small.rise().items[0].pieces[0].runs[0].ramp == pytest.approx(3.0)
