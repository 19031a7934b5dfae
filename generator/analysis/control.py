"""Whether a rig is still the same: the control chart of individuals."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

D2 = 1.128
"""d₂: the mean range of two values of a normal law over its standard deviation."""

FEWEST = 8
"""Results that limits are told from; our choice, no source."""


@dataclass(frozen=True)
class Limits:
    """Centre and limits of a control chart, in the unit of its results.

    Attributes:
        centre: Mean of all results.
        low: centre − 3·MR/1.128.
        high: centre + 3·MR/1.128.
        moving_range: MR, mean distance of a result from the one before.
    """

    centre: float
    low: float
    high: float
    moving_range: float

    def beyond(self, value: float) -> bool:
        """Whether a result lies outside the limits."""
        return not self.low <= value <= self.high


def individuals(values: Sequence[float]) -> Limits | None:
    """Limits of three standard deviations from the moving range of single results.

    NIST/SEMATECH e-Handbook 6.3.2.2 (individuals control charts); ISO 7870-2:2013.

    Args:
        values: Results in order of time.

    Returns:
        None for fewer than eight, and for results that never differ.
    """
    if len(values) < FEWEST:
        return None
    moving = math.fsum(abs(after - before) for before, after in pairwise(values)) / (len(values) - 1)
    if moving == 0:
        return None
    centre, reach = math.fsum(values) / len(values), 3 * moving / D2
    return Limits(centre, centre - reach, centre + reach, moving)
