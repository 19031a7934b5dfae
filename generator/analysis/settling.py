"""Whether a heating run has settled, and whether it was disturbed.

Times are in s, rises in K. The noise is the stated standard deviation of one reading of the rise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.fit import HeatingFit

Verdict = Literal["settled", "still-rising", "too-few"]


@dataclass(frozen=True)
class Criterion:
    """When a run counts as settled.

    Attributes:
        change: X, the most that the rise may change over the window, K.
        window: Y, s.
        remaining: Z, the most that may be still to come, K.
        within: A reading earlier than the window by at most this counts as inside, s: the time tolerance.
    """

    change: float = 2.0
    window: float = 900.0
    remaining: float = 1.0
    within: float = 30.0


@dataclass(frozen=True)
class Limited:
    """A size with its one-sided 95 % limits.

    Attributes:
        value: Never below zero, K.
        standard_uncertainty: K.
        low: Lower one-sided 95 % limit, K.
        high: Upper one-sided 95 % limit, K.
    """

    value: float
    standard_uncertainty: float
    low: float
    high: float


@dataclass(frozen=True)
class Settling:
    """What the end of a run says.

    Attributes:
        verdict: Settled, still rising, or too few readings to say.
        change: Change over the window; None with fewer than two readings in it.
        remaining: Rise still to come; None without a fit.
        last_half: Change over the last half of the run, where there is no fit; None with fewer than two
            readings in it.
    """

    verdict: Verdict
    change: Limited | None
    remaining: Limited | None
    last_half: Limited | None


@dataclass(frozen=True)
class WindowCheck:
    """What a schedule can see of a change over the window.

    Attributes:
        readings: Readings that fall into the window.
        standard_uncertainty: Of the change, K; infinite with fewer than two readings.
    """

    readings: int
    standard_uncertainty: float


def settling(
    times: Sequence[float],
    rises: Sequence[float],
    noise: float,
    criterion: Criterion,
    fit: HeatingFit | None = None,
) -> Settling:
    """Judge the end of a run.

    Settled where the upper limits of the change over the window and of the rise still to come are at most
    what the method allows; still rising where the lower limit of either exceeds it; else too few readings to
    say. Without a fit a run is settled only if, besides, the upper limit of its change over its last half is
    at most what may be still to come.

    Args:
        times: s, ascending.
        rises: K.
        noise: Standard deviation of a reading, K.
        criterion: The method's.
        fit: Any fit of the run that converged, printed or not, with θ₀ free.
    """
    raise NotImplementedError


def change_uncertainty(
    schedule: Sequence[float], mark: float, window: float, noise: float, within: float = 30.0
) -> WindowCheck:
    """What the readings of a schedule up to a mark can see of the change over the window before it."""
    raise NotImplementedError


def disturbed(rises: Sequence[float], noise: float) -> int | None:
    """Number of the first reading after a fall of more than 3·√2·noise that the next reading confirms."""
    raise NotImplementedError
