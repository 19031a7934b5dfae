"""Whether one of several pieces stands out: Grubbs' test."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy.stats import t as student

from generator.analysis.specimens import own_spread

FEWEST = 6
"""Below this number of pieces there is no test: almost anything passes it."""


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
