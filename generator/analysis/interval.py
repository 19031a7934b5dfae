"""The 95 % interval of a figure by convolution: JCGM 101 without random numbers.

The error of a figure is taken as T + R + N: T all parts of finite degrees of freedom together, a scaled t of
standard uncertainty u_T and ν by Welch–Satterthwaite over these alone; R the one largest rectangle, of
half-width a; N all else, normal with u_N. Its distribution function is

    F(x) = E over χ²_ν of (s/2a)·[ψ((x + a)/s) − ψ((x − a)/s)],  s² = u_N² + u_T²·ν/χ²,  ψ(z) = zΦ(z) + φ(z),

with the expectation by Gauss–Legendre quadrature in the χ² quantile. Intervals, p-values and probabilities
all come from this one F.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri, stdtr, stdtrit

from generator.analysis.mixture import NARROW, given_spreads, mixed, t_as_normals
from generator.analysis.uncertainty import (
    Component,
    Input,
    Ledger,
    Uncertain,
    welch_satterthwaite,
)


@dataclass(frozen=True)
class Parts:
    """The three parts of a figure's error, in the figure's unit.

    Attributes:
        u_normal: Standard uncertainty u_N of the normal part.
        half_width: Half-width a of the rectangle.
        u_t: Standard uncertainty u_T of the part with finite degrees of freedom.
        dof: Its degrees of freedom ν; infinite where there is no such part.
    """

    u_normal: float = 0.0
    half_width: float = 0.0
    u_t: float = 0.0
    dof: float = math.inf

    def __post_init__(self) -> None:
        if min(self.u_normal, self.half_width, self.u_t) < 0:
            raise ValueError(f"a part below zero: {self}")
        if self.u_t > 0 and math.isinf(self.dof):
            raise ValueError("a part of infinite degrees of freedom belongs to the normal part")


@dataclass(frozen=True)
class Estimate:
    """A figure with its uncertainty, at 95 %.

    Attributes:
        value: In `unit`.
        standard_uncertainty: Combined, in `unit`.
        half_width: U, half-width of the 95 % interval, in `unit`.
        coverage_factor: k = U/u to two decimals, as computed; 0 where there is no uncertainty.
        dof: Effective degrees of freedom over all components (GUM G.4.1); infinite where none is finite.
        low: value − U.
        high: value + U.
        unit: Unit of all of these.
    """

    value: float
    standard_uncertainty: float
    half_width: float
    coverage_factor: float
    dof: float
    low: float
    high: float
    unit: str


def parts(components: Sequence[Component]) -> Parts:
    """Sort the components of a figure into T, R and N."""
    return _sorted((part.input, part.contribution) for part in components)


def error_of(ledger: Ledger, figure: Uncertain) -> Parts:
    """The same from the figure itself, where its components are not asked for."""
    return _sorted(ledger.contributions(figure))


def _sorted(contributions: Iterable[tuple[Input, float]]) -> Parts:
    finite, normal, largest = [], [], 0.0
    for entry, contribution in contributions:
        if entry.dof < math.inf:
            finite.append((contribution, entry.dof))
        elif entry.distribution == "rectangular" and abs(contribution) > largest:
            normal.append(largest)
            largest = abs(contribution)
        else:
            normal.append(contribution)
    return Parts(
        u_normal=math.hypot(*normal),
        half_width=largest * math.sqrt(3),
        u_t=math.hypot(*(contribution for contribution, _ in finite)),
        dof=welch_satterthwaite(finite),
    )


def estimate(value: float, components: Sequence[Component], unit: str) -> Estimate:
    """A figure and its 95 % interval from its components."""
    return _estimate(value, [(part.input, part.contribution) for part in components], unit)


def estimate_of(ledger: Ledger, figure: Uncertain, unit: str) -> Estimate:
    """The same from the figure itself, where its components are not asked for."""
    return _estimate(figure.x, ledger.contributions(figure), unit)


def _estimate(value: float, contributions: Sequence[tuple[Input, float]], unit: str) -> Estimate:
    u = math.hypot(*(contribution for _, contribution in contributions))
    reach = half_width(_sorted(contributions))
    return Estimate(
        value=value,
        standard_uncertainty=u,
        half_width=reach,
        coverage_factor=round(reach / u, 2) if u > 0 else 0.0,
        dof=welch_satterthwaite([(contribution, entry.dof) for entry, contribution in contributions]),
        low=value - reach,
        high=value + reach,
        unit=unit,
    )


def cdf(x: float, error: Parts) -> float:
    """Probability that the error is at most x (in the figure's unit)."""
    # The lower half only: there the small terms are computed without cancellation.
    return 1.0 - _lower(-x, error) if x > 0 else _lower(x, error)


def tail(d: float, error: Parts) -> float:
    """Probability 1 − F(d) that the error is greater than d, accurate far out for d > 0."""
    return cdf(-d, error)


def quantile(p: float, error: Parts) -> float:
    """The x at which F(x) = p, 0 < p < 1; 0 for an error without parts.

    Raises:
        ValueError: p is not between 0 and 1.
    """
    if not 0 < p < 1:
        raise ValueError(f"no quantile at {p}")
    if p > 0.5:
        return -_lower_quantile(1.0 - p, error)
    return _lower_quantile(p, error)


def half_width(error: Parts, p: float = 0.95, near: float | None = None) -> float:
    """Half-width of the symmetric interval that holds the error with probability p; sought from `near` on."""
    return -_lower_quantile((1.0 - p) / 2.0, error, None if near is None else -near)


def _lower(x: float, error: Parts) -> float:
    """F(x) for x ≤ 0."""
    if x == 0 and (error.half_width or error.u_normal or error.u_t):
        return 0.5
    return _law(error)(x)[0]


def _law(error: Parts) -> Callable[[float], tuple[float, float]]:
    """F(x) and its derivative as a function of x ≤ 0."""
    a, u_t = error.half_width, error.u_t
    if u_t == 0:
        return lambda x: _given_spread(x, a, error.u_normal)
    if a == 0 and error.u_normal == 0:
        return lambda x: (float(stdtr(error.dof, x / u_t)), _t_density(x / u_t, error.dof) / u_t)
    weights, factors = t_as_normals(error.dof)
    of_each = given_spreads(a, np.sqrt(error.u_normal**2 + (u_t * factors) ** 2))
    return lambda x: mixed(weights, of_each(x))


def _given_spread(x: float, a: float, s: float) -> tuple[float, float]:
    """Distribution function and density at x ≤ 0 of a rectangle ± a plus a normal of standard deviation s."""
    if s == 0:
        if a == 0:
            return (0.0 if x < 0 else 1.0), 0.0
        return max(0.0, (x + a) / (2 * a)), (0.5 / a if x >= -a else 0.0)
    z, width = x / s, a / s
    if width < NARROW:
        density = math.exp(-z * z / 2) / math.sqrt(2 * math.pi)
        return _normal_cdf(z) - width**2 / 6 * z * density, density / s
    below = (_psi(z + width) - _psi(z - width)) / (2 * width)
    return below, (_normal_cdf(z + width) - _normal_cdf(z - width)) / (2 * a)


def _psi(z: float) -> float:
    """ψ(z) = zΦ(z) + φ(z), the integral of Φ up to z."""
    if z > 0:
        return z + _psi(-z)
    return max(0.0, math.exp(-z * z / 2) / math.sqrt(2 * math.pi) + z * _normal_cdf(z))


def _normal_cdf(z: float) -> float:
    return 0.5 * math.erfc(-z / math.sqrt(2))


def _t_density(t: float, dof: float) -> float:
    log_scale = math.lgamma((dof + 1) / 2) - math.lgamma(dof / 2) - math.log(dof * math.pi) / 2
    return math.exp(log_scale - (dof + 1) / 2 * math.log1p(t * t / dof))


def _lower_quantile(p: float, error: Parts, near: float | None = None) -> float:
    """The x ≤ 0 at which F(x) = p, 0 < p ≤ 1/2: Newton's steps on ln F, halving where they lead astray."""
    scale = error.u_normal + error.half_width + error.u_t
    if scale == 0:
        return 0.0
    if error.u_normal == 0 and error.half_width == 0:
        return error.u_t * float(stdtrit(error.dof, p))
    if error.u_normal == 0 and error.u_t == 0:
        return error.half_width * (2 * p - 1)
    law, low, high = _law(error), -math.inf, 0.0
    # F is smooth on the scale of what is no rectangle, so a Newton's step leaves its own square over that.
    least = math.sqrt(1e-10 * scale * math.hypot(error.u_normal, error.u_t))
    x = _near(p, error) if near is None else near
    for _ in range(200):
        below, density = law(x)
        low, high = (low, x) if below > p else (x, high)
        after = x - math.log(below / p) * below / density if below > 0 and density > 0 else math.nan
        if abs(after - x) <= least:
            return after
        if not low < after < high:
            after = (low + high) / 2 if math.isfinite(low) else 2 * x
            if abs(after - x) <= 1e-15 * scale:
                return after
        x = after
    raise ArithmeticError(f"no quantile at {p} of {error}")


def _near(p: float, error: Parts) -> float:
    """A first guess: Cornish and Fisher's expansion to the fourth moment, or the parts' quantiles in squares.

    M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 26.2.49; the variance of a t is
    ν/(ν − 2), its excess 6/(ν − 4), that of a rectangle −6/5.
    """
    z, u_t, dof = float(ndtri(p)), error.u_t, error.dof
    if p < 1e-3 or dof < 8:
        of_t = u_t * float(stdtrit(dof, p)) if u_t else 0.0
        return -math.hypot(of_t, error.u_normal * z, error.half_width * (1 - 2 * p))
    of_rectangle = error.half_width / math.sqrt(3)
    of_t, excess_of_t = (u_t * math.sqrt(dof / (dof - 2)), 6 / (dof - 4)) if u_t else (0.0, 0.0)
    u = math.hypot(error.u_normal, of_t, of_rectangle)
    excess = excess_of_t * (of_t / u) ** 4 - 1.2 * (of_rectangle / u) ** 4
    return u * (z + excess * (z**3 - 3 * z) / 24)
