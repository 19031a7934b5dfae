"""The exponential approach to a settled rise, fitted by least squares.

Times and rises are in any unit, s and K for a heating run. The curve is linear in all but its rate 1/τ, so
that the rest is solved for and the rate is found as the root of one equation in one unknown (variable
projection; G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10 (1973) 413–432).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Reason = Literal[
    "too-few-readings",
    "not-finite",
    "before-the-start",
    "no-minimum",
]
"""Why there is no fit."""

WhyNotPrinted = Literal["too-short", "lack-of-fit", "runs", "too-wide"]
"""Why a settled value is not printed, in the order in which it is asked."""


class NoFit(Exception):
    """There is no least-squares curve.

    Attributes:
        reason: Fewer readings than parameters; a number that is not finite; a reading before the start; or no
            minimum at a finite positive rate.
    """

    def __init__(self, reason: Reason) -> None:
        self.reason: Reason = reason
        super().__init__(reason)


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
class Uncertainty:
    """A figure of a fit with its standard uncertainty.

    Attributes:
        value: The figure.
        standard_uncertainty: From the covariance of the fit.
    """

    value: float
    standard_uncertainty: float


@dataclass(frozen=True)
class HeatingFit:
    """θ₀ + (θ∞ − θ₀)·(1 − e^(−t/τ)) through a heating run.

    Attributes:
        start: θ₀, K; 0 where it is not free.
        settled: θ∞, K.
        tau: τ, s.
        covariance: Of start, settled and rate 1/τ, 3 × 3, in K and 1/s; zeros for a start that is not free.
        chi2: Σ((reading − curve)/noise)²; None where the noise is taken from the residuals.
        dof: Readings less parameters.
        coverage: Factor of a two-sided 95 % interval: of the normal law with a stated noise, else of t.
        last: Time of the last reading, s.
        residuals: Reading less curve, K, in order of time.
    """

    start: float
    settled: float
    tau: float
    covariance: tuple[tuple[float, float, float], ...]
    chi2: float | None
    dof: int
    coverage: float
    last: float
    residuals: tuple[float, ...]

    @property
    def rate(self) -> float:
        """1/τ, 1/s."""
        return 1 / self.tau

    @property
    def settled_half_width(self) -> float:
        """Half-width in K of the 95 % interval of the settled rise, not widened."""
        raise NotImplementedError

    @property
    def tau_upper(self) -> float:
        """Upper limit of τ in s, two-sided 95 %, Wald on 1/τ; infinite where the rate may be 0."""
        raise NotImplementedError

    @property
    def tau_u(self) -> float:
        """Standard uncertainty of τ, s."""
        raise NotImplementedError

    def value_at(self, time: float) -> Uncertainty:
        """The curve at a time in s, K."""
        raise NotImplementedError

    def remaining(self, time: float) -> Uncertainty:
        """Rise still to come after a time in s, (θ∞ − θ₀)·e^(−t/τ), K; below zero for a fall."""
        raise NotImplementedError


def fit_rise(times: Sequence[float], rises: Sequence[float], start: tuple[float, float] | None = None) -> Fit:
    """Fit the plain curve through zero, θ∞·(1 − e^(−rate·t)), by least squares.

    Args:
        times: In any unit, not below zero, in any order.
        rises: One a time.
        start: Settled rise and rate to begin at; not needed.

    Returns:
        The least-squares answer in the units given, standard uncertainties from the residuals.

    Raises:
        NoFit: Fewer readings than parameters, a number that is not finite, a time below zero, or no minimum
            at a finite positive rate.
        ValueError: The two lengths differ.
    """
    raise NotImplementedError


def fit_heating(
    times: Sequence[float],
    rises: Sequence[float],
    noise: float | Sequence[float] | None = None,
    free_start: bool | None = None,
) -> HeatingFit:
    """Fit θ₀ + (θ∞ − θ₀)·(1 − e^(−t/τ)) by least squares.

    Args:
        times: s since the current first reached its set value.
        rises: K, one a time.
        noise: Standard deviation of a reading of the rise, K, one for all or one each; None takes it from the
            residuals, with Student's t of their degrees of freedom.
        free_start: Whether θ₀ is free; None: where there is a reading at t = 0.

    Raises:
        NoFit: As `fit_rise`.
        ValueError: The lengths differ, or a noise is not above zero.
    """
    raise NotImplementedError


def why_not_printed(fit: HeatingFit) -> WhyNotPrinted | None:
    """Why the settled value of a fit may not be printed; None where it may.

    It may where the last reading lies past twice the upper limit of τ, lack of fit is not shown (χ² against
    the stated noise at 1 %; from 20 readings on a runs test at 1 %), and the half-width of its 95 % interval
    is at most an eighth of it.
    """
    raise NotImplementedError


def widened(fit: HeatingFit, share: float = 0.06) -> tuple[float, float]:
    """95 % interval of the settled rise in K, widened upwards by a slow part that the run cannot see.

    Args:
        fit: A fit that may be printed.
        share: Of the settled rise; 6 % where no long run of the rig tells better (no source).
    """
    raise NotImplementedError
