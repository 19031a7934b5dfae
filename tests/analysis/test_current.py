"""The current that has warmed an item."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate
from uncertainties import ufloat

from generator.analysis.current import moments, rms_current, rms_series
from generator.analysis.uncertainty import Ledger, Uncertain, combined, rectangle

LEDGER = Ledger()
"""For tests whose numbers carry no uncertainty."""

amperes = st.lists(st.floats(1, 60), min_size=2, max_size=8)
taus = st.one_of(st.just(math.inf), st.floats(60, 20_000))


def exact(values: list[float]) -> list[Uncertain]:
    return [LEDGER.exact(value) for value in values]


@given(level=st.floats(1, 60), tau=taus, end=st.floats(1, 4000))
def test_a_steady_current_is_its_own_root_mean_square(level: float, tau: float, end: float) -> None:
    assert rms_current([0, 300, 1200, 4000], [level] * 4, end, tau) == pytest.approx(level, rel=1e-12)


@given(currents=amperes, tau=taus, part=st.floats(0.01, 1))
def test_against_quadrature(currents: list[float], tau: float, part: float) -> None:
    times = [float(300 * place) for place in range(len(currents))]
    end = part * times[-1]

    def current(s: float) -> float:
        place = min(int(s // 300), len(currents) - 2)
        share = s / 300 - place
        return currents[place] * (1 - share) + currents[place + 1] * share

    def weight(s: float) -> float:
        return math.exp(-(end - s) / tau)

    knots = [time for time in times if 0 < time < end] or None
    above = integrate.quad(lambda s: current(s) ** 2 * weight(s), 0, end, points=knots, limit=200)[0]
    below = integrate.quad(weight, 0, end, points=knots, limit=200)[0]
    assert rms_current(times, currents, end, tau) == pytest.approx(math.sqrt(above / below), rel=1e-6)


@given(currents=amperes, tau=taus)
def test_plain_and_uncertain_and_in_one_pass(currents: list[float], tau: float) -> None:
    times = [float(300 * place) for place in range(len(currents))]
    at = sorted([0.0, 10.0, 299.0, 300.0, 301.0, times[-1], times[-1] + 30])
    plain = [rms_current(times, currents, time, tau) for time in at]
    assert rms_series(times, currents, at, tau) == pytest.approx(plain, rel=1e-12)
    alive = [rms_current(times, exact(currents), time, tau).x for time in at]
    assert alive == pytest.approx(plain, rel=1e-12)


def test_the_plain_root_mean_square_by_hand() -> None:
    # ∫I² over a straight line from 28 to 32 A is h·(28² + 28·32 + 32²)/3, over 32 A steady h·32².
    found = rms_current([0, 600, 1200], [28, 32, 32], 1200)
    assert found**2 == pytest.approx(((28**2 + 28 * 32 + 32**2) / 3 + 32**2) / 2)


def test_a_short_lag_sees_only_the_last_current() -> None:
    assert rms_current([0, 600, 601, 1200], [10, 10, 30, 30], 1200, tau=30) == pytest.approx(30, rel=1e-6)


@given(currents=amperes, tau=taus)
def test_both_forms_of_the_weights_meet(currents: list[float], tau: float) -> None:
    # One long segment, or the same line cut into short ones, whose decay falls on the other side of 0.1.
    whole = rms_current([0, 6000], currents[:2], 6000, tau)
    step = (currents[1] - currents[0]) / 200
    fine = [currents[0] + step * place for place in range(201)]
    cut = rms_current([30.0 * place for place in range(201)], fine, 6000, tau)
    assert cut == pytest.approx(whole, rel=1e-9)


@given(decay=st.floats(0, 50))
def test_moments_against_quadrature(decay: float) -> None:
    for k, found in enumerate(moments(decay)):
        expected = integrate.quad(lambda y, k=k: y**k * math.exp(-decay * y), 0, 1, epsabs=0, epsrel=1e-11)[0]
        assert found == pytest.approx(expected, rel=1e-10)


def test_the_record_ends_at_its_last_reading() -> None:
    assert rms_current([0, 600], [28, 32], 610) == rms_current([0, 600], [28, 32], 600)
    assert rms_current([0.0], exact([30.1]), 600).x == 30.1


@pytest.mark.parametrize(
    ("times", "until", "tau"),
    [([], 10, math.inf), ([60, 120], 30, math.inf), ([0, 0], 10, math.inf), ([0, 60], 60, 0)],
)
def test_a_record_that_means_nothing(times: list[float], until: float, tau: float) -> None:
    with pytest.raises(ValueError, match="current"):
        rms_current(times, [30.0] * len(times), until, tau)
    with pytest.raises(ValueError, match="current"):
        rms_series(times, [30.0] * len(times), [until], tau)


def test_times_asked_for_in_disorder() -> None:
    with pytest.raises(ValueError, match="asked for"):
        rms_series([0, 60, 120], [30.0] * 3, [60, 30])


def test_uncertainties_against_another_library() -> None:
    # Reference: `uncertainties`. An offset common to all readings, a step of each, a cut segment at the end.
    ledger = Ledger()
    offset = ledger.input(rectangle(("offset",), "offset", 0.3, "A", "shared"))
    steps = [ledger.input(rectangle((str(i),), "step", 0.05, "A", "reading")) for i in range(3)]
    currents = [level + offset + step for level, step in zip((30.4, 30.1, 29.8), steps, strict=True)]
    found = rms_current([0, 600, 1800], currents, 1500)

    third = 3**-0.5
    o = ufloat(0, 0.3 * third)
    a, b, c = (level + o + ufloat(0, 0.05 * third) for level in (30.4, 30.1, 29.8))
    d = b + (c - b) * 0.75
    theirs = (((a * a + a * b + b * b) * 600 + (b * b + b * d + d * d) * 900) / 3 / 1500) ** 0.5
    assert found.x == pytest.approx(theirs.n, rel=1e-12)
    assert combined(ledger.components(found)) == pytest.approx(theirs.s, rel=1e-9)


@given(tau=taus)
def test_a_common_error_of_the_current_goes_through_whole(tau: float) -> None:
    ledger = Ledger()
    gain = ledger.input(rectangle(("gain",), "gain", 0.01, "1", "shared"))
    currents = [level * (gain + 1.0) for level in (29.0, 30.0, 31.0)]
    found = rms_current([0, 600, 1800], currents, 1500, tau)
    (part,) = ledger.components(found)
    assert part.sensitivity == pytest.approx(found.x, rel=1e-12)
