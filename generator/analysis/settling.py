"""Whether a heating run has settled, and whether it was disturbed.

Times are in s, rises in K. The noise is the stated standard deviation of one reading of the rise.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from generator.analysis.line import Z95, slope_weights

if TYPE_CHECKING:
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
    within: float = 0.0


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
        times: s since the current first reached its set value, ascending.
        rises: K, one a time.
        noise: Standard deviation of a reading, K.
        criterion: The method's.
        fit: Any fit of the run that converged, printed or not, with θ₀ free.

    Raises:
        ValueError: The lengths differ.
    """
    change = _change(times, rises, noise, criterion.window, criterion.within)
    remaining, last_half = None, None
    if fit is not None:
        left = fit.remaining(times[-1])
        remaining = _limited(left.value, left.standard_uncertainty)
    elif times:
        last_half = _change(times, rises, noise, times[-1] / 2, 0.0)
    return Settling(_verdict(criterion, change, remaining, last_half), change, remaining, last_half)


def change_uncertainty(
    schedule: Sequence[float], mark: float, window: float, noise: float, within: float = 0.0
) -> WindowCheck:
    """What the readings of a schedule can see of the change over the window that ends at its mark.

    Args:
        schedule: Times of the readings, s.
        mark: The last that counts, s.
        window: Y, s.
        noise: Standard deviation of a reading, K.
        within: As in `Criterion`, s.
    """
    inside = [time for time in schedule if mark - window - within <= time <= mark]
    weights = slope_weights(inside)
    if weights is None:
        return WindowCheck(len(inside), math.inf)
    return WindowCheck(len(inside), math.hypot(*weights) * noise * window)


def disturbed(rises: Sequence[float], noise: float) -> int | None:
    """The first reading after a fall that cannot be noise.

    A fall from one reading to the next of more than 3·√2·noise, confirmed by the reading after: it, too, lies
    as far below.

    Args:
        rises: K, in order of time.
        noise: Standard deviation of a reading, K.

    Returns:
        Its number, from 0; None without such a fall.
    """
    least = 3 * math.sqrt(2) * noise
    for place in range(1, len(rises) - 1):
        before = rises[place - 1]
        if before - rises[place] > least and before - rises[place + 1] > least:
            return place
    return None


def _change(
    times: Sequence[float], rises: Sequence[float], noise: float, window: float, within: float
) -> Limited | None:
    """|Least-squares slope over the window at the end| × window."""
    since = times[-1] - window - within if times else 0.0
    inside = [(time, rise) for time, rise in zip(times, rises, strict=True) if time >= since]
    weights = slope_weights([time for time, _ in inside])
    if weights is None:
        return None
    slope = math.fsum(weight * rise for weight, (_, rise) in zip(weights, inside, strict=True))
    return _limited(slope * window, math.hypot(*weights) * noise * window)


def _limited(value: float, u: float) -> Limited:
    size = abs(value)
    return Limited(size, u, size - Z95 * u, size + Z95 * u)


def _verdict(
    criterion: Criterion, change: Limited | None, remaining: Limited | None, last_half: Limited | None
) -> Verdict:
    if change is not None and change.low > criterion.change:
        return "still-rising"
    if remaining is not None and remaining.low > criterion.remaining:
        return "still-rising"
    to_come = remaining or last_half
    if change is None or to_come is None:
        return "too-few"
    settled = change.high <= criterion.change and to_come.high <= criterion.remaining
    return "settled" if settled else "too-few"
