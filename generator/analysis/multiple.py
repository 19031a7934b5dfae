"""Several comparisons held together, so that a report of equal items claims a difference in few cases."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

LEVEL = 0.05
"""Probability that a report of equal items shows any difference."""


@dataclass(frozen=True)
class Held:
    """One comparison among several.

    Attributes:
        shown: Whether a difference is shown.
        level: The level that its interval is told at: an interval at this level excludes zero exactly where
            the difference is shown.
    """

    shown: bool
    level: float


def holm(p_values: Sequence[float], level: float = LEVEL) -> tuple[Held, ...]:
    """Holm's step-down procedure (S. Holm, Scand. J. Statist. 6 (1979) 65–70).

    The k-th smallest of m p-values is held against level/(m − k + 1); from the first that is larger on, none
    is shown, and all of those are told at the level of that first one.

    Args:
        p_values: Of each comparison, two-sided.
        level: For all of them together.

    Returns:
        One a comparison, in the order given.
    """
    m = len(p_values)
    held = [Held(shown=False, level=level)] * m
    shown, at = True, level
    for place, index in enumerate(sorted(range(m), key=lambda each: (p_values[each], each))):
        if shown:
            at = level / (m - place)
            shown = p_values[index] <= at
        held[index] = Held(shown, at)
    return tuple(held)
