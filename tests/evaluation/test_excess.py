"""What items are hotter than the controls of their day."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.analysis.interval import Estimate
from generator.evaluation.findings import MeasureFinding
from tests.evaluation.small import Small, table


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


def of(finding: MeasureFinding) -> Estimate:
    found = finding.items[0].excess
    assert found is not None
    return found


def test_errors_that_item_and_control_share_cancel(small: Small) -> None:
    """Same channels, so that only what is new in each run and the slope of the meters stay."""
    small.run("control", "", table(15.0))
    small.run("tessvik", "A", table(40.0))
    finding = small.rise()
    figure = finding.items[0].figure
    assert figure is not None
    assert of(finding).value == pytest.approx(25.0)
    assert of(finding).standard_uncertainty < figure.standard_uncertainty


def test_first_and_last_control_are_averaged(small: Small) -> None:
    small.run("control", "", table(15.0))
    small.run("tessvik", "A", table(40.0))
    small.run("control", "", table(15.2))
    assert of(small.rise()).value == pytest.approx(40.0 - 15.1)


def test_controls_that_do_not_agree_cost_half_their_difference(small: Small, tmp_path: Path) -> None:
    small.run("control", "", table(15.0))
    small.run("tessvik", "A", table(40.0))
    small.run("control", "", table(25.0))
    apart, rig = of(small.rise()), small.rise().items[0].rig
    other = Small(tmp_path / "agreeing")
    other.run("control", "", table(20.0))
    other.run("tessvik", "A", table(40.0))
    other.run("control", "", table(20.0))
    agreeing = of(other.rise())
    assert apart.value == pytest.approx(agreeing.value) == 20.0
    # A half-width of 5 K, rectangular.
    assert rig == pytest.approx(5.0)
    assert other.rise().items[0].rig is None
    more = apart.standard_uncertainty**2 - agreeing.standard_uncertainty**2
    assert math.sqrt(more) == pytest.approx(5.0 / math.sqrt(3), rel=0.02)


def test_a_control_of_another_day_is_no_control(small: Small) -> None:
    small.run("control", "", table(15.0), date="2026-03-02")
    small.run("tessvik", "A", table(40.0), date="2026-03-01")
    assert small.rise().items[0].excess is None
