"""Where a part may be fitted: its temperature in air from cool to hot, and what that says against a limit."""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.evaluation.against import outcome_of, piece_against, warmest
from generator.evaluation.ground import Ground
from generator.evaluation.pieces import Piece
from generator.evaluation.statements import InAir, PieceAgainst, Warmest

AIRS = (20.0, 30.0, 40.0, 50.0, 60.0)
"""Air that temperatures are told for, °C: the same in every report; our choice."""


def in_airs(ground: Ground, pieces: Sequence[Piece]) -> tuple[InAir, ...]:
    """The temperature of an item in air of some temperatures, the reference ambient among them.

    Args:
        ground: What statements are made on; a point gives its figures.
        pieces: The pieces of the stock that stands.

    Returns:
        One an air, ascending; none for a kind without a point, or an item without pieces.
    """
    if not ground.point or not pieces:
        return ()
    return tuple(_in_air(ground, pieces, air) for air in airs(ground.reference))


def airs(reference: float | None) -> tuple[float, ...]:
    """The fixed airs, and the reference ambient where it is none of them."""
    if reference is None or any(math.isclose(reference, each, abs_tol=1e-6) for each in AIRS):
        return AIRS
    return tuple(sorted((*AIRS, reference)))


def _in_air(ground: Ground, pieces: Sequence[Piece], air: float) -> InAir:
    reference = ground.reference
    told = {
        number: [piece_against(ground, piece, limit.value.si, air) for piece in pieces]
        for number, limit in ground.limits
        if limit.kind == "temperature" and ground.fits(limit)
    }
    return InAir(
        air,
        reference is not None and math.isclose(reference, air, abs_tol=1e-6),
        _warmest_of(next(iter(told.values()))) if told else warmest(ground, pieces, air),
        tuple((number, *outcome_of(each)) for number, each in told.items()),
    )


def _warmest_of(told: Sequence[PieceAgainst]) -> Warmest | None:
    known = [
        Warmest(each.specimen, each.value, each.half_width)
        for each in told
        if each.value is not None and each.half_width is not None
    ]
    return max(known, key=lambda each: each.value, default=None)
