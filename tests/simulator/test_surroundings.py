"""Supply, room and the moment of reading move, within their bounds."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.simulator import surroundings
from tests.simulator.heat import STEP, grid
from tests.simulator.meters import Error, generator

MINUTES = (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60)
TIMES = grid(61)
SEEDS = st.integers(0, 2**32 - 1)


@given(seed=SEEDS, offset=st.floats(-0.3, 0.3))
def test_supply_starts_where_the_meter_shows_the_set_value_and_creeps_slowly(
    seed: int, offset: float
) -> None:
    found = surroundings.supply(generator(seed, "s"), TIMES, 30.0, Error(offset, 0.0), MINUTES)
    assert found.current[0] + offset == pytest.approx(30.0)
    assert np.max(np.abs(found.current - found.current[0])) < 0.75
    trimmed = [int(minute * 60 / STEP) for minute in found.trims]
    steps = np.abs(np.diff(found.current)) / found.current[:-1]
    # Two per cent an hour, and the ripple's steepest part, over one step.
    creep = (0.02 / 3600.0 + 0.0008 * 2.0 * np.pi / (0.35 * 3600.0)) * STEP * 1.05
    assert np.all(np.delete(steps, trimmed) < creep)
    assert all(steps[at] > creep for at in trimmed)


def test_some_runs_need_a_trim_and_most_do_not() -> None:
    counts = [
        len(surroundings.supply(generator(seed, "s"), TIMES, 30.0, Error(0.0, 0.0), MINUTES).trims)
        for seed in range(200)
    ]
    assert 0.1 < np.mean(np.array(counts) > 0) < 0.6


@given(seed=SEEDS, ramp=st.floats(-1.5, 1.5))
def test_room_drifts_by_its_ramp_give_or_take_a_little(seed: int, ramp: float) -> None:
    air = surroundings.room(generator(seed, "r"), TIMES, 21.5, ramp)
    assert air[0] == pytest.approx(21.5)
    assert np.max(np.abs(air - 21.5 - ramp * TIMES / 3600.0)) <= 0.3 + 1e-9


def test_a_lagging_probe_trails_a_ramp_by_its_time_constant() -> None:
    # First-order lag of a ramp: behind by slope times time constant once the start has died out.
    ramp = 3.0 * TIMES / 3600.0
    behind = ramp[-1] - surroundings.lagged(ramp, 120.0)[-1]
    assert behind == pytest.approx(3.0 / 3600.0 * (120.0 - STEP / 2.0), rel=0.01)


@given(seed=SEEDS)
def test_readings_are_taken_within_seconds_of_their_minute(seed: int) -> None:
    at = surroundings.moments(generator(seed, "m"), MINUTES, TIMES)
    assert np.all(at >= 0.0)
    assert np.all(np.abs(at - np.array(MINUTES) * 60.0) <= 12.0)
    assert len(set(at - np.array(MINUTES) * 60.0)) > 5
