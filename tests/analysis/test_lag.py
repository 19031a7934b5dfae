"""A first-order lag on a record."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from generator.analysis.lag import lag_series, lag_weights, lagged, wandering
from generator.analysis.uncertainty import Ledger, combined, rectangle, scatter

MINUTE, HOUR = 60.0, 3600.0

records = st.lists(st.floats(15, 30), min_size=2, max_size=8)
taus = st.floats(30, 20_000)


def felt(times: list[float], values: list[float], tau: float, at: float) -> float:
    weights = lag_weights(times, tau, at)
    return math.fsum(weight * value for weight, value in zip(weights, values, strict=True))


def test_a_ramp_lags_by_ramp_times_tau() -> None:
    # 3 K an hour at τ = 20 min: 1 K less what the start still holds, 1 − e^(−3) of it at 60 min: 0.95 K.
    times, ramp, tau = [0.0, HOUR], [20.0, 23.0], 20 * MINUTE
    assert 23.0 - felt(times, ramp, tau, HOUR) == pytest.approx(1 - math.exp(-3), rel=1e-12)
    assert 23.0 - felt(times, ramp, tau, HOUR) == pytest.approx(0.95, abs=0.005)
    # After many time constants it is the whole kelvin.
    long = [0.0, 10 * HOUR]
    assert 50.0 - felt(long, [20.0, 50.0], tau, 10 * HOUR) == pytest.approx(1.0, rel=1e-9)


@given(values=records, tau=taus, part=st.floats(0, 1))
def test_against_an_integrator(values: list[float], tau: float, part: float) -> None:
    # Reference: scipy.integrate.solve_ivp of τ·y' = x − y, segment by segment.
    times = [300.0 * place for place in range(len(values))]
    at = part * times[-1]
    y = values[0]
    for place in range(len(values) - 1):
        end = min(at, times[place + 1])
        if end <= times[place]:
            break

        def rate(t: float, now: np.ndarray, place: int = place) -> np.ndarray:
            share = (t - times[place]) / 300
            return (values[place] * (1 - share) + values[place + 1] * share - now) / tau

        y = integrate.solve_ivp(rate, (times[place], end), [y], rtol=1e-9, atol=1e-9).y[0, -1]
    assert felt(times, values, tau, at) == pytest.approx(y, rel=1e-6)


@given(values=records, tau=st.one_of(taus, st.just(0.0), st.just(math.inf)), part=st.floats(0, 1))
def test_the_weights_are_a_mean(values: list[float], tau: float, part: float) -> None:
    times = [300.0 * place for place in range(len(values))]
    weights = lag_weights(times, tau, part * times[-1])
    assert math.fsum(weights) == pytest.approx(1.0, rel=1e-12)
    assert min(weights) >= -1e-15


@given(values=records, tau=st.one_of(taus, st.just(0.0), st.just(math.inf)))
def test_one_pass_and_weights_agree(values: list[float], tau: float) -> None:
    times = [300.0 * place for place in range(len(values))]
    at = sorted({0.0, 7.0, 299.0, 300.0, *times, times[-1] - 1})
    expected = [felt(times, values, tau, time) for time in at]
    assert lag_series(times, values, tau, at) == pytest.approx(expected, rel=1e-12)


def test_without_a_lag_it_is_the_record_and_with_an_endless_one_its_first_value() -> None:
    times, values = [0.0, 300.0, 900.0], [20.0, 21.0, 19.0]
    assert [felt(times, values, 0.0, at) for at in (0.0, 150.0, 300.0, 600.0)] == [20.0, 20.5, 21.0, 20.0]
    assert [felt(times, values, math.inf, at) for at in (0.0, 900.0)] == [20.0, 20.0]
    assert lag_weights([10.0], 60.0, 10.0) == (1.0,)
    assert lag_series([10.0], [20.0], 60.0, [10.0, 10.0]) == (20.0, 20.0)


def test_uncertain_numbers_are_lagged_by_the_same_weights() -> None:
    ledger = Ledger()
    common = ledger.input(rectangle(("offset",), "offset", 0.3, "K", "shared"))
    noises = [ledger.input(scatter((str(i),), "noise", 0.1, "K", "reading")) for i in range(3)]
    values = [level + common + noise for level, noise in zip((20.0, 20.6, 21.4), noises, strict=True)]
    times, tau = [0.0, 600.0, 1800.0], 700.0
    found = lagged(times, values, tau)
    for at, number in zip(times, found, strict=True):
        weights = lag_weights(times, tau, at)
        assert number.x == pytest.approx(felt(times, [20.0, 20.6, 21.4], tau, at))
        # The common error stays whole, the noises are averaged.
        u = math.hypot(0.3 / math.sqrt(3), 0.1 * math.hypot(*weights))
        assert combined(ledger.components(number)) == pytest.approx(u)
    (between,) = lagged(times, values, tau, [1000.0])
    assert between.x == pytest.approx(felt(times, [20.0, 20.6, 21.4], tau, 1000.0))


@pytest.mark.parametrize(
    ("times", "tau", "at", "words"),
    [
        ([], 60.0, 0.0, "not ascending"),
        ([0.0, 0.0], 60.0, 0.0, "not ascending"),
        ([0.0, 60.0], -1.0, 0.0, "below 0"),
        ([0.0, 60.0], math.nan, 0.0, "below 0"),
        # A record is never extended.
        ([0.0, 60.0], 60.0, 61.0, "outside"),
        ([30.0, 60.0], 60.0, 29.0, "outside"),
    ],
)
def test_what_cannot_be_lagged(times: list[float], tau: float, at: float, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        lag_weights(times, tau, at)
    with pytest.raises(ValueError, match=words):
        lag_series(times, [20.0] * len(times), tau, [at])


def test_what_does_not_fit_together() -> None:
    with pytest.raises(ValueError, match="2 times and 1 values"):
        lagged([0.0, 60.0], [Ledger().exact(20.0)], 60.0)
    with pytest.raises(ValueError, match="asked for"):
        lag_series([0.0, 60.0], [20.0, 21.0], 60.0, [60.0, 0.0])


def test_a_steady_drift_leaves_nothing_and_a_wandering_its_scatter() -> None:
    ledger = Ledger()
    times = [0.0, 300.0, 600.0, 900.0, 1200.0, 1500.0]
    assert wandering(ledger, ("drift",), times, [20.0 + time / 3600 for time in times]).u < 1e-9
    found = wandering(ledger, ("wander",), times, [20.0, 20.2, 20.0, 20.2, 20.0, 20.2])
    (part,) = ledger.components(found)
    # By hand: Σ(x − x̄)y = 0.30, Σ(x − x̄)² = 17.5, so Σr² = 0.06 − 0.30²/17.5 and s = √(0.05486/4).
    assert (found.x, part.input.scope, part.input.dof) == (0.0, "run", 4)
    assert found.u == pytest.approx(0.11711, abs=5e-6)


def test_a_few_readings_tell_no_wandering() -> None:
    found = wandering(Ledger(), ("few",), [0.0, 1.0, 2.0, 3.0], [20.0, 21.0, 20.0, 21.0])
    assert (found.x, found.u) == (0.0, 0.0)
