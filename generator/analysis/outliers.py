"""Whether one of several pieces stands out: Grubbs' test, and what is said where there are too few for it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy.stats import t as student

from generator.analysis.specimens import own_spread, pooled_spread

FEWEST = 6
"""Below this number of pieces there is no test: almost anything passes it."""

DIFFERS = 4.0
"""So many standard deviations from the others a piece is said to differ without a test; our choice."""

PAIR = 2
"""Of two pieces either may be the one that differs."""

FEWEST_ELSE = 4
"""Degrees of freedom that the other pieces must give for that; our choice."""


@dataclass(frozen=True)
class Outlying:
    """The piece farthest from the mean.

    Attributes:
        place: Its place in the values, from 0.
        statistic: G, its distance from the mean over the standard deviation.
        critical: What G exceeds in 5 % of samples of a normal law.
    """

    place: int
    statistic: float
    critical: float

    @property
    def stands_out(self) -> bool:
        """Whether it is flagged. It is never dropped for that."""
        return self.statistic > self.critical


def critical_value(n: int, level: float = 0.05) -> float:
    """What the largest distance from the mean, over s, exceeds with a probability, on either side.

    (n − 1)/√n·√(t²/(n − 2 + t²)) with t the upper level/(2n) point of n − 2 degrees of freedom (F. E. Grubbs,
    Technometrics 11 (1969) 1–21; NIST/SEMATECH e-Handbook 1.3.5.17.1, two-sided).

    Raises:
        ValueError: Fewer than three values.
    """
    if n < 3:
        raise ValueError(f"no outlier among {n}")
    t = float(student.isf(level / (2 * n), n - 2))
    return (n - 1) / math.sqrt(n) * math.sqrt(t * t / (n - 2 + t * t))


def grubbs(values: Sequence[float], resolution: float = 0.0) -> Outlying | None:
    """The value farthest from the mean, held against Grubbs' two-sided limit of 5 %.

    Args:
        values: One a piece.
        resolution: Smallest step of a value; a scatter that is no larger shows steps, not pieces.

    Returns:
        None for fewer than six pieces, and where they scatter no more than the resolution.
    """
    n = len(values)
    if n < FEWEST:
        return None
    spread = own_spread(values)
    if spread is None or spread.deviation <= resolution:
        return None
    mean = math.fsum(values) / n
    place = max(range(n), key=lambda each: (abs(values[each] - mean), -each))
    return Outlying(place, abs(values[place] - mean) / spread.deviation, critical_value(n))


def differing(items: Sequence[Sequence[float]], resolution: float = 0.0) -> tuple[int | None, ...]:
    """Of items with too few pieces for a test, the piece that differs from the others.

    Its distance from the mean of the item's others is at least four times √(1 + 1/(n − 1))·s, where s is
    pooled over all pieces but itself: a deleted residual (D. A. Belsley, E. Kuh, R. E. Welsch, Regression
    Diagnostics, 1980, 2.1). The four is our choice, and no level is claimed.

    Args:
        items: Values of the pieces of each item.
        resolution: Smallest step of a value; a distance of one step differs in nothing.

    Returns:
        For each item the place of that piece; None where there is none, below three pieces, and from six on.
    """
    return tuple(_differing(items, each, resolution) for each in range(len(items)))


def _differing(items: Sequence[Sequence[float]], of: int, resolution: float) -> int | None:
    values = items[of]
    if not PAIR < len(values) < FEWEST:
        return None
    mean = math.fsum(values) / len(values)
    place = max(range(len(values)), key=lambda each: (abs(values[each] - mean), -each))
    rest = [*values[:place], *values[place + 1 :]]
    spread = pooled_spread([rest, *(each for other, each in enumerate(items) if other != of)])
    if spread is None or spread.dof < FEWEST_ELSE:
        return None
    apart = abs(values[place] - math.fsum(rest) / len(rest))
    least = DIFFERS * math.sqrt(1 + 1 / len(rest)) * spread.deviation
    return place if apart > resolution and apart >= least else None
