"""A first-order lag on a record: what a body of one time constant has felt of it.

Between its readings the record is a straight line. The lag τ·y' = x − y starts at the record's first value
and is linear in the readings, so it is told as a weight a reading: the weights apply to plain and to
uncertain numbers alike, and add up to 1.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from operator import le, lt

from generator.analysis.line import scatter_about_line
from generator.analysis.uncertainty import Key, Ledger, Uncertain, scatter, weighted


def lag_weights(times: Sequence[float], tau: float, at: float) -> tuple[float, ...]:
    """Weight of each reading in the lagged record at a time.

    Over a segment of length h, with q = h/τ and φ = (1 − e^(−q))/q, a straight line from x₀ to x₁ takes the
    lag from y₀ to y₀·e^(−q) + x₀·(φ − e^(−q)) + x₁·(1 − φ).

    Args:
        times: s, ascending, at least one.
        tau: Time constant in s, from 0 (no lag: the record itself) to infinite (its first value).
        at: Time in s, within the record.

    Returns:
        One a reading.

    Raises:
        ValueError: The times are not ascending, τ is below 0, or `at` is outside the record, which is never
            extended.
    """
    _refuse(times, tau, (at,))
    weights = [0.0] * len(times)
    kept = 1.0
    # From the last segment backwards: what a segment adds fades over all that come after it.
    for place in reversed(range(bisect_left(times, at))):
        t0, t1 = times[place], times[place + 1]
        end = min(t1, at)
        fade, mean = _segment((end - t0) / tau if tau > 0 else math.inf)
        share = (end - t0) / (t1 - t0)
        weights[place] += kept * (mean - fade + (1 - mean) * (1 - share))
        weights[place + 1] += kept * (1 - mean) * share
        kept *= fade
    weights[0] += kept
    return tuple(weights)


def lagged(
    times: Sequence[float], values: Sequence[Uncertain], tau: float, at: Sequence[float] | None = None
) -> tuple[Uncertain, ...]:
    """The lagged record at some times.

    Args:
        times: s, ascending.
        values: One a time.
        tau: Time constant in s.
        at: Times in s within the record; its own times where None.

    Raises:
        ValueError: As `lag_weights`; or the two lengths differ.
    """
    if len(times) != len(values):
        raise ValueError(f"{len(times)} times and {len(values)} values")
    return tuple(weighted(lag_weights(times, tau, each), values) for each in (times if at is None else at))


def lag_series(
    times: Sequence[float], values: Sequence[float], tau: float, at: Sequence[float]
) -> tuple[float, ...]:
    """The lagged record of plain numbers at many times, in one pass.

    Args:
        times: s, ascending.
        values: One a time.
        tau: Time constant in s.
        at: Times in s within the record, ascending.

    Raises:
        ValueError: As `lag_weights`; or `at` is not ascending.
    """
    _refuse(times, tau, at)
    found: list[float] = []
    felt, place = values[0], 0
    for time in at:
        while place + 1 < len(times) and times[place + 1] <= time:
            felt = _after(felt, values[place], values[place + 1], times[place + 1] - times[place], tau)
            place += 1
        if time == times[place]:
            found.append(felt)
            continue
        share = (time - times[place]) / (times[place + 1] - times[place])
        reached = values[place] * (1 - share) + values[place + 1] * share
        found.append(_after(felt, values[place], reached, time - times[place], tau))
    return tuple(found)


FEWEST = 5
"""Below this number of readings of the air its wandering is not told from them."""

STILL = 1e-9
"""Below this scatter, K, readings lie on a line but for the last bits of the arithmetic."""


def wandering(ledger: Ledger, key: Key, times: Sequence[float], values: Sequence[float]) -> Uncertain:
    """What a wandering air leaves in a rise, K: nought, with the scatter of its readings about a line.

    A steady drift is followed by the lag to the end. What goes up and down is not, since no item has one time
    constant alone: as far as the air left its line it is not known how far the item went with it (our choice;
    by simulation it makes the difference of two items hold in 95 to 96 % where it held in 92 to 94 %).

    Args:
        ledger: Where the input is made.
        key: Identity of the run.
        times: Of the air's readings up to the mark.
        values: The readings, °C.

    Returns:
        An error of the run; exactly nought with fewer than five readings.
    """
    scatter_of_air = scatter_about_line(times, values) if len(values) >= FEWEST else None
    if scatter_of_air is None or scatter_of_air < STILL:
        return ledger.exact(0.0)
    words, dof = "wandering of the air", len(values) - 2
    source = f"{len(values)} readings about a line"
    return ledger.input(scatter((*key, "air"), words, scatter_of_air, "K", "run", dof=dof, source=source))


def _after(felt: float, x0: float, x1: float, length: float, tau: float) -> float:
    """The lag at the end of a segment."""
    fade, mean = _segment(length / tau if tau > 0 else math.inf)
    return felt * fade + x0 * (mean - fade) + x1 * (1 - mean)


def _refuse(times: Sequence[float], tau: float, at: Sequence[float]) -> None:
    if not times or not all(map(lt, times, times[1:])) or not tau >= 0:
        raise ValueError("the times of the record are not ascending, or τ is below 0")
    for time in at:
        if not times[0] <= time <= times[-1]:
            raise ValueError(f"{time:g} s is outside the record")
    if not all(map(le, at, at[1:])):
        raise ValueError("the times asked for are not ascending")


def _segment(q: float) -> tuple[float, float]:
    """e^(−q) and φ = (1 − e^(−q))/q."""
    if math.isinf(q):
        return 0.0, 0.0
    return math.exp(-q), (-math.expm1(-q) / q if q > 0 else 1.0)
