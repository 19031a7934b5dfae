"""The fitted curve against NIST's certified values and R's printed fits, and what may be printed of it."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import curve_fit

from generator.analysis import heating
from generator.analysis.fit import HeatingFit, NoFit, fit_heating, fit_rise, why_not_printed, widened

PUBLISHED = Path(__file__).parents[1] / "published"
SCHEDULE = [60.0 * minute for minute in (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60)]


def published(name: str) -> tuple[list[float], list[float]]:
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8") as file:
        rows = list(csv.reader(file))[1:]
    return [float(x) for x, _ in rows], [float(y) for _, y in rows]


def certified(name: str) -> dict[str, float]:
    with (PUBLISHED / "nist-strd-certified.csv").open(encoding="utf-8") as file:
        return {
            row["statistic"]: float(row["value"]) for row in csv.DictReader(file) if row["dataset"] == name
        }


def run(
    tau: float = 720.0, settled: float = 41.3, start: float = 0.3, noise: float = 0.0, seed: int = 1
) -> list[float]:
    drawn = noise * np.random.default_rng(seed).standard_normal(len(SCHEDULE))
    return [
        settled - (settled - start) * math.exp(-time / tau) + float(error)
        for time, error in zip(SCHEDULE, drawn, strict=True)
    ]


@pytest.mark.parametrize("name", ["misra1a", "boxbod"])
@pytest.mark.parametrize("begin", [None, "start1", "start2"])
def test_certified_parameters_and_standard_deviations(name: str, begin: str | None) -> None:
    # NIST StRD, Misra1a and BoxBOD: at least 8 of the 11 certified digits, from both starts and from none.
    told = certified(name)
    start = None if begin is None else (told[f"{begin}_b1"], told[f"{begin}_b2"])
    found = fit_rise(*published(f"nist-strd-{name}"), start)
    pairs = {
        "b1": found.settled_rise,
        "b1_sd": found.settled_rise_u,
        "b2": found.rate,
        "b2_sd": found.rate_u,
        "rss": found.residual_sum_of_squares,
    }
    for statistic, value in pairs.items():
        assert value == pytest.approx(told[statistic], rel=1e-8), statistic
    assert found.dof == told["df"]
    assert math.sqrt(found.residual_sum_of_squares / found.dof) == pytest.approx(told["rsd"], rel=1e-8)


@pytest.mark.parametrize(("name", "correlation"), [("misra1a", -0.998776191964), ("boxbod", -0.729845562051)])
def test_correlation_of_the_two_parameters(name: str, correlation: float) -> None:
    # Not certified; worked in 40 digits with mpmath from the certified model.
    assert fit_rise(*published(f"nist-strd-{name}")).correlation == pytest.approx(correlation, rel=1e-9)


def test_a_start_far_off_finds_the_same() -> None:
    # From (1, 1) library defaults stop on BoxBOD at (172.5, 110.9), the mean of the values as a step.
    times, rises = published("nist-strd-boxbod")
    assert fit_rise(times, rises, (172.5, 110.9)).settled_rise == pytest.approx(213.80940889, rel=1e-9)


def test_oxygen_demand_as_r_fits_it() -> None:
    # R datasets::BOD, printed: A 19.1426 (2.4959), lrc −0.6328 (0.3824), s 2.549 on 4.
    found = fit_rise(*published("r-bod"))
    assert found.settled_rise == pytest.approx(19.1426, abs=5e-5)
    assert found.settled_rise_u == pytest.approx(2.4959, abs=5e-5)
    assert math.log(found.rate) == pytest.approx(-0.6328, abs=5e-5)
    assert found.rate_u / found.rate == pytest.approx(0.3824, abs=5e-5)
    assert math.sqrt(found.residual_sum_of_squares / found.dof) == pytest.approx(2.549, abs=5e-4)


def test_a_free_start_as_r_fits_it() -> None:
    # R datasets::CO2, plant Qn1, printed: Asym 38.1398 (0.9164), lrc −4.3806 (0.2042), c0 51.2232 (11.6698),
    # s 1.663 on 4; c0 is where the curve is zero.
    found = fit_heating(*published("r-co2-qn1"), free_start=True)
    assert found.settled == pytest.approx(38.1398, abs=5e-5)
    assert found.settled_u == pytest.approx(0.9164, abs=5e-5)
    assert math.log(found.rate) == pytest.approx(-4.3806, abs=5e-5)
    assert found.rate_u / found.rate == pytest.approx(0.2042, abs=5e-5)
    # R ends its search at a relative offset of 1e-5, which shows in the last digit of c0.
    assert math.log(1 - found.start / found.settled) / found.rate == pytest.approx(51.2232, abs=1e-4)
    assert math.sqrt(found.variance) == pytest.approx(1.663, abs=5e-4)
    # The standard error of c0 by its gradient in start, settled and rate.
    zero = math.log(1 - found.start / found.settled) / found.rate
    below = found.settled - found.start
    gradient = np.array(
        [-1 / (found.rate * below), found.start / (found.rate * found.settled * below), -zero / found.rate]
    )
    assert math.sqrt(gradient @ np.array(found.covariance) @ gradient) == pytest.approx(11.6698, abs=5e-4)


@pytest.mark.parametrize(
    ("name", "free", "why"),
    [
        # Misra1a ends at 0.42 τ; BOD's rate may be zero; BoxBOD's settled value is known to ±16 %.
        ("nist-strd-misra1a", None, "too-short"),
        ("r-bod", None, "too-short"),
        ("nist-strd-boxbod", None, "too-wide"),
        # CO2 Qn1 runs for 12 τ and is known to 6.7 %.
        ("r-co2-qn1", True, None),
    ],
)
def test_which_published_sets_give_a_settled_value(name: str, free: bool | None, why: str | None) -> None:
    fit = fit_heating(*published(name), free_start=free)
    assert why_not_printed(fit) == why


def test_heating_and_its_numeric_core_are_reached_from_one_module() -> None:
    assert heating.fit_rise is fit_rise
    assert heating.NoFit is NoFit


@given(
    settled=st.floats(0.5, 200),
    lengths=st.floats(0.05, 30),
    start=st.floats(-0.2, 0.2),
    last=st.floats(10, 1e5),
)
def test_a_curve_without_noise_comes_back(settled: float, lengths: float, start: float, last: float) -> None:
    times = [last * time / SCHEDULE[-1] for time in SCHEDULE]
    tau, begin = last / lengths, start * settled
    rises = [settled - (settled - begin) * math.exp(-time / tau) for time in times]
    found = fit_heating(times, rises, noise=0.001 * settled)
    assert found.start == pytest.approx(begin, abs=1e-6 * settled)
    assert found.settled == pytest.approx(settled, rel=1e-6)
    assert found.tau == pytest.approx(tau, rel=1e-6)


@given(settled=st.floats(5, 100), tau=st.floats(200, 2000), seed=st.integers(0, 10_000))
def test_against_another_optimiser(settled: float, tau: float, seed: int) -> None:
    # Reference: scipy.optimize.curve_fit from the truth, trust region, tight tolerances.
    rises = run(tau, settled, 0.2, noise=0.05, seed=seed)

    def curve(t: np.ndarray, start: float, end: float, rate: float) -> np.ndarray:
        return end - (end - start) * np.exp(-rate * t)

    theirs, covariance = curve_fit(
        curve,
        np.array(SCHEDULE),
        np.array(rises),
        p0=(0.2, settled, 1 / tau),
        sigma=np.full(len(SCHEDULE), 0.05),
        absolute_sigma=True,
        method="trf",
        x_scale="jac",
        xtol=1e-15,
        ftol=1e-15,
        gtol=1e-15,
    )
    found = fit_heating(SCHEDULE, rises, noise=0.05)
    squares = float(np.sum(((np.array(rises) - curve(np.array(SCHEDULE), *theirs)) / 0.05) ** 2))
    assert found.chi2 is not None
    assert found.chi2 <= squares * (1 + 1e-9)
    # The sum of squares is flat at its lowest: a thousandth of an uncertainty is all that a search sees.
    assert found.settled == pytest.approx(theirs[1], abs=1e-3 * found.settled_u)
    assert found.rate == pytest.approx(theirs[2], abs=1e-3 * found.rate_u)
    assert found.settled_u == pytest.approx(math.sqrt(covariance[1, 1]), rel=1e-2)
    assert found.rate_u == pytest.approx(math.sqrt(covariance[2, 2]), rel=1e-2)


@given(factor=st.floats(1e-3, 1e6), stretch=st.floats(1e-3, 1e6))
def test_units_do_not_matter(factor: float, stretch: float) -> None:
    times, rises = published("nist-strd-boxbod")
    plain = fit_rise(times, rises)
    other = fit_rise([time * stretch for time in times], [rise * factor for rise in rises])
    assert other.settled_rise == pytest.approx(plain.settled_rise * factor, rel=1e-9)
    assert other.settled_rise_u == pytest.approx(plain.settled_rise_u * factor, rel=1e-8)
    assert other.rate_u == pytest.approx(plain.rate_u / stretch, rel=1e-8)


def test_the_order_of_readings_does_not_matter() -> None:
    times, rises = published("nist-strd-misra1a")
    assert fit_rise(times[::-1], rises[::-1]).settled_rise == pytest.approx(238.94212918, rel=1e-9)


@pytest.mark.parametrize(
    ("times", "rises", "reason"),
    [
        ([], [], "too-few-readings"),
        ([5.0], [3.0], "too-few-readings"),
        # Two readings at one time, or one of them at zero, tell one parameter.
        ([5.0, 5.0], [3.0, 3.1], "too-few-readings"),
        ([0.0, 5.0], [0.0, 3.0], "too-few-readings"),
        ([1.0, 2.0, math.nan], [1.0, 2.0, 3.0], "not-finite"),
        ([1.0, 2.0, 3.0], [1.0, math.inf, 3.0], "not-finite"),
        ([-1.0, 2.0, 3.0], [1.0, 2.0, 2.5], "before-the-start"),
        ([1.0, 2.0, 3.0], [0.0, 0.0, 0.0], "no-minimum"),
        # A straight line, and a curve that bends upwards: the rate goes to zero.
        ([1.0, 2.0, 3.0, 4.0], [1.0, 2.0, 3.0, 4.0], "no-minimum"),
        ([1.0, 2.0, 3.0, 4.0], [1.0, 4.0, 9.0, 16.0], "no-minimum"),
        # A step, and one that comes back: the rate goes to infinity.
        ([1.0, 2.0, 3.0, 4.0], [5.0, 5.0, 5.0, 5.0], "no-minimum"),
        ([1.0, 2.0, 3.0, 4.0], [5.2, 5.1, 5.0, 4.9], "no-minimum"),
    ],
)
def test_no_fit(times: list[float], rises: list[float], reason: str) -> None:
    with pytest.raises(NoFit) as told:
        fit_rise(times, rises)
    assert told.value.reason == reason


def test_a_start_that_is_no_number() -> None:
    with pytest.raises(NoFit, match="not-finite"):
        fit_rise([1.0, 2.0, 3.0], [1.0, 1.5, 1.8], (math.nan, 1.0))


def test_two_readings_are_met_and_tell_nothing_of_the_scatter() -> None:
    found = fit_rise([1.0, 2.0], [63.212055883, 86.466471676])
    assert [found.settled_rise, found.rate] == pytest.approx([100, 1], rel=1e-8)
    assert (found.dof, found.settled_rise_u, found.rate_u) == (0, math.inf, math.inf)


@pytest.mark.parametrize("noise", [0.0, -0.1, math.nan, [0.1, 0.1]])
def test_a_noise_that_means_nothing(noise: float | list[float]) -> None:
    with pytest.raises(ValueError, match="noise"):
        fit_heating([0.0, 60.0, 120.0, 180.0], [0.0, 5.0, 8.0, 9.0], noise)


def test_what_does_not_fit_together() -> None:
    with pytest.raises(ValueError, match="3 times and 2 rises"):
        fit_rise([1.0, 2.0, 3.0], [1.0, 2.0])
    with pytest.raises(ValueError, match="ascending"):
        fit_heating([0.0, 120.0, 60.0], [0.0, 5.0, 8.0], 0.1)
    with pytest.raises(NoFit, match="too-few"):
        # Three readings, three parameters, and a noise that the residuals cannot tell.
        fit_heating([0.0, 60.0, 120.0], [0.0, 5.0, 8.0])


def test_the_start_is_free_where_there_is_a_reading_at_zero() -> None:
    rises = run(start=0.4)
    free = fit_heating(SCHEDULE, rises, 0.1)
    assert free.start == pytest.approx(0.4, rel=1e-6)
    later = fit_heating(SCHEDULE[1:], rises[1:], 0.1)
    assert (later.start, later.covariance[0]) == (0.0, (0.0, 0.0, 0.0))
    # Taken for zero, the offset of the start goes over into the settled rise.
    assert later.settled - 41.3 == pytest.approx(0.0, abs=0.2)
    assert later.settled != pytest.approx(41.3, abs=1e-4)
    asked = fit_heating(SCHEDULE[1:], rises[1:], 0.1, free_start=True)
    assert [asked.start, asked.settled] == pytest.approx([0.4, 41.3], rel=1e-6)


def test_unlike_noise_weighs() -> None:
    rises = run()
    rises[-1] += 3.0
    even = fit_heating(SCHEDULE, rises, 0.1)
    assert even.settled > 41.8
    doubted = fit_heating(SCHEDULE, rises, [0.1] * 12 + [1000.0])
    assert doubted.settled == pytest.approx(41.3, abs=1e-3)
    assert even.chi2 is not None
    assert doubted.chi2 is not None
    assert doubted.chi2 < 1e-4 < even.chi2


def test_sensitivities_tell_how_a_parameter_follows_a_reading() -> None:
    rises = run(noise=0.02)
    found = fit_heating(SCHEDULE, rises, 0.1)
    for place in (0, 3, 12):
        moved = [list(rises), list(rises)]
        for step, each in zip((-1e-4, 1e-4), moved, strict=True):
            each[place] += step
        low, high = (fit_heating(SCHEDULE, each, 0.1) for each in moved)
        told = [row[place] for row in found.sensitivities]
        by_difference = [
            (getattr(high, name) - getattr(low, name)) / 2e-4 for name in ("start", "settled", "rate")
        ]
        # Linearised least squares leave out what the residuals do to the curvature.
        assert told == pytest.approx(by_difference, rel=0.02, abs=1e-5)
    # Independent readings of one noise give the covariance again.
    assert math.hypot(*found.sensitivities[1]) * 0.1 == pytest.approx(found.settled_u, rel=1e-9)


def test_a_common_error_goes_through_whole() -> None:
    # An offset of all readings moves start and settled rise by itself and leaves the rate alone.
    sums = [math.fsum(row) for row in fit_heating(SCHEDULE, run(), 0.1).sensitivities]
    assert sums == pytest.approx([1, 1, 0], abs=1e-9)


def test_the_curve_and_what_is_still_to_come() -> None:
    found = fit_heating(SCHEDULE, run(), 0.1)
    # 41 K·e^(−5) after five time constants.
    assert found.remaining(3600).value == pytest.approx(41 * math.exp(-5), rel=1e-6)
    assert found.value_at(3600).value == pytest.approx(41.3 - 41 * math.exp(-5), rel=1e-9)
    assert found.value_at(0).value == pytest.approx(0.3, rel=1e-6)
    assert found.value_at(1e6).standard_uncertainty == pytest.approx(found.settled_u)
    # Both ends of what is known add up: the curve plus what is to come is the settled rise.
    assert found.remaining(0).value == pytest.approx(41.0)


def test_uncertainties_of_the_curve_against_simulation() -> None:
    estimates = [fit_heating(SCHEDULE, run(noise=0.1, seed=seed), 0.1) for seed in range(800)]
    told = fit_heating(SCHEDULE, run(), 0.1)
    for drawn, u in (
        ([each.settled for each in estimates], told.settled_u),
        ([each.rate for each in estimates], told.rate_u),
        ([each.value_at(700).value for each in estimates], told.value_at(700).standard_uncertainty),
        ([each.remaining(2400).value for each in estimates], told.remaining(2400).standard_uncertainty),
    ):
        # 800 draws know a standard deviation to 2.5 %.
        assert float(np.std(drawn)) == pytest.approx(u, rel=0.1)


def test_too_short_by_the_upper_limit_of_tau() -> None:
    # Five time constants are past twice any limit of τ; 1.8 never are.
    assert why_not_printed(fit_heating(SCHEDULE, run(720), 0.1)) is None
    assert why_not_printed(fit_heating(SCHEDULE, run(2000), 0.1)) == "too-short"
    # 2.1 time constants are, once τ is known well enough.
    assert why_not_printed(fit_heating(SCHEDULE, run(1700), 0.05)) is None
    assert why_not_printed(fit_heating(SCHEDULE, run(1700), 0.5)) == "too-short"


def test_a_rate_that_may_be_nothing_has_no_limit_of_tau() -> None:
    found = fit_heating(*published("r-bod"))
    assert found.tau_upper == math.inf
    known = fit_heating(SCHEDULE, run(), 0.1)
    assert 1 / known.tau_upper == pytest.approx(known.rate - 1.959964 * known.rate_u, rel=1e-6)


def test_lack_of_fit_is_shown_against_the_stated_noise() -> None:
    # A slow part of 20 % with three times the time constant, far above a noise of 0.02 K.
    two = [0.8 * fast + 0.2 * slow for fast, slow in zip(run(500), run(1500), strict=True)]
    assert why_not_printed(fit_heating(SCHEDULE, two, 0.02)) == "lack-of-fit"
    # At the 1 % point of χ² for ten degrees of freedom, 23.21 (usual tables; from memory).
    wavy = [rise + (0.1 if place % 2 else -0.1) for place, rise in enumerate(run())]
    wide = fit_heating(SCHEDULE, wavy, 0.1)
    assert wide.dof == 10
    assert wide.chi2 is not None
    limit = 0.1 * math.sqrt(wide.chi2 / 23.2093)
    assert why_not_printed(fit_heating(SCHEDULE, wavy, limit * 1.001)) is None
    assert why_not_printed(fit_heating(SCHEDULE, wavy, limit * 0.999)) == "lack-of-fit"


def test_a_small_standard_error_is_no_sign_that_the_curve_fits() -> None:
    # As of hot water that cools in two ways at once (CoolingWater, R package mosaicData, 222 readings: one
    # exponential leaves s = 1.49 °C, two leave 0.17 °C): a quick part of a fifth, noise of 0.15 K. The
    # settled rise comes out with u = 0.03 K, and is wrong by 1.6 K.
    times = [60.0 * place for place in range(222)]
    drawn = 0.15 * np.random.default_rng(7).standard_normal(len(times))
    rises = [
        62 * (1 - 0.8 * math.exp(-time / 4200) - 0.2 * math.exp(-time / 400)) + float(error)
        for time, error in zip(times, drawn, strict=True)
    ]
    found = fit_heating(times, rises, 0.15)
    assert found.settled_u == pytest.approx(0.027, abs=0.002)
    assert found.settled == pytest.approx(62 - 1.6, abs=0.1)
    assert why_not_printed(found) == "lack-of-fit"


def test_many_readings_are_asked_for_runs_of_one_sign() -> None:
    times = [90.0 * place for place in range(41)]

    def follow(swing: float) -> HeatingFit:
        # A slow wave, well within the stated noise.
        return fit_heating(
            times, [41 * (1 - math.exp(-time / 700)) + swing * math.sin(time / 300) for time in times], 0.2
        )

    assert why_not_printed(follow(0.15)) == "runs"
    drawn = 0.2 * np.random.default_rng(4).standard_normal(len(times))
    rises = [
        41 * (1 - math.exp(-time / 700)) + float(error) for time, error in zip(times, drawn, strict=True)
    ]
    assert why_not_printed(fit_heating(times, rises, 0.2)) is None


def test_an_eighth_is_the_widest() -> None:
    # Three readings after the start, at 0.7, 1.4 and 6 τ: the settled value hangs on the last.
    times, tau = [0.0, 500.0, 1000.0, 4300.0], 715.0
    rises = [40 * (1 - math.exp(-time / tau)) for time in times]
    wide = fit_heating(times, rises, 2.0)
    assert wide.settled_half_width == pytest.approx(1.96 * 2.0, rel=0.2)
    edge = 40 / 8 / wide.settled_half_width * 2.0
    assert why_not_printed(fit_heating(times, rises, 0.99 * edge)) is None
    assert why_not_printed(fit_heating(times, rises, 1.01 * edge)) in {"too-wide", "too-short"}


def test_widened_upwards_only() -> None:
    found = fit_heating(SCHEDULE, run(), 0.1)
    low, high = widened(found)
    assert found.settled - low == pytest.approx(found.settled_half_width)
    assert high - found.settled == pytest.approx(found.settled_half_width + 0.06 * found.settled)
    # 41.3 K with ± 0.4 K of all errors: 40.9 to 44.2 K.
    assert [round(end, 1) for end in widened(found, 0.06, 0.4)] == [40.9, 44.2]
