"""How a heating run ended, from its readings alone."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.evaluation.ends import End
from generator.evaluation.findings import RunFinding
from tests.evaluation.small import METHOD, Small

TIMES = (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60)
LONG = (
    (METHOD % "")
    .replace("schedule: 0 30 60 min", f"schedule: {' '.join(map(str, TIMES))} min")
    .replace(", settled: {over: 60 min}", "")
)
METER = """\
name: bench meter
ranges:
  - {quantity: voltage, from: 0 V, to: 2 V, accuracy: ±0.1 %, resolution: 0.1 mV, repeatability: 0.1 mV}
calibrated: never
"""


@pytest.fixture
def small(tmp_path: Path) -> Small:
    small = Small(tmp_path)
    small.write("methods/heat/1.yml", LONG)
    small.write("instruments/meter.yml", METER)
    return small


def heated(settled: float, tau: float, fall: float = 0.0) -> Callable[[float], float]:
    """A rise in K over minutes that settles, and falls by `fall` after half an hour."""
    return lambda minute: settled * (1 - math.exp(-minute / tau)) - (fall if minute > 30 else 0.0)


def ended(
    small: Small, rise: Callable[[float], float], drop: Callable[[float], float] | None = None
) -> tuple[RunFinding, End]:
    """The run that reads a rise and a drop in mV, and its end."""
    head = "time min | temperature@body degC | ambient degC | current A" + (" | drop mV" if drop else "")
    rows = [head]
    for minute in TIMES:
        row = f"{minute} | {20 + rise(minute):.1f} | 20.0 | 30.0"
        rows.append(row + (f" | {drop(minute):.1f}" if drop else ""))
    small.run("tessvik", "A", "\n".join(rows))
    path = small.root / "reports/r/runs/run-001.yml"
    if drop:
        text = path.read_text(encoding="utf-8").replace("current: clamp}", "current: clamp, drop: meter}")
        path.write_text(text, encoding="utf-8")
    run = small.rise().items[0].pieces[0].runs[0]
    assert run.end is not None
    return run, run.end


def test_a_run_of_six_time_constants_is_settled(small: Small) -> None:
    run, end = ended(small, heated(50.0, 10.0))
    assert end.state == "settled"
    assert end.settled is not None
    assert end.settled.why_not is None
    assert end.settled.tau == pytest.approx(600, rel=0.02)
    assert end.settled.low < 50.0 < end.settled.high
    assert run.figure is not None
    # Upwards only: besides its own half-width the upper end has 6 % for a slow part that an hour cannot see.
    lower, upper = end.settled.value - end.settled.low, end.settled.high - end.settled.value
    assert upper - lower == pytest.approx(0.06 * end.settled.value)


def test_a_run_of_two_time_constants_is_still_rising(small: Small) -> None:
    _, end = ended(small, heated(60.0, 30.0))
    assert end.state == "still-rising"
    assert end.remaining is not None
    # e^(−2) of 60 K is still to come.
    assert end.remaining.low < 60.0 * math.exp(-2) < end.remaining.high
    assert end.settled is not None
    assert end.settled.why_not == "too-short"


def test_a_creeping_resistance_is_worsening_whatever_the_temperature(small: Small) -> None:
    rise = heated(50.0, 10.0)
    _, end = ended(small, rise, lambda minute: 60.0 * (1 + 0.10 * minute / 60) * (1 + 0.003 * rise(minute)))
    assert end.state == "worsening"
    assert end.slope is not None
    # From 20 to 60 min the logarithm of 1 + 0.1·t/h grows by ln(1.1/1.0333) in 2/3 h.
    true = math.log(1.1 / (1 + 0.1 / 3)) / (2 / 3)
    assert end.allowance == pytest.approx(0.025)
    assert end.allowance < end.slope.low < true < end.slope.high


def test_a_joint_that_drifts_by_three_kelvin_an_hour_is_worsening_and_not_slow(small: Small) -> None:
    # An exponential and 3 K an hour on 41 K: the heat of 30 A follows the resistance, 7.3 % an hour.
    def rise(minute: float) -> float:
        return 41.0 * (1 - math.exp(-minute / 12.0)) + 3.0 * minute / 60

    def drop(minute: float) -> float:
        return 90.0 * (1 + 3 / 41 * minute / 60) * (1 + 0.003 * rise(minute))

    _, end = ended(small, rise, drop)
    assert end.state == "worsening"
    assert end.slope is not None
    assert end.slope.low > end.allowance
    assert end.slope.value == pytest.approx(math.log1p(3 / 41), abs=0.01)


def test_a_slow_item_of_steady_resistance_is_still_rising_and_not_worsening(small: Small) -> None:
    rise = heated(60.0, 30.0)
    _, end = ended(small, rise, lambda minute: 60.0 * (1 + 0.003 * rise(minute)))
    assert end.state == "still-rising"


def test_a_steady_resistance_is_not(small: Small) -> None:
    # The item's own temperature settles, and so does its resistance at 20 °C.
    rise = heated(50.0, 10.0)
    _, end = ended(small, rise, lambda minute: 60.0 * (1 + 0.003 * rise(minute)))
    assert end.state == "settled"
    assert end.slope is not None
    assert end.slope.low < 0 < end.slope.high


def test_without_drops_a_drift_of_temperature_is_not_called_worsening(small: Small) -> None:
    _, end = ended(small, lambda minute: 40.0 * (1 - math.exp(-minute / 8.0)) + 12.0 * minute / 60)
    assert end.state == "still-rising"
    assert end.slope is None


def test_a_fall_that_the_next_reading_confirms_is_a_disturbance(small: Small) -> None:
    _, end = ended(small, heated(50.0, 10.0, fall=3.0))
    assert end.state == "disturbed"
