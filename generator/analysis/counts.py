"""A share from a count: k of n with its exact interval."""

from __future__ import annotations

from dataclasses import dataclass

from scipy.special import betaincinv


@dataclass(frozen=True)
class Share:
    """k of n, and the share of all that are like them.

    Attributes:
        k: How many.
        n: Of how many, at least one.
        low: Lower end of the share's interval, 0 to 1; 0 for none.
        high: Upper end, 0 to 1; 1 for all.
        level: Confidence of the two-sided interval.
    """

    k: int
    n: int
    low: float
    high: float
    level: float


def share(k: int, n: int, level: float = 0.95) -> Share:
    """The exact two-sided interval of a binomial share.

    C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404–413: each end leaves at most half of the rest to
    its side, by the quantiles of the beta distribution.

    Args:
        k: How many of them.
        n: Of how many.
        level: Confidence, between 0 and 1.

    Raises:
        ValueError: n is below 1, k is not from 0 to n, or the level is not between 0 and 1.
    """
    if n < 1 or not 0 <= k <= n:
        raise ValueError(f"{k} of {n} is no count")
    if not 0 < level < 1:
        raise ValueError(f"no interval at {level}")
    rest = (1 - level) / 2
    low = float(betaincinv(k, n - k + 1, rest)) if k > 0 else 0.0
    high = float(betaincinv(k + 1, n - k, 1 - rest)) if k < n else 1.0
    return Share(k, n, low, high, level)
