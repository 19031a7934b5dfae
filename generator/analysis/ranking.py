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
