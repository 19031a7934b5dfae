"""The least-squares slope of a straight line, as weights of its readings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import mul

Z95 = 1.6448536269514722
"""95 % quantile of the normal law: of a one-sided limit with a stated noise."""


def slope_weights(times: Sequence[float]) -> tuple[float, ...] | None:
    """Weights cᵢ = (tᵢ − t̄)/Σ(t − t̄)², so that the slope is Σcᵢ·yᵢ.

    With independent readings of standard deviation σᵢ the slope has u² = Σ(cᵢ·σᵢ)², which for one σ is
    σ²/Σ(t − t̄)².

    Args:
        times: In any unit and order.

    Returns:
        One a time; None with fewer than two unlike times.
    """
    if not times:
        return None
    middle = math.fsum(times) / len(times)
    off = [time - middle for time in times]
    square = math.fsum(map(mul, off, off))
    return tuple(each / square for each in off) if square > 0 else None


def scatter_about_line(times: Sequence[float], values: Sequence[float]) -> float | None:
    """Standard deviation of readings about their least-squares line: √(Σr²/(n − 2)), GUM H.3.2.

    Args:
        times: In any unit.
        values: One a time.

    Returns:
        In the unit of the values; None with fewer than three readings or at one time only.
    """
    weights = slope_weights(times)
    n = len(values)
    if weights is None or n < 3:
        return None
    slope = math.fsum(map(mul, weights, values))
    middle_time, middle = math.fsum(times) / n, math.fsum(values) / n
    off = (value - middle - slope * (time - middle_time) for time, value in zip(times, values, strict=True))
    return math.sqrt(math.fsum(each * each for each in off) / (n - 2))
