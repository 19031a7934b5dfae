"""Places from the pairs that are shown, and the gap that a comparison would find."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri, stdtrit

from generator.analysis.interval import Parts, half_width, quantile
from generator.analysis.mixture import given_spreads, mixed, t_as_normals


@dataclass(frozen=True)
class Place:
    """Where an item stands, as a range.

    Attributes:
        first: 1 + number of items shown better.
        last: Number of items less those shown worse.
        best: Whether it is shown better than every other, of which there is at least one.
    """

    first: int
    last: int
    best: bool


def places(items: Sequence[str], shown: Collection[tuple[str, str]]) -> dict[str, Place]:
    """The place of each item, from pairs alone.

    Args:
        items: Ids of all that are ranked.
        shown: Pairs (better, worse) whose difference is shown.

    Returns:
        By item, in the order given.

    Raises:
        ValueError: A pair names an item that is not ranked.
    """
    strangers = {each for pair in shown for each in pair} - set(items)
    if strangers:
        raise ValueError(f"not ranked: {sorted(strangers)}")
    others = len(items) - 1
    found = {}
    for item in items:
        better = len({first for first, second in shown if second == item})
        worse = len({second for first, second in shown if first == item})
        found[item] = Place(1 + better, len(items) - worse, best=worse == others > 0)
    return found


def gap_seen(error: Parts, level: float, power: float = 0.8, reach: float | None = None) -> float:
    """Smallest true gap that the comparison finds, the right way round, with a given power.

    The comparison shows a difference beyond c, the half-width at its level. c rests on a spread that is
    estimated anew with each set of pieces: over its χ² the probability of d > c is added up. c² is taken as
    the square of Student's part, which follows the estimate, and a rest that does not; for a spread alone
    this is the non-central t.

    Args:
        error: Of the difference: what cancels is out of it, the spread is in it.
        level: Two-sided, between 0 and 1: the pair's own.
        power: Probability that the gap is shown, above the level.
        reach: The half-width at its level, where it is known.
    """
    whole = half_width(error, 1 - level) if reach is None else reach
    if error.u_t == 0:
        return whole + quantile(power, error)
    by_spread = error.u_t * float(stdtrit(error.dof, 1 - level / 2))
    rest = max(0.0, whole**2 - by_spread**2)
    weights, factors = t_as_normals(error.dof)
    needed = np.sqrt(rest + (by_spread / factors) ** 2)
    drawn_u = math.hypot(error.u_normal, error.u_t)
    law = given_spreads(error.half_width, np.full(len(needed), drawn_u))
    gap, low, high = whole + float(ndtri(power)) * drawn_u, 0.0, math.inf
    for _ in range(100):
        found, density = mixed(weights, law(gap - needed))
        low, high = (low, gap) if found > power else (gap, high)
        after = gap - (found - power) / density if density > 0 else math.nan
        if abs(after - gap) <= 1e-9 * whole:
            return after
        if not low < after < high:
            after = (low + high) / 2 if math.isfinite(high) else 2 * gap
        gap = after
    raise ArithmeticError(f"no gap is seen at {level} with {error}")
