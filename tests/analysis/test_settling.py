"""Settled, still rising, or too few readings to say; and disturbed."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from generator.analysis.fit import NoFit, fit_heating
from generator.analysis.settling import Criterion, Settling, change_uncertainty, disturbed, settling

MINUTE = 60.0
SCHEDULE = [MINUTE * minute for minute in (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60)]
NOISE = 0.07
USUAL = Criterion()


def run(tau: float, settled: float = 40.0, slow: float = 0.0) -> list[float]:
    """A curve in K; `slow` is the share that takes three times as long."""
    return [
        settled * (1 - (1 - slow) * math.exp(-time / tau) - slow * math.exp(-time / (3 * tau)))
        for time in SCHEDULE
    ]


def judged(rises: list[float], *, noise: float = NOISE, criterion: Criterion = USUAL) -> Settling:
    return settling(SCHEDULE, rises, noise, criterion, fit_heating(SCHEDULE, rises, noise, free_start=True))


def test_the_default_criterion() -> None:
    # 2 K in 15 min and at most 1 K to come; no source.
    assert (USUAL.change, USUAL.window, USUAL.remaining) == (2.0, 900.0, 1.0)


def test_a_rule_of_kelvin_a_window_leaves_unlike_remainders() -> None:
    # At "1 K in the last 15 min" there is 1/(e^(15/τ) − 1) K to come:
    # 0.9 K at τ 20 min, 2.5 at 45, 5.5 at 90.
    for minutes, to_come in ((20, 0.9), (45, 2.5), (90, 5.5)):
        tau = minutes * MINUTE
        # The settled rise at which the difference over the last 15 of 60 min is 1 K.
        settled = 1 / (math.exp(-45 / minutes) - math.exp(-60 / minutes))
        rises = run(tau, settled)
        assert rises[-1] - rises[9] == pytest.approx(1.0)
        found = judged(rises, noise=0.001)
        assert found.remaining is not None
        assert found.remaining.value == pytest.approx(to_come, abs=0.05)
        # The change alone would call all three settled.
        assert found.change is not None
        assert found.change.high < 2.0
        assert found.verdict == ("settled" if to_come < 1 else "still-rising")


@pytest.mark.parametrize(("minutes", "to_come"), [(10, 1.2), (30, 5.1)])
def test_two_kelvin_in_ten_minutes_say_nothing_without_a_time_constant(
    minutes: float, to_come: float
) -> None:
    # X/(e^(Y/τ) − 1): 2 K in 10 min leave 1.2 K at τ = 10 min and 5.1 K at 30.
    tau = minutes * MINUTE
    settled = 2 / (math.exp(-50 / minutes) - math.exp(-60 / minutes))
    rises = run(tau, settled)
    assert rises[-1] - rises[10] == pytest.approx(2.0)
    found = judged(rises, noise=0.001, criterion=Criterion(change=2.0, window=600.0))
    assert found.remaining is not None
    assert found.remaining.value == pytest.approx(to_come, abs=0.05)
    assert found.verdict == "still-rising"


def test_a_kelvin_an_hour_of_a_quick_part() -> None:
    # Slope X per Y leaves X·τ/Y: a curve of 40 K and τ = 10 min meets 1 K/h at 54.806 min with 0.16667 K to
    # go.
    time = 10 * MINUTE * math.log(40 / (600 / 3600))
    assert time / MINUTE == pytest.approx(54.806, abs=5e-4)
    fit = fit_heating(SCHEDULE, run(600.0), 0.001, free_start=True)
    assert fit.remaining(time).value == pytest.approx(0.16667, abs=5e-5)


@pytest.mark.parametrize(
    ("lengths", "verdict"), [(6, "settled"), (5, "settled"), (3, "still-rising"), (1, "still-rising")]
)
def test_by_how_many_time_constants_it_ran(lengths: float, verdict: str) -> None:
    # 40 K: 0.27 K to come after 5 τ, 2 K after 3 τ.
    assert judged(run(3600 / lengths)).verdict == verdict


def test_a_slow_part_is_still_rising_at_three_time_constants() -> None:
    assert judged(run(1200, slow=0.1)).verdict != "settled"


def test_change_is_the_slope_over_the_window_with_its_noise() -> None:
    rises = [0.0] * 9 + [10.0, 10.3, 10.5, 11.0]
    found = settling(SCHEDULE, rises, 0.2, USUAL).change
    assert found is not None
    times = SCHEDULE[9:]
    # Reference: scipy.stats.linregress.
    assert found.value == pytest.approx(stats.linregress(times, rises[9:]).slope * 900)
    # Readings at 45, 50, 55 and 60 min: √Σ(t − t̄)² is √125 min, so u = 0.2·15/√125.
    assert found.standard_uncertainty == pytest.approx(0.2 * 15 / math.sqrt(125))
    assert found.high - found.value == pytest.approx(1.644854 * found.standard_uncertainty, rel=1e-6)
    assert found.value - found.low == pytest.approx(found.high - found.value)


def test_a_fall_is_a_change_too() -> None:
    rises = run(500)
    falling = rises[:9] + [rises[9] - 1.2 * step for step in range(4)]
    assert settling(SCHEDULE, falling, NOISE, USUAL).verdict == "still-rising"


@given(value=st.floats(0, 4), noise=st.floats(0.01, 2))
def test_the_limits_decide(value: float, noise: float) -> None:
    # A straight line of a known change over the window, no fit, and nothing that may be still to come.
    rises = [value * time / 900 for time in SCHEDULE]
    found = settling(SCHEDULE, rises, noise, Criterion(change=2.0, remaining=1e9))
    u = change_uncertainty(SCHEDULE, 3600, 900, noise).standard_uncertainty
    if value - 1.6449 * u > 2.0:
        assert found.verdict == "still-rising"
    elif value + 1.6448 * u <= 2.0:
        assert found.verdict == "settled"
    elif value + 1.6449 * u > 2.0 and value - 1.6448 * u <= 2.0:
        assert found.verdict == "too-few"


def test_without_a_fit_the_last_half_must_be_still() -> None:
    # A straight creep of 1.8 K over the last half and 0.9 K over the window: a line has no curve.
    rises = [10.0 + 1.8 * time / 1800 for time in SCHEDULE]
    with pytest.raises(NoFit):
        fit_heating(SCHEDULE, rises, NOISE)
    found = settling(SCHEDULE, rises, NOISE, USUAL)
    assert found.remaining is None
    assert found.last_half is not None
    assert found.last_half.value == pytest.approx(1.8)
    assert found.verdict == "too-few"
    still = settling(SCHEDULE, [10.0] * 13, NOISE, USUAL)
    assert still.verdict == "settled"
    assert still.last_half is not None
    assert still.last_half.value == pytest.approx(0)


def test_too_few_readings() -> None:
    for times in ([], [0.0], [0.0, 3600.0]):
        assert settling(times, [5.0] * len(times), NOISE, USUAL).verdict == "too-few"
    # A single reading in the window tells no change, but what is to come may still be told.
    times, rises = [*SCHEDULE[:5], 3600.0], [*run(1800)[:5], run(1800)[-1]]
    fit = fit_heating(times, rises, NOISE)
    found = settling(times, rises, NOISE, USUAL, fit)
    assert found.change is None
    assert found.verdict == "still-rising"


def test_a_reading_just_before_the_window_counts_within_the_time_tolerance() -> None:
    times = [*SCHEDULE[:-1], 3620.0]
    strict = settling(times, run(600), NOISE, USUAL).change
    kind = settling(times, run(600), NOISE, Criterion(within=30)).change
    assert strict is not None
    assert kind is not None
    # Four readings know the slope better than three.
    assert kind.standard_uncertainty < strict.standard_uncertainty


def test_what_a_schedule_can_see() -> None:
    found = change_uncertainty(SCHEDULE, 3600, 900, 0.1)
    assert found.readings == 4
    assert found.standard_uncertainty == pytest.approx(0.1 * 15 / math.sqrt(125))
    # Up to a mark at 45 min: readings at 30, 40 and 45.
    assert change_uncertainty(SCHEDULE, 2700, 900, 0.1).readings == 3
    alone = change_uncertainty(SCHEDULE, 3600, 200, 0.1)
    assert (alone.readings, alone.standard_uncertainty) == (1, math.inf)
    assert (
        change_uncertainty([*SCHEDULE[:9], 2690.0, *SCHEDULE[10:]], 3600, 900, 0.1, within=30).readings == 4
    )


def test_the_uncertainty_of_a_change_against_simulation() -> None:
    source = np.random.default_rng(2)
    drawn = [
        settling(
            SCHEDULE, [5.0 + 0.002 * t + float(e) for t, e in zip(SCHEDULE, noise, strict=True)], 0.1, USUAL
        )
        for noise in 0.1 * source.standard_normal((600, len(SCHEDULE)))
    ]
    values = [each.change.value for each in drawn if each.change is not None]
    u = change_uncertainty(SCHEDULE, 3600, 900, 0.1).standard_uncertainty
    assert float(np.std(values)) == pytest.approx(u, rel=0.1)
    assert float(np.mean(values)) == pytest.approx(1.8, abs=0.02)


def test_a_fall_that_the_next_reading_confirms() -> None:
    # Noise 0.1 K: a fall of more than 3·√2·0.1 = 0.42 K.
    assert disturbed([10, 20, 30, 29.5, 29.5, 30], 0.1) == 3
    assert disturbed([10, 20, 30, 29.6, 29.5, 30], 0.1) is None
    # The next reading is back: one odd reading, no disturbance.
    assert disturbed([10, 20, 30, 29.0, 30.2, 30.5], 0.1) is None
    # The last reading has none that could confirm it.
    assert disturbed([10, 20, 30, 29.0], 0.1) is None
    assert disturbed([], 0.1) is None


def test_noise_alone_is_seldom_a_disturbance() -> None:
    # A fall over three standard deviations of a difference, twice from one reading: less than 1 in 1000.
    source = np.random.default_rng(3)
    found = [
        disturbed([40.0 + float(e) for e in row], 0.1) for row in 0.1 * source.standard_normal((2000, 13))
    ]
    assert sum(each is not None for each in found) <= 20
