"""The interval by convolution against draws, closed forms and worked examples."""

from __future__ import annotations

import math
from itertools import pairwise
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from generator.analysis.interval import (
    Parts,
    cdf,
    error_of,
    estimate,
    half_width,
    parts,
    quantile,
    tail,
)
from generator.analysis.uncertainty import Component, Ledger, combined, rectangle, scatter, total, weighted

NORMAL = NormalDist()

errors = st.builds(
    Parts,
    u_normal=st.floats(0.01, 3),
    half_width=st.one_of(st.just(0.0), st.floats(0.01, 6)),
    u_t=st.floats(0.01, 3),
    dof=st.floats(1, 200),
)


def parts_of(*, normal: float = 0.0, rectangles: tuple[float, ...] = ()) -> Parts:
    """Parts of a sum of one normal input and some rectangles given by their half-widths."""
    return parts(components_of(normal=normal, rectangles=rectangles))


def components_of(*, normal: float, rectangles: tuple[float, ...]) -> tuple[Component, ...]:
    ledger = Ledger()
    numbers = [ledger.input(scatter(("normal",), "normal", normal, "V", "shared"))]
    for place, width in enumerate(rectangles):
        numbers.append(ledger.input(rectangle((str(place),), "rectangle", width, "V", "shared")))
    return ledger.components(total(numbers))


def draws(error: Parts, seed: int) -> np.ndarray:
    """Two million seeded errors, drawn part by part."""
    source = np.random.default_rng(seed)
    count = 2_000_000
    drawn = error.u_normal * source.standard_normal(count)
    drawn += error.half_width * source.uniform(-1, 1, count)
    if error.u_t:
        drawn += error.u_t * source.standard_t(error.dof, count)
    return drawn


GRID = [
    Parts(u_normal=0.4, half_width=1.0, u_t=0.3, dof=4),
    Parts(u_normal=0.4, half_width=1.0, u_t=1.2, dof=3),
    Parts(u_normal=0.0, half_width=1.0, u_t=0.3, dof=4),
    Parts(u_normal=0.0, half_width=1.0, u_t=0.05, dof=5),
    Parts(u_normal=0.8, half_width=0.0, u_t=0.8, dof=6),
    Parts(u_normal=0.1, half_width=2.0, u_t=0.2, dof=12),
    Parts(u_normal=1.0, half_width=0.2, u_t=0.1, dof=2),
    Parts(u_normal=0.5, half_width=0.5, u_t=0.5, dof=30.5),
    Parts(u_normal=0.3, half_width=1.0),
]


@pytest.mark.parametrize(("seed", "error"), list(enumerate(GRID)))
def test_against_draws(seed: int, error: Parts) -> None:
    # JCGM 101 is the method by draws; two million place the end to about 0.1 %.
    drawn = float(np.quantile(np.abs(draws(error, seed)), 0.95))
    assert half_width(error) == pytest.approx(drawn, rel=0.003)


@pytest.mark.parametrize("dof", [1, 2, 3, 4, 10, 50])
@pytest.mark.parametrize("level", [0.05, 0.001, 1e-4])
def test_far_tails_of_the_mixture(dof: float, level: float) -> None:
    # Reference: scipy.stats.t; the faint normal part sends the sum through the quadrature.
    x = float(stats.t.isf(level / 2, dof))
    assert tail(x, Parts(u_normal=1e-9, u_t=1.0, dof=dof)) == pytest.approx(level / 2, rel=1e-4)


