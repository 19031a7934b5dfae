"""What a planned comparison could tell, and in which order its runs are best done."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.analysis.interval import Parts
from generator.analysis.multiple import LEVEL
from generator.analysis.ranking import gap_seen
from generator.analysis.specimens import OWN_FROM, Spread

POWER = 0.8
"""How often a gap of the size told would be found."""

UP_TO = 10
"""Pieces of each item that a plan is told for."""


@dataclass(frozen=True)
class Planned:
    """A comparison with so many pieces of each item.

    Attributes:
        pieces: Of each item.
        gap: Smallest true difference between two items that is found in four cases of five, in the figure's
            unit.
        level: The level that the first pair is held at, the strictest of Holm's steps.
        dof: Degrees of freedom of the spread behind it.
    """

    pieces: int
    gap: float
    level: float
    dof: float


def comparison(items: int, pieces: int, spread: Spread, between: Parts) -> Planned:
    """The very test that a report's comparison makes, before there are readings.

    Two to four pieces of each: the spread pooled over all items, ν = items·(pieces − 1). Five and more: each
    side's own (Welch), for equal spreads ν = 2·(pieces − 1). One: the spread as the method declares it. All
    pairs together are held at 5 % (Holm), so that one pair alone is held at 5 % over their number.

    Args:
        items: To be compared, at least two.
        pieces: Of each, at least one.
        spread: Expected between pieces; for one piece of each the declared one.
        between: Instrument errors that do not cancel in a difference.

    Raises:
        ValueError: Fewer than two items or one piece.
    """
    if items < 2 or pieces < 1:
        raise ValueError(f"no comparison of {items} items with {pieces} pieces each")
    dof = _dof(items, pieces, spread)
    scatter = spread.deviation * math.sqrt(2 / pieces)
    level = LEVEL / math.comb(items, 2)
    if math.isinf(dof):
        error = replace(between, u_normal=math.hypot(between.u_normal, scatter))
    else:
        error = replace(between, u_t=scatter, dof=dof)
    return Planned(pieces, gap_seen(error, level, POWER), level, dof)


def _dof(items: int, pieces: int, spread: Spread) -> float:
    if pieces == 1:
        return spread.dof
    return items * (pieces - 1) if pieces < OWN_FROM else 2 * (pieces - 1)


def plans(items: int, spread: Spread, between: Parts, most: int = UP_TO) -> tuple[Planned, ...]:
    """The same for two pieces of each item up to `most`."""
    return tuple(comparison(items, pieces, spread, between) for pieces in range(2, most + 1))


def enough(found: Sequence[Planned], gap: float) -> Planned | None:
    """The plan with the fewest pieces that finds a gap; None where none of them does."""
    return next((each for each in found if each.gap <= gap), None)


def run_order(items: Sequence[str], pieces: Sequence[str], seed: str) -> tuple[tuple[str, str], ...]:
    """A random order of runs, the same for the same seed on any machine and version.

    A round a piece, each item once in each round (a randomized complete block design: NIST/SEMATECH
    e-Handbook 5.3.3.2), so that what drifts over the days falls on all items alike.

    Args:
        items: Names of the items.
        pieces: Names of the pieces, one a round.
        seed: Any text.

    Returns:
        Item and piece of each run.
    """

    def drawn(item: str, piece: str) -> str:
        return hashlib.sha256("\0".join((seed, piece, item)).encode()).hexdigest()

    return tuple(
        (item, piece) for piece in pieces for item in sorted(items, key=lambda each: drawn(each, piece))
    )
