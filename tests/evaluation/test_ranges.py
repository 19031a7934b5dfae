"""Ranges of a meter, and what they state of their steadiness."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.evaluation.ranges import held_by, range_of, reaches_of, steadiness
from generator.records.bench import load
from generator.records.schema.instrument import Instrument
from tests.evaluation.small import Small

METER = """\
name: bench meter
ranges:
  - {quantity: voltage, from: 0 V, to: 60 mV, accuracy: "±(0.5 % + 2 digits)", resolution: 0.01 mV}
  - {quantity: voltage, from: 0 V, to: 600 mV, accuracy: "±(0.5 % + 2 digits)", repeatability: 0.2 mV}
  - {quantity: current, to: 10 A, accuracy: "±1 %"}
calibrated: never
"""


@pytest.fixture
def meter(tmp_path: Path) -> Instrument:
    Small(tmp_path).write("instruments/meter.yml", METER)
    return load(tmp_path).instruments["meter"]


def test_a_reading_stands_in_the_first_range_that_holds_it(meter: Instrument) -> None:
    assert [range_of(meter, "voltage", value)[0] for value in (0.0, 0.060, 0.0601, 0.7)] == [0, 0, 1, 1]
    assert range_of(meter, "current", -3.0)[0] == 2


def test_ends_are_read_once_for_a_column(meter: Instrument) -> None:
    reaches = reaches_of(meter, "voltage")
    assert [(low, high, number) for low, high, number, _ in reaches] == [(0.0, 0.06, 0), (0.0, 0.6, 1)]
    for value in (-1.0, 0.0, 0.060, 0.0601, 0.7):
        assert held_by(reaches, value) == range_of(meter, "voltage", value)


def test_of_two_figures_the_missing_one_is_a_last_digit(meter: Instrument) -> None:
    first = steadiness(meter.ranges[0], 1e-4)
    assert (first.resolution, first.repeatability, first.assumed) == (
        1e-5,
        1e-5,
        frozenset({"repeatability"}),
    )
    second = steadiness(meter.ranges[1], 1e-4)
    assert (second.resolution, second.repeatability, second.assumed) == (
        1e-4,
        2e-4,
        frozenset({"resolution"}),
    )
    assert second.noise == pytest.approx(math.hypot(1e-4 / math.sqrt(12), 2e-4))


def test_a_range_that_states_neither_has_no_noise(meter: Instrument) -> None:
    found = steadiness(meter.ranges[2], 0.1)
    assert (found.resolution, found.repeatability, found.noise) == (None, None, None)