@pytest.mark.parametrize("dof", [2, 4, 10])
@pytest.mark.parametrize("x", [0.5, 2.0, 5.0, 12.0])
def test_the_convolution_against_adaptive_quadrature(dof: float, x: float) -> None:
    # The same sum the other way round: over the density of t, with the rectangle's mean by quadrature too.
    error = Parts(u_normal=0.3, half_width=1.0, u_t=1.0, dof=dof)

    nodes, weights = np.polynomial.legendre.leggauss(40)

    def at(t: float) -> float:
        beyond = [NORMAL.cdf((float(r) + t - x) / 0.3) for r in nodes]
        return float(stats.t.pdf(t, dof)) * float(np.dot(weights, beyond)) / 2

    ends = sorted([-200.0, -20.0, -3.0, 0.0, 3.0, 20.0, 200.0, x - 1, x, x + 1])
    inside = [float(integrate.quad(at, low, high)[0]) for low, high in pairwise(ends)]
    assert tail(x, error) == pytest.approx(sum(inside) + float(stats.t.sf(200, dof)), rel=1e-4)


def test_four_rectangles_and_four_normals() -> None:
    # JCGM 101:2008 9.2.2 and 9.2.3: four normals of u = 1 give ± 3.92, four rectangles of u = 1 ± 3.88, which
    # is 2·√3·(2 − 0.6^¼).
    assert 2 * math.sqrt(3) * (2 - 0.6**0.25) == pytest.approx(3.8794, abs=5e-5)
    rectangles = parts_of(rectangles=(math.sqrt(3),) * 4)
    assert half_width(rectangles) == pytest.approx(3.88, rel=0.01)
    assert half_width(parts_of(normal=2.0)) == pytest.approx(3.92, abs=0.005)


def test_hand_held_multimeter() -> None:
    # EA-4/02 M:2022 S9 (from memory): resolution ± 0.05 V, calibrator 2 mV at k = 2, other effects
    # ± 11 mV; printed E = 0.10 V with U = 0.05 V, a rectangle being dominant.
    found = components_of(normal=0.001, rectangles=(0.05, 0.011))
    result = estimate(0.10, found, "V")
    assert result.standard_uncertainty == pytest.approx(0.030, abs=0.0005)
    assert result.coverage_factor == 1.70
    assert result.half_width == pytest.approx(0.05, abs=0.0005)
    # With the other parts at zero the rectangle alone has k = 0.95·√3 = 1.645.
    alone = estimate(0.10, components_of(normal=0.0, rectangles=(0.05,)), "V")
    assert alone.half_width / alone.standard_uncertainty == pytest.approx(1.645, abs=0.0005)
    assert alone.half_width == pytest.approx(0.0475, rel=1e-12)
    assert alone.coverage_factor == 1.65


def test_a_weight_of_ten_kilograms() -> None:
    # EA-4/02 M:2022 S2 (from memory, but for the standard's U and the drift): standard 45 mg at k = 2, drift
    # ±15 mg, comparison 25 mg/√3, magnetism and buoyancy ±10 mg each; printed u = 29.3 mg, U = 59 mg
    # at 95.45 %.
    found = components_of(normal=math.hypot(22.5, 25 / math.sqrt(3)), rectangles=(15.0, 10.0, 10.0))
    assert combined(found) == pytest.approx(29.3, abs=0.05)
    assert half_width(parts(found), 0.9545) == pytest.approx(59, abs=0.8)
    assert half_width(parts(found)) == pytest.approx(1.96 * 29.26, rel=0.01)


def test_student_factors_for_two_standard_deviations() -> None:
    # GUM table G.2 and EA-4/02 E.1: t for p = 95.45 % (from memory).
    printed = {
        1: 13.97, 2: 4.53, 3: 3.31, 4: 2.87, 5: 2.65, 6: 2.52, 7: 2.43, 8: 2.37, 10: 2.28, 20: 2.13, 50: 2.05,
    }  # fmt: skip
    for dof, factor in printed.items():
        assert half_width(Parts(u_t=1.0, dof=dof), 0.9545) == pytest.approx(factor, abs=0.006)
    assert half_width(Parts(u_normal=1.0), 0.9545) == pytest.approx(2.00, abs=0.001)


