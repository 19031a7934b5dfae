"""Whether one item scatters more than the others, so that a pooled spread tells too little of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scipy.stats import f as fisher

from generator.analysis.specimens import own_spread, pooled_spread

LEVEL = 0.05
"""Probability that any of several items that scatter alike is told to scatter more."""


@dataclass(frozen=True)
class Scattered:
    """The item whose spread exceeds that of the others.

    Attributes:
        place: Its place among the items, from 0.
        deviation: Its own standard deviation.
        others: That of all others together.
        ratio: Its variance over theirs, F.
        critical: What F exceeds in 5 % of cases where all items scatter alike.
    """

    place: int
    deviation: float
    others: float
    ratio: float
    critical: float


def critical_ratio(dof: float, others: float, items: int, level: float = LEVEL) -> float:
    """What the largest of several variances, over the variance of the others, exceeds with a probability.

    The upper level/N point of F with the item's and the others' degrees of freedom. For items of equally many
    pieces that is Cochran's test, C = F/(F + N − 1) (ISO 5725-2, 7.3.3); for unequal numbers it is R. U. E.
    't Lam's G test (Analytica Chimica Acta 659 (2010) 68–84).

    Args:
        dof: Degrees of freedom of the item's variance.
        others: Of the others' together.
        items: N, how many variances there are.
        level: For all of them together.
    """
    return float(fisher.isf(level / items, dof, others))


def scatters_more(items: Sequence[Sequence[float]], resolution: float = 0.0) -> Scattered | None:
    """The item that scatters more than the others, at 5 %; the one that exceeds its limit by most.

    Args:
        items: Values of the pieces of each item; those with fewer than two take no part.
        resolution: Smallest step of a value: others that fall on one step are not steadier than a step's
            standard deviation, resolution/√12.

    Returns:
        None where none does, and for fewer than two items of two pieces.
    """
    known = [place for place, values in enumerate(items) if len(values) > 1]
    found = []
    for place in known:
        own = own_spread(items[place])
        rest = pooled_spread([items[other] for other in known if other != place])
        if own is None or rest is None:
            return None
        others = max(rest.deviation, resolution / 12**0.5)
        if others == 0:
            continue
        ratio = (own.deviation / others) ** 2
        limit = critical_ratio(own.dof, rest.dof, len(known))
        if ratio > limit:
            found.append(Scattered(place, own.deviation, others, ratio, limit))
    return max(found, key=lambda each: (each.ratio / each.critical, -each.place), default=None)
