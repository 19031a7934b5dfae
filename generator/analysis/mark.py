"""Times of a heating run: a mark between two readings, the mark that runs share, the time to a limit.

Times are in s, rises in K.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from generator.analysis.fit import HeatingFit
from generator.analysis.heating import NoReadingAtMark
from generator.analysis.uncertainty import Key, Ledger, Uncertain, rectangle, scatter, weighted


@dataclass(frozen=True)
class Between:
    """The rise at a mark that lies between two readings.

    Attributes:
        rise: K.
        by: The shape of the fit between the two readings, or a straight line corrected for its curvature.
        correction: What the shape or the curvature adds to the straight line, K.
    """

    rise: Uncertain
    by: Literal["fit", "line"]
    correction: float


@dataclass(frozen=True)
class TimeTo:
    """When a rise reaches a limit.

    Attributes:
        time: s.
        by: Between two readings of the run, or by its fit past the last.
    """

    time: float
    by: Literal["readings", "fit"]


def between_readings(
    ledger: Ledger,
    times: Sequence[float],
    risen: Sequence[Uncertain | None],
    mark: float,
    *,
    key: Key,
    fit: HeatingFit | None = None,
) -> Between:
    """The rise at a mark between two readings.

    Args:
        ledger: Where the input is made.
        times: s, ascending.
        risen: Rise in K at each; None where there is none.
        mark: s.
        key: Identity of the run and the measure.
        fit: A curve that the readings follow. Between the two neighbours its shape is taken, with what the
            uncertainty of τ makes of it; without one a straight line, corrected for the curvature that the
            readings around show, ± the whole correction, rectangular.

    Raises:
        NoReadingAtMark: The mark lies before the first reading or after the last, or without a fit there are
            fewer than three readings, which show no curvature.
    """
    known = [(time, rise) for time, rise in zip(times, risen, strict=True) if rise is not None]
    after = next((place for place, (time, _) in enumerate(known) if time >= mark), 0)
    if after == 0 or (fit is None and len(known) < 3):
        nearest = min((time for time, _ in known), key=lambda time: abs(time - mark), default=None)
        raise NoReadingAtMark(mark, 0.0, nearest)
    if fit is not None:
        return _by_shape(ledger, known[after - 1 : after + 1], mark, key, fit)
    return _by_line(ledger, known, after, mark, key)


def time_to(
    times: Sequence[float], rises: Sequence[float], limit: float, fit: HeatingFit | None = None
) -> TimeTo | None:
    """First time at which the rise reaches a limit; None where it does not, or nothing says when.

    Args:
        times: s, ascending.
        rises: K, one a time.
        limit: K.
        fit: Asked past the last reading, and only where the lower 95 % limit of θ∞ exceeds the limit.
    """
    points = list(zip(times, rises, strict=True))
    if points and points[0][1] >= limit:
        return TimeTo(points[0][0], "readings")
    for (t0, low), (t1, high) in pairwise(points):
        if high >= limit:
            return TimeTo(t0 + (limit - low) / (high - low) * (t1 - t0), "readings")
    if fit is None or not points or not fit.settled - fit.settled_half_width > limit:
        return None
    left = (fit.settled - limit) / (fit.settled - fit.start) if fit.settled > fit.start else 1.0
    # The curve may have reached it by now where a noisy last reading has not.
    return TimeTo(max(points[-1][0], -fit.tau * math.log(left)), "fit")


def shared_mark(
    mark: float, ends: Sequence[float], marks: Sequence[float], within: float = 0.0
) -> float | None:
    """The longest mark that all completed runs reach.

    Args:
        mark: The method's, s: none is longer.
        ends: Time of the last reading of each completed run, s.
        marks: Other times that may serve, s, above 0: those of the schedule.
        within: Time tolerance, s: a run that ends earlier by at most this reaches a mark.

    Returns:
        None where no mark is reached by all, or there is no run.
    """
    if not ends:
        return None
    reached = min(ends) + within
    return max((each for each in (*marks, mark) if 0 < each <= min(mark, reached)), default=None)


def _by_shape(
    ledger: Ledger, ends: Sequence[tuple[float, Uncertain]], mark: float, key: Key, fit: HeatingFit
) -> Between:
    (t0, low), (t1, high) = ends
    past, whole = mark - t0, t1 - t0
    fade, fade_whole = math.exp(-fit.rate * past), math.exp(-fit.rate * whole)
    share = (1 - fade) / (1 - fade_whole)
    # ∂share/∂rate.
    steep = (past * fade - share * whole * fade_whole) / (1 - fade_whole)
    by_tau = abs((high.x - low.x) * steep) * fit.rate_u
    entry = scatter((*key, "shape"), "shape between two readings", by_tau, "K", "run")
    rise = weighted((1 - share, share, 1.0), (low, high, ledger.input(entry)))
    return Between(rise, "fit", (share - past / whole) * (high.x - low.x))


def _by_line(
    ledger: Ledger, known: Sequence[tuple[float, Uncertain]], after: int, mark: float, key: Key
) -> Between:
    """The mean of the parabolas through the two neighbours and the reading before or after them."""
    t0, t1 = known[after - 1][0], known[after][0]
    share = (mark - t0) / (t1 - t0)
    weights = [0.0] * len(known)
    weights[after - 1], weights[after] = 1 - share, share
    thirds = [place for place in (after - 2, after + 1) if 0 <= place < len(known)]
    correction = 0.0
    for third in thirds:
        # Newton's form: the second divided difference × (t − t0)·(t − t1).
        three = (after - 1, after, third)
        for place in three:
            apart = math.prod(known[place][0] - known[other][0] for other in three if other != place)
            part = (mark - t0) * (mark - t1) / apart / len(thirds)
            weights[place] += part
            correction += part * known[place][1].x
    entry = rectangle((*key, "curvature"), "curvature between two readings", abs(correction), "K", "run")
    numbers = [*(rise for _, rise in known), ledger.input(entry)]
    return Between(weighted([*weights, 1.0], numbers), "line", correction)