@pytest.mark.parametrize(("dof", "factor"), [(1, 12.71), (2, 4.30), (4, 2.78), (9, 2.26), (16, 2.12)])
def test_student_factors(dof: float, factor: float) -> None:
    # GUM table G.2: t for p = 95 %.
    assert half_width(Parts(u_t=1.0, dof=dof)) == pytest.approx(factor, abs=0.005)


@given(u_normal=st.floats(0.1, 2), u_t=st.floats(0.1, 2), dof=st.floats(11, 200), share=st.floats(0, 0.5))
def test_agrees_with_the_gum_where_that_holds(u_normal: float, u_t: float, dof: float, share: float) -> None:
    # GUM G.4: U = t(ν_eff)·u_c, good where ν is not small and no rectangle is large.
    rest = math.hypot(u_normal, u_t)
    u = rest * math.sqrt(1 + share**2)
    nu = u**4 / (u_t**4 / dof)
    by_gum = float(stats.t.ppf(0.975, nu)) * u
    error = Parts(u_normal, share * rest * math.sqrt(3), u_t, dof)
    assert half_width(error) == pytest.approx(by_gum, rel=0.03)


def test_parts_are_sorted_by_what_they_are() -> None:
    ledger = Ledger()
    numbers = [
        ledger.input(scatter(("t1",), "t", 0.3, "K", "spread", dof=4)),
        ledger.input(scatter(("t2",), "t", 0.4, "K", "spread", dof=9)),
        ledger.input(rectangle(("r1",), "r", 0.9, "K", "shared")) * -2.0,
        ledger.input(rectangle(("r2",), "r", 1.0, "K", "shared")),
        ledger.input(scatter(("n",), "n", 0.5, "K", "run")),
    ]
    found = parts(ledger.components(total(numbers)))
    assert found.half_width == pytest.approx(1.8)
    assert found.u_t == pytest.approx(0.5)
    # Welch–Satterthwaite over the two finite parts: 0.5⁴/(0.3⁴/4 + 0.4⁴/9).
    assert found.dof == pytest.approx(0.0625 / (0.0081 / 4 + 0.0256 / 9))
    assert found.u_normal == pytest.approx(math.sqrt(1 / 3 + 0.25))


@given(
    normals=st.lists(st.floats(-2, 2), max_size=3),
    rectangles=st.lists(st.floats(-2, 2), max_size=3),
    finite=st.lists(st.tuples(st.floats(-2, 2), st.floats(1, 50)), max_size=3),
)
def test_a_figure_and_its_components_have_one_error(
    normals: list[float], rectangles: list[float], finite: list[tuple[float, float]]
) -> None:
    ledger = Ledger()
    entries = [scatter((f"n{i}",), "n", 0.7, "K", "run") for i in range(len(normals))]
    entries += [rectangle((f"r{i}",), "r", 0.7, "K", "run") for i in range(len(rectangles))]
    entries += [scatter((f"t{i}",), "t", 0.7, "K", "run", dof=dof) for i, (_, dof) in enumerate(finite)]
    factors = [*normals, *rectangles, *(factor for factor, _ in finite)]
    number = weighted(factors or [0.0], [ledger.input(entry) for entry in entries] or [ledger.exact(1.0)])
    direct, listed = error_of(ledger, number), parts(ledger.components(number))
    assert [direct.u_normal, direct.half_width, direct.u_t] == pytest.approx(
        [listed.u_normal, listed.half_width, listed.u_t], rel=1e-12
    )
    assert direct.dof == pytest.approx(listed.dof, rel=1e-9)


def test_an_estimate_tells_all_it_has() -> None:
    ledger = Ledger()
    spread = ledger.input(scatter(("s",), "s", 0.8, "K", "spread", dof=7))
    result = estimate(41.3, ledger.components(spread), "K")
    # t for ν = 7 at 95 %: 2.36 (GUM table G.2).
    assert result.half_width == pytest.approx(2.3646 * 0.8, rel=1e-4)
    assert (result.coverage_factor, result.unit) == (2.36, "K")
    assert result.dof == pytest.approx(7)
    assert (result.low, result.high) == (41.3 - result.half_width, 41.3 + result.half_width)


