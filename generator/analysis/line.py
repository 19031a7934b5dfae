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
