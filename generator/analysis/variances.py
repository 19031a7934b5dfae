"""Two spreads beside each other: how many times the one the other is, and how far off that may be."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy.special import fdtri

FEWEST = 6
"""So many values each side needs at least: of five each the interval spans a factor of nine. Our choice."""


@dataclass(frozen=True)
class SpreadRatio:
    """A standard deviation over another, and its 95 % interval."""

    ratio: float
    low: float
    high: float

    @property
    def shown(self) -> bool:
        """Whether the two are found to differ at 5 %."""
        return not self.low <= 1.0 <= self.high


def spread_ratio(before: Sequence[float], after: Sequence[float]) -> SpreadRatio | None:
    """How many times as much as one sample another one scatters, of independent normal values.

    The ratio of the variances over that of their expectations follows F (Snedecor; NIST/SEMATECH e-Handbook
    1.3.5.9, which tests at the same quantiles).

    Args:
        before: Values of one sample, in any unit.
        after: Values of the other, in the same.

    Returns:
        The ratio after over before; None below `FEWEST` values on a side, or where one does not scatter.
    """
    if min(len(before), len(after)) < FEWEST:
        return None
    first, second = _variance(before), _variance(after)
    if first <= 0 or second <= 0:
        return None
    found, dof = second / first, (len(after) - 1, len(before) - 1)
    low, high = (found / fdtri(*dof, share) for share in (0.975, 0.025))
    return SpreadRatio(math.sqrt(found), math.sqrt(low), math.sqrt(high))


def _variance(values: Sequence[float]) -> float:
    mean = math.fsum(values) / len(values)
    return math.fsum((each - mean) ** 2 for each in values) / (len(values) - 1)
