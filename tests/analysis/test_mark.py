"""A mark between two readings, the mark that runs share, and the time to a limit."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import lagrange

from generator.analysis.fit import fit_heating
from generator.analysis.heating import NoReadingAtMark
from generator.analysis.mark import TimeTo, between_readings, shared_mark, time_to
from generator.analysis.uncertainty import Ledger, Uncertain, combined, rectangle, scatter

MINUTE = 60.0
SCHEDULE = [MINUTE * minute for minute in (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 57, 63)]


def curve(time: float, tau: float = 720.0) -> float:
    return 0.3 + 41 * (1 - math.exp(-time / tau))


RISES = [curve(time) for time in SCHEDULE]
FIT = fit_heating(SCHEDULE, RISES, 0.06)


def alive(ledger: Ledger, rises: list[float], noise: float = 0.06) -> list[Uncertain | None]:
    """Rises with an offset that all share and a noise of each."""
    common = ledger.input(rectangle(("offset",), "offset", 0.5, "K", "shared"))
    return [
        rise + common + ledger.input(scatter((f"noise {place}",), "noise", noise, "K", "reading"))
        for place, rise in enumerate(rises)
    ]


@pytest.mark.parametrize("minute", [1, 3, 8, 12, 35, 54, 60])
def test_by_the_shape_of_the_fit(minute: float) -> None:
    ledger = Ledger()
    found = between_readings(
        ledger, SCHEDULE, alive(ledger, RISES), minute * MINUTE, key=("run", "rise"), fit=FIT
    )
    assert found.by == "fit"
    assert found.rise.x == pytest.approx(curve(minute * MINUTE), rel=1e-7)


@pytest.mark.parametrize("minute", [3, 8, 12, 35, 54, 60])
def test_by_a_straight_line_and_its_curvature(minute: float) -> None:
    ledger = Ledger()
    found = between_readings(ledger, SCHEDULE, alive(ledger, RISES), minute * MINUTE, key=("run", "rise"))
    parts = {part.input.label: part for part in ledger.components(found.rise)}
    assert found.by == "line"
    # The curve bends downwards: the line lies below it, and the correction reaches it within its own size.
    assert found.correction > 0
    assert parts["curvature between two readings"].half_width == pytest.approx(found.correction)
    assert abs(found.rise.x - curve(minute * MINUTE)) < 0.1 * found.correction + 0.01


def test_what_is_not_there_is_left_out() -> None:
    ledger = Ledger()
    risen = alive(ledger, RISES)
    risen[11] = None
    found = between_readings(ledger, SCHEDULE, risen, 60 * MINUTE, key=("run", "rise"), fit=FIT)
    assert found.rise.x == pytest.approx(curve(3600), rel=1e-7)


def test_the_curvature_by_parabolas() -> None:
    # Reference: scipy.interpolate.lagrange through the neighbours and one reading before, and one after.
    found = between_readings(Ledger(), SCHEDULE, alive(Ledger(), RISES), 35 * MINUTE, key=("r",))
    expected = [
        float(lagrange(np.array(SCHEDULE[a:b]) / MINUTE, RISES[a:b])(35.0)) for a, b in ((6, 9), (7, 10))
    ]
    assert found.rise.x == pytest.approx(sum(expected) / 2, rel=1e-9)


def test_errors_of_the_neighbours_go_through_by_their_weights() -> None:
    ledger = Ledger()
    # A rate that is known well, so that the shape adds little; 60 min lies half way between 57 and 63.
    found = between_readings(ledger, SCHEDULE, alive(ledger, RISES), 3600, key=("run",), fit=FIT)
    parts = {part.input.key: part.contribution for part in ledger.components(found.rise)}
    assert parts[("offset",)] == pytest.approx(0.5 / math.sqrt(3))
    assert parts[("noise 11",)] + parts[("noise 12",)] == pytest.approx(0.06)
    assert parts[("noise 12",)] == pytest.approx(0.06 * (1 - math.exp(-0.25)) / (1 - math.exp(-0.5)))


def test_what_the_time_constant_makes_of_the_shape() -> None:
    ledger = Ledger()
    found = between_readings(ledger, SCHEDULE, alive(ledger, RISES), 8 * MINUTE, key=("run",), fit=FIT)
    parts = {part.input.key: part.contribution for part in ledger.components(found.rise)}

    def at(rate: float) -> float:
        share = math.expm1(-rate * 180) / math.expm1(-rate * 300)
        return RISES[2] * (1 - share) + RISES[3] * share

    by_difference = (at(FIT.rate + 1e-8) - at(FIT.rate - 1e-8)) / 2e-8 * FIT.rate_u
    assert parts[("run", "shape")] == pytest.approx(abs(by_difference), rel=1e-4)


@pytest.mark.parametrize("mark", [-1.0, 3781.0, 7200.0])
def test_never_beyond_the_readings(mark: float) -> None:
    ledger = Ledger()
    for fit in (FIT, None):
        with pytest.raises(NoReadingAtMark) as told:
            between_readings(ledger, SCHEDULE, alive(ledger, RISES), mark, key=("r",), fit=fit)
        assert told.value.nearest == (0.0 if mark < 0 else 3780.0)


def test_two_readings_show_no_curvature() -> None:
    ledger = Ledger()
    risen = [ledger.exact(0.0), ledger.exact(30.0)]
    with pytest.raises(NoReadingAtMark):
        between_readings(ledger, [0.0, 3600.0], risen, 1800, key=("r",))
    with pytest.raises(NoReadingAtMark):
        between_readings(ledger, [], [], 1800, key=("r",), fit=FIT)


@given(tau=st.floats(200, 3000), mark=st.floats(301, 3600))
def test_the_line_is_as_good_as_it_says(tau: float, mark: float) -> None:
    # A few time constants apart parabolas over- or undershoot, and the component covers it.
    ledger = Ledger()
    rises = [curve(time, tau) for time in SCHEDULE]
    found = between_readings(ledger, SCHEDULE, [ledger.exact(rise) for rise in rises], mark, key=("r",))
    assert abs(found.rise.x - curve(mark, tau)) <= abs(found.correction) + 1e-9
    assert combined(ledger.components(found.rise)) == pytest.approx(abs(found.correction) / math.sqrt(3))


def test_the_time_to_a_limit_within_the_run() -> None:
    found = time_to([0, 600, 1200], [0.0, 20.0, 30.0], 25.0)
    assert found == TimeTo(900.0, "readings")
    # The first crossing counts.
    again = time_to([0, 600, 1200, 1800], [0.0, 30.0, 20.0, 30.0], 25.0)
    assert again == TimeTo(500.0, "readings")
    assert time_to([0, 600], [26.0, 30.0], 25.0) == TimeTo(0, "readings")
    assert time_to([0, 600], [0.0, 25.0], 25.0) == TimeTo(600, "readings")


def test_past_the_run_only_where_the_settled_rise_is_surely_above() -> None:
    above = FIT.settled - 1.5 * FIT.settled_half_width
    found = time_to(SCHEDULE, RISES, above, FIT)
    assert found is not None
    assert found.by == "fit"
    assert curve(found.time) == pytest.approx(above, rel=1e-6)
    assert found.time > SCHEDULE[-1]
    # Within its interval, or above it, nobody can say.
    assert time_to(SCHEDULE, RISES, FIT.settled - 0.5 * FIT.settled_half_width, FIT) is None
    assert time_to(SCHEDULE, RISES, FIT.settled + 1.0, FIT) is None
    assert time_to(SCHEDULE, RISES, above) is None
    assert time_to([], [], 5.0, FIT) is None


def test_a_noisy_last_reading_below_a_curve_that_is_there() -> None:
    low = [*RISES[:-1], RISES[-1] - 0.5]
    limit = (RISES[-2] + RISES[-1]) / 2
    assert time_to(SCHEDULE, low, limit, FIT) == TimeTo(SCHEDULE[-1], "fit")


def test_the_longest_mark_that_all_reach() -> None:
    marks = [MINUTE * minute for minute in (5, 10, 20, 30, 45, 60)]
    hour = 60 * MINUTE
    assert shared_mark(hour, [hour, hour + 20, 2 * hour], marks) == hour
    assert shared_mark(hour, [hour, 45 * MINUTE], marks) == 45 * MINUTE
    assert shared_mark(hour, [hour, 44.8 * MINUTE], marks) == 30 * MINUTE
    assert shared_mark(hour, [hour, 44.8 * MINUTE], marks, within=30) == 45 * MINUTE
    # Longer runs do not make a longer mark than the method's.
    assert shared_mark(30 * MINUTE, [hour, hour], marks) == 30 * MINUTE
    assert shared_mark(hour, [120.0], marks) is None
    assert shared_mark(hour, [], marks) is None