@given(error=errors, share=st.floats(0.01, 100))
def test_wherever_it_is_sought_from_the_half_width_is_one(error: Parts, share: float) -> None:
    found = half_width(error)
    assert half_width(error, near=share * found) == pytest.approx(found, rel=1e-8)


def test_a_figure_without_uncertainty_is_a_point() -> None:
    result = estimate(41.3, (), "K")
    assert (result.half_width, result.coverage_factor, result.dof) == (0.0, 0.0, math.inf)
    assert (cdf(-1e-9, Parts()), cdf(0.0, Parts()), tail(1e-9, Parts())) == (0.0, 1.0, 0.0)


def test_a_rectangle_alone_is_exact() -> None:
    error = Parts(half_width=2.0)
    assert [cdf(x, error) for x in (-3.0, -2.0, -1.0, 0.0, 1.5, 3.0)] == [0, 0, 0.25, 0.5, 0.875, 1]
    assert quantile(0.95, error) == pytest.approx(1.8)


def test_a_normal_part_that_fades_out_changes_nothing() -> None:
    for faint in (1e-3, 1e-6, 1e-9, 1e-15):
        assert half_width(Parts(u_normal=faint, half_width=1.0)) == pytest.approx(0.95, abs=faint + 1e-12)
        assert half_width(Parts(faint, 0.0, 1.0, 4)) == pytest.approx(2.77645, abs=2e-4)
        assert half_width(Parts(1.0, faint)) == pytest.approx(1.959964, abs=1e-6)


def test_a_narrow_rectangle_joins_without_a_step() -> None:
    # On both sides of the width at which the formula is changed for its expansion.
    below, above = (cdf(-1.3, Parts(1.0, width)) for width in (0.000999999, 0.001000001))
    assert above - below == pytest.approx(1.3 * NORMAL.pdf(1.3) / 3 * 1e-3 * 2e-9, abs=1e-13)


@pytest.mark.parametrize("z", [1.0, 5.0, 20.0, 37.0])
def test_the_normal_tail_is_accurate_far_out(z: float) -> None:
    # Reference: scipy.stats.norm.sf.
    assert tail(z, Parts(u_normal=1.0)) == pytest.approx(float(stats.norm.sf(z)), rel=1e-12)
    wide = Parts(u_normal=1.0, half_width=0.5)
    mean = integrate.quad(lambda r: float(stats.norm.sf(z - r)), -0.5, 0.5, epsabs=0, epsrel=1e-11)[0]
    assert tail(z, wide) == pytest.approx(mean, rel=1e-7)


@given(error=errors, x=st.floats(-20, 20), step=st.floats(0, 3))
def test_the_distribution_is_symmetric_and_rises(error: Parts, x: float, step: float) -> None:
    assert cdf(x, error) + cdf(-x, error) == pytest.approx(1, abs=1e-12)
    assert cdf(x + step, error) >= cdf(x, error) - 1e-6


@given(error=errors, p=st.floats(0.001, 0.999))
def test_the_quantile_is_the_inverse(error: Parts, p: float) -> None:
    x = quantile(p, error)
    # The quadrature leaves a step of some 1e-6 where the two halves of the distribution meet.
    assert cdf(x, error) == pytest.approx(p, abs=1e-8 if abs(p - 0.5) > 1e-5 else 1e-5)


@pytest.mark.parametrize("p", [0.0, 1.0, -0.1, math.nan])
def test_no_quantile_outside_0_to_1(p: float) -> None:
    with pytest.raises(ValueError, match="no quantile"):
        quantile(p, Parts(1.0))


def test_parts_that_mean_nothing_are_refused() -> None:
    with pytest.raises(ValueError, match="below zero"):
        Parts(u_normal=-1.0)
    with pytest.raises(ValueError, match="infinite"):
        Parts(u_t=1.0)
