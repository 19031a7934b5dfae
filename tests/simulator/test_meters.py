"""Meters stay inside what is stated for them and keep what they ought to keep."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.simulator.meters import Accuracy, Conduction, Meter, generator, probe

CLAMP = Accuracy(0.01, 0.2, 0.1, 0.02)


@given(seed=st.integers(0, 2**32 - 1), value=st.floats(-200.0, 200.0))
def test_error_in_a_run_stays_inside_the_stated_accuracy(seed: int, value: float) -> None:
    meter = Meter.drawn(CLAMP, seed, "clamp")
    error = meter.in_run(generator(seed, "run"))
    assert abs(float(error.at(np.array(value)))) <= CLAMP.half_width(value) + 1e-12


def test_a_meter_keeps_most_of_its_error_from_run_to_run_until_it_is_calibrated() -> None:
    apart, again = [], []
    for seed in range(400):
        meter = Meter.drawn(CLAMP, seed, "clamp", "first")
        first, second = (float(meter.in_run(generator(seed, run)).at(np.array(30.0))) for run in "ab")
        other = Meter.drawn(CLAMP, seed, "clamp", "second").in_run(generator(seed, "b"))
        again.append(first - second)
        apart.append(first - float(other.at(np.array(30.0))))
    assert 0.0 < np.std(again) < np.std(apart) / 2.0


@given(name=st.text("k12345678", min_size=1), temperature=st.floats(0.0, 120.0))
def test_a_probe_keeps_to_its_class(name: str, temperature: float) -> None:
    # IEC 60584-1 class 1, type K, -40 to 375 °C: 1.5 K (from memory).
    assert abs(float(probe(7, name).at(np.array(temperature)))) <= 1.5 + 1e-12


@given(seed=st.integers(0, 2**32 - 1), values=st.lists(st.floats(0.0, 110.0), min_size=1, max_size=20))
def test_readings_are_whole_numbers_of_the_last_digit(seed: int, values: list[float]) -> None:
    meter = Meter.drawn(CLAMP, seed, "clamp")
    draw = generator(seed, "run")
    digits = meter.reads(np.array(values), meter.in_run(draw), draw) / CLAMP.resolution
    assert digits == pytest.approx(np.round(digits), abs=1e-9)


def test_each_name_has_its_own_numbers_whatever_was_drawn_before() -> None:
    first = generator(3, "run", "a").uniform()
    generator(3, "run", "b").uniform()
    assert generator(3, "run", "a").uniform() == first
    assert generator(3, "run", "b").uniform() != first
    assert generator(4, "run", "a").uniform() != first


def test_a_probe_reads_low_by_no_more_than_the_method_allows_and_never_high() -> None:
    rises = np.array([-1.0, 0.0, 25.0, 50.0, 500.0])
    assert list(Conduction(0.4, 0.2).low(rises)) == pytest.approx([0.0, 0.0, 0.3, 0.6, 1.5])
