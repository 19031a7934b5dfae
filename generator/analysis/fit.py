"""The exponential approach to a settled rise, fitted by least squares, and whether it may be printed.

Standard uncertainties are those of linearised least squares, σ²·(JᵀWJ)⁻¹, with the stated noise or with the
residuals' own s² = S/(n − p), as the NIST StRD certifies them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from operator import mul
from typing import Literal

from scipy.special import chdtrc, ndtri, stdtrit

from generator.analysis.exponential import Solution, solve
from generator.analysis.projection import NoFit, Reason
from generator.analysis.signs import few_runs

__all__ = [
    "Fit",
    "Fitted",
    "HeatingFit",
    "NoFit",
    "Reason",
    "WhyNotPrinted",
    "fit_heating",
    "fit_rise",
    "why_not_printed",
    "widened",
]

WhyNotPrinted = Literal["too-short", "lack-of-fit", "runs", "too-wide"]
"""Why a settled value is not printed, in the order in which it is asked."""

LACK_OF_FIT = 0.01
"""Level at which lack of fit is shown."""

RUNS_FROM = 20
"""Number of readings from which on the signs of the residuals are looked at."""

UNSEEN = 0.06
"""Share of the settled rise that a run may not see of a slow part, where no long run tells; no source."""


@dataclass(frozen=True)
class Fit:
    """The curve through zero, θ∞·(1 − e^(−rate·t)).

    Attributes:
        settled_rise: θ∞.
        rate: 1/τ.
        settled_rise_u: Its standard uncertainty from the residuals; infinite without degrees of freedom.
        rate_u: That of the rate.
        residual_sum_of_squares: Σ(reading − curve)².
        dof: Readings less parameters.
        correlation: Of settled rise and rate.
    """

    settled_rise: float
    rate: float
    settled_rise_u: float
    rate_u: float
    residual_sum_of_squares: float
    dof: int
    correlation: float


@dataclass(frozen=True)
class Fitted:
    """A figure of a fit.

    Attributes:
        value: In the figure's unit.
        standard_uncertainty: From the covariance of the fit, in the same unit.
    """

    value: float
    standard_uncertainty: float


@dataclass(frozen=True)
class HeatingFit:
    """θ₀ + (θ∞ − θ₀)·(1 − e^(−t/τ)) through a heating run.

    Attributes:
        solution: Of start, settled rise and rate 1/τ, in K and 1/s.
        variance: σ², what (JᵀWJ)⁻¹ is to be multiplied with: 1 where the weights hold the noise.
        chi2: Σ((reading − curve)/noise)²; None where the noise is taken from the residuals.
        dof: Readings less parameters.
        coverage: Factor of a two-sided 95 % interval: of the normal law with a stated noise, else of t.
        last: Time of the last reading, s.
    """

    solution: Solution
    variance: float
    chi2: float | None
    dof: int
    coverage: float
    last: float

    @property
    def start(self) -> float:
        """θ₀, K; 0 where it is not free."""
        return self.solution.parameters[0]

    @property
    def settled(self) -> float:
        """θ∞, K."""
        return self.solution.parameters[1]

    @property
    def rate(self) -> float:
        """1/τ, 1/s."""
        return self.solution.parameters[2]

    @property
    def residuals(self) -> tuple[float, ...]:
        """Reading less curve, K, in order of time."""
        return self.solution.residuals

    @property
    def settled_u(self) -> float:
        """Standard uncertainty of θ∞ from the noise, K."""
        return math.sqrt(self.variance * self.solution.inverse[1][1])

    @property
    def rate_u(self) -> float:
        """Standard uncertainty of 1/τ from the noise, 1/s."""
        return math.sqrt(self.variance * self.solution.inverse[2][2])

    @property
    def covariance(self) -> tuple[tuple[float, ...], ...]:
        """Of start, settled rise and rate, 3 × 3, in K and 1/s; zeros for a start that is not free."""
        return tuple(tuple(self.variance * each for each in row) for row in self.solution.inverse)

    @property
    def sensitivities(self) -> tuple[tuple[float, ...], ...]:
        """∂/∂reading of start, settled rise and rate, in K/K and 1/(s·K), a row a parameter.

        With them a parameter is an uncertain number made of the readings, shared errors included.
        """
        return self.solution.sensitivities()

    @property
    def settled_by_reading(self) -> tuple[float, ...]:
        """∂θ∞/∂reading, K/K: the second row of these."""
        return self.solution.sensitivity(1)

    @property
    def tau(self) -> float:
        """Time constant τ, s."""
        return 1 / self.rate

    @property
    def tau_upper(self) -> float:
        """Upper limit of τ in s, two-sided 95 %, Wald on 1/τ; infinite where the rate may be 0."""
        slowest = self.rate - self.coverage * self.rate_u
        return 1 / slowest if slowest > 0 else math.inf

    @property
    def settled_half_width(self) -> float:
        """Half-width in K of the 95 % interval of the settled rise, not widened."""
        return self.coverage * self.settled_u

    def value_at(self, time: float) -> Fitted:
        """The curve in K at a time in s."""
        left = math.exp(-self.rate * time)
        value = self.settled - (self.settled - self.start) * left
        return self._fitted(value, (left, 1 - left, (self.settled - self.start) * time * left))

    def remaining(self, time: float) -> Fitted:
        """Rise in K still to come at a time in s, (θ∞ − θ₀)·e^(−t/τ); below zero for a fall."""
        left = math.exp(-self.rate * time)
        value = (self.settled - self.start) * left
        return self._fitted(value, (-left, left, -value * time))

    def _fitted(self, value: float, gradient: tuple[float, float, float]) -> Fitted:
        rows = (math.fsum(map(mul, row, gradient)) for row in self.solution.inverse)
        return Fitted(value, math.sqrt(self.variance * max(0.0, math.fsum(map(mul, gradient, rows)))))


def fit_rise(times: Sequence[float], rises: Sequence[float], start: tuple[float, float] | None = None) -> Fit:
    """Fit the plain curve through zero, θ∞·(1 − e^(−rate·t)), by least squares.

    Args:
        times: In any unit, not below zero, in any order.
        rises: One a time.
        start: Settled rise and rate to begin at; the answer is the same without.

    Returns:
        The answer in the units given, standard uncertainties from the residuals.

    Raises:
        NoFit: Fewer readings than parameters, a number that is not finite, a time below zero, or no minimum
            at a finite positive rate.
        ValueError: The lengths differ.
    """
    _same_length(times, rises)
    if start is not None and not all(map(math.isfinite, start)):
        raise NoFit("not-finite")
    hints = () if start is None else (start[1],)
    found = solve(times, rises, [1.0] * len(times), free=False, hints=hints)
    dof = len(times) - 2
    scatter = math.sqrt(found.square / dof) if dof else math.inf
    _, settled, rate = found.parameters
    (variance, covariance), (_, rate_variance) = (row[1:] for row in found.inverse[1:])
    return Fit(
        settled_rise=settled,
        rate=rate,
        settled_rise_u=math.sqrt(variance) * scatter,
        rate_u=math.sqrt(rate_variance) * scatter,
        residual_sum_of_squares=found.square,
        dof=dof,
        correlation=covariance / math.sqrt(variance * rate_variance),
    )


def fit_heating(
    times: Sequence[float],
    rises: Sequence[float],
    noise: float | Sequence[float] | None = None,
    free_start: bool | None = None,
) -> HeatingFit:
    """Fit θ₀ + (θ∞ − θ₀)·(1 − e^(−t/τ)) by least squares.

    Args:
        times: s since the current first reached its set value, ascending.
        rises: K, one a time.
        noise: Standard deviation of a reading of the rise, K, one for all or one each; None takes it from the
            residuals, with Student's t of their degrees of freedom.
        free_start: Whether θ₀ is free; None: where there is a reading at t = 0.

    Raises:
        NoFit: As `fit_rise`; also where the noise is to come from residuals without degrees of freedom.
        ValueError: The lengths differ, the times are not ascending, or a noise is not above zero.
    """
    _same_length(times, rises)
    if any(t1 < t0 for t0, t1 in pairwise(times)):
        raise ValueError("the times of the run are not ascending")
    free = free_start if free_start is not None else 0 in times
    dof = len(times) - (3 if free else 2)
    if noise is None and dof == 0:
        raise NoFit("too-few-readings")
    found = solve(times, rises, _weights(noise, len(times)), free=free)
    return HeatingFit(
        solution=found,
        variance=found.square / dof if noise is None else 1.0,
        chi2=None if noise is None else found.square,
        dof=dof,
        coverage=float(stdtrit(dof, 0.975) if noise is None else ndtri(0.975)),
        last=times[-1],
    )


def why_not_printed(fit: HeatingFit) -> WhyNotPrinted | None:
    """Why the settled value of a fit may not be printed; None where it may.

    It may where the last reading lies past twice the upper limit of τ, lack of fit is not shown (χ² against
    the stated noise at 1 %; from 20 readings on too few runs of residuals of one sign, at 1 %), and the
    half-width of its 95 % interval is at most an eighth of it.
    """
    if not fit.last > 2 * fit.tau_upper:
        return "too-short"
    if fit.chi2 is not None and fit.dof > 0 and float(chdtrc(fit.dof, fit.chi2)) < LACK_OF_FIT:
        return "lack-of-fit"
    if len(fit.residuals) >= RUNS_FROM and few_runs(fit.residuals) < LACK_OF_FIT:
        return "runs"
    if not fit.settled_half_width <= fit.settled / 8:
        return "too-wide"
    return None


def widened(fit: HeatingFit, share: float = UNSEEN, half_width: float | None = None) -> tuple[float, float]:
    """95 % interval of the settled rise in K, widened upwards by a slow part that the run cannot see.

    Args:
        fit: A fit that may be printed.
        share: Of the settled rise, from a long run of the rig, or the default.
        half_width: Half-width in K with every error in it; None: the fit's own, of the noise alone.
    """
    reach = fit.settled_half_width if half_width is None else half_width
    return fit.settled - reach, fit.settled + reach + share * abs(fit.settled)


def _same_length(times: Sequence[float], rises: Sequence[float]) -> None:
    if len(times) != len(rises):
        raise ValueError(f"{len(times)} times and {len(rises)} rises")


def _weights(noise: float | Sequence[float] | None, count: int) -> list[float]:
    if noise is None:
        return [1.0] * count
    each = [float(noise)] * count if isinstance(noise, (int, float)) else list(noise)
    if len(each) != count or not all(0 < one < math.inf for one in each):
        raise ValueError(f"the noise of {count} readings is {noise}")
    return [1 / one**2 for one in each]
