"""Places from the pairs that are shown, and the gap that a comparison would find."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from generator.analysis.interval import Parts


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
    """The place of each item.

    Args:
        items: Ids of all that are ranked.
        shown: Pairs (better, worse) whose difference is shown.

    Raises:
        ValueError: A pair names an item that is not ranked.
    """
    raise NotImplementedError


def gap_seen(error: Parts, level: float, power: float = 0.8) -> float:
    """Smallest true gap that the comparison finds with a given power.

    Args:
        error: Of the difference: what cancels is out of it, the spread is in it.
        level: Two-sided, between 0 and 1: the pair's own.
        power: Probability that the gap is shown.
    """
    raise NotImplementedError
