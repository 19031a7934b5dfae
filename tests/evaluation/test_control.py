"""Controls over the dates: which results stand on one chart, and which lie beyond the limits."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.control import ControlChart, control_charts
from generator.evaluation.report import evaluate
from generator.records.bench import load
from tests.evaluation.small import METHOD, Small, table

RISES = (15.0, 15.2, 14.9, 15.1, 15.0, 14.8, 15.1, 15.2)


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


def charts(small: Small) -> tuple[ControlChart, ...]:
    small.finish()
    bench = load(small.root)
    assert bench.faults == ()
    found = {key: evaluate(bench, report) for key, report in bench.reports.items()}
    return control_charts(bench, found, "heat")


def controls(small: Small, *rises: float) -> None:
    for day, rise in enumerate(rises, 1):
        small.run("control", "", table(rise), date=f"2026-03-{day:02}")
    small.run("tessvik", "A", table(40.0), date="2026-03-01")


def test_results_stand_in_order_of_date_and_one_that_jumps_lies_beyond(small: Small) -> None:
    controls(small, *RISES, 19.0, 15.0)
    (chart,) = charts(small)
    assert (chart.control, chart.measure) == ("cable", "rise")
    assert [each.date for each in chart.results] == [f"2026-03-{day:02}" for day in range(1, 11)]
    assert [each.figure.value for each in chart.results] == pytest.approx([*RISES, 19.0, 15.0])
    assert [each.date for each in chart.results if each.beyond] == ["2026-03-09"]


def test_few_results_have_no_limits(small: Small) -> None:
    controls(small, *RISES[:7])
    (chart,) = charts(small)
    assert chart.limits is None
    assert not any(each.beyond for each in chart.results)


def test_results_by_a_version_that_does_not_agree_stand_apart(small: Small) -> None:
    controls(small, *RISES)
    small.write("methods/heat/2.yml", METHOD % "" + "changes: another box\n")
    small.run("control", "", table(15.0), date="2026-03-20", version=2)
    small.run("veldrun", "A", table(40.0), date="2026-03-20", version=2)
    (chart,) = charts(small)
    assert [each.date for each in chart.results] == ["2026-03-20"]


def test_a_method_without_controls_has_no_chart(small: Small) -> None:
    small.run("tessvik", "A", table(40.0))
    assert charts(small) == ()
