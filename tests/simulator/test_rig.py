"""A whole heating: readings near the truth, and off by what the meters do."""

import dataclasses

import numpy as np
import pytest

from tests.simulator.heat import Box, settled_rise, steady_rise
from tests.simulator.meters import Accuracy, Conduction, generator
from tests.simulator.rig import SCHEDULE, Place, Plan, Population, Rig, Wiring

HOLDER = Population(1.7e-3, 0.05)
RIG = Rig(5, Accuracy(0.005, 0.5, 0.1, 0.04), Accuracy(0.01, 0.2, 0.1, 0.02), Accuracy(0.005, 0.3, 0.1, 0.03))
EXACT = Rig(5, *(Accuracy(0.0, 0.0, 1e-6, 0.0),) * 3)
FREE = Conduction(0.0, 0.0)


def place(population: Population = HOLDER, conduction: Conduction = FREE) -> Place:
    return Place(population.drawn(generator(1, "piece"), 1), Wiring("CH3", "k3"), conduction)


def test_the_same_plan_gives_the_same_record_and_another_name_another() -> None:
    first, again, other = (RIG.heat(Plan(name), (place(),)) for name in ("a", "a", "b"))
    assert np.array_equal(first.bodies, again.bodies)
    assert np.array_equal(first.current, again.current)
    assert not np.array_equal(first.bodies, other.bodies)


def test_readings_with_errors_stay_within_all_stated_limits_of_the_truth() -> None:
    for seed in range(12):
        record = dataclasses.replace(RIG, seed=seed).heat(Plan("a", ramp=1.0), (place(),))
        rise = record.bodies[0, -1] - record.air[-1]
        # Two probes, two channels, and the current's share of the rise twice over, and the room's drift.
        limit = 2 * 1.5 + 2 * (0.5 + 0.005 * 55.0) + 2 * (0.5 + 0.35) / 30.0 * 30.0 + 0.5
        assert abs(rise - record.truths[0].rise) < limit


def test_exact_meters_show_what_only_room_current_and_time_disturb() -> None:
    record = EXACT.heat(Plan("a", ramp=0.0), (place(),))
    truth = record.truths[0]
    rise = record.bodies[0, -1] - record.air[-1]
    corrected = rise * (30.0 / truth.current) ** 2
    # The probes keep their own errors, which the zero check shows.
    zero = float(np.mean(record.zero[1] - record.zero[0]))
    assert corrected - zero == pytest.approx(truth.rise, abs=0.6)


def test_truth_is_the_piece_at_a_steady_current_in_still_air() -> None:
    one = place()
    truth = RIG.heat(Plan("a"), (one,)).truths[0]
    assert truth.settled is not None
    assert truth.rise == pytest.approx(float(steady_rise(one.fitting, Box(), 60)[0]), abs=0.1)
    assert truth.settled == pytest.approx(float(settled_rise(one.fitting, Box())[0]), abs=0.1)
    assert truth.rise < truth.settled


def test_zero_check_tells_the_offset_between_two_thermometers() -> None:
    record = RIG.heat(Plan("a"), (place(),))
    zero = record.zero[1] - record.zero[0]
    assert zero.shape == (5,)
    cold = float(record.bodies[0, 0] - record.air[0])
    assert float(np.mean(zero)) == pytest.approx(cold, abs=0.2)


def test_drop_is_current_times_warm_resistance_with_its_leads() -> None:
    one = place()
    record = EXACT.heat(Plan("a"), (one,))
    cold = 1e3 * 30.0 * (float(one.fitting.resistance[0]) * (1 + 0.003 * 1.5) + 0.47e-3)
    assert record.drops[0, 0] == pytest.approx(cold, rel=2e-3)
    assert record.drops[0, -1] / record.drops[0, 0] == pytest.approx(1.0 + 0.003 * 28.0, rel=0.03)
    bare = EXACT.heat(Plan("a"), (dataclasses.replace(one, lead=0.0),))
    lead = record.drops[0] - bare.drops[0]
    # 100 mm of 4 mm² copper: 17.24 nΩm (IEC 60028, from memory) gives 0.43 mΩ; the strands add a little.
    assert 1e-3 * lead[0] / 30.0 == pytest.approx(17.24e-9 * 0.1 / 4e-6, rel=0.12)
    assert lead[-1] > lead[0] * 1.04


def test_pieces_in_series_share_current_and_air() -> None:
    record = RIG.heat(Plan("a"), (place(), place(Population(3.1e-3, 0.03))))
    assert record.bodies.shape == record.drops.shape == (2, len(SCHEDULE))
    assert record.current.shape == record.air.shape == (len(SCHEDULE),)
    assert record.zero.shape == (3, 5)
    assert record.bodies[1, -1] > record.bodies[0, -1] + 15.0


def test_conduction_makes_a_probe_read_low_only() -> None:
    free, held = (RIG.heat(Plan("a"), (place(conduction=each),)) for each in (FREE, Conduction(1.5, 0.5)))
    lost = free.bodies[0] - held.bodies[0]
    assert lost[0] == pytest.approx(0.0, abs=1e-9)
    assert lost[-1] == pytest.approx(1.1, abs=0.15)


def test_a_heating_over_the_limit_ends_there() -> None:
    hot = place(Population(5.5e-3, 0.0, worsening=0.3))
    record = RIG.heat(Plan("a"), (hot,))
    assert record.stopped == record.minutes[-1]
    assert record.stopped in SCHEDULE
    assert record.bodies[0, -1] >= 110.0
    assert np.all(record.bodies[0, :-1] < 110.0)
    assert record.truths[0].settled is None
    assert len(record.minutes) == len(record.air) == record.drops.shape[1] < len(SCHEDULE)


def test_a_slip_spoils_one_current_reading_and_nothing_else() -> None:
    plain, slipped = (RIG.heat(Plan("a", slips=each), (place(),)) for each in ((), ((25, 0.93),)))
    changed = np.flatnonzero(plain.current != slipped.current)
    assert list(changed) == [SCHEDULE.index(25)]
    assert np.array_equal(plain.bodies, slipped.bodies)


def test_population_mean_is_the_mean_of_many_pieces() -> None:
    pieces = HOLDER.drawn(generator(2, "many"), 4000)
    rises = steady_rise(pieces, Box(), 60)
    assert HOLDER.mean_rise(60) == pytest.approx(float(np.mean(rises)), abs=4.0 * float(np.std(rises)) / 63.0)
