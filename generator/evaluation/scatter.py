"""What pieces tell beside their mean: one that lies away, an item that scatters more, pieces to come."""

from __future__ import annotations

from collections.abc import Sequence

from generator.analysis.future import Below, most_pieces, next_piece
from generator.analysis.interval import error_of
from generator.analysis.outliers import differing, grubbs
from generator.analysis.scatter import scatters_more
from generator.analysis.uncertainty import Ledger
from generator.evaluation.gathered import values_of
from generator.evaluation.items import LiveItem
from generator.evaluation.spreads import Ahead, Apart, Loosest
from generator.evaluation.statements import Better

WORST_SIDE: dict[Better, Below] = {"lower": "below", "higher": "above"}
"""On which side of a limit a buyer wants most pieces to lie."""


def ahead(ledger: Ledger, live: LiveItem, better: Better | None) -> Ahead | None:
    """What pieces of the same purchase that were not tested may be like; None below three pieces.

    Args:
        ledger: The report's inputs.
        live: The item.
        better: Which way figures are better; a limit for most pieces is told on the other side.
    """
    figure = live.figure
    if figure is None or figure.spread is None:
        return None
    mean, shared, spread = figure.number.x, error_of(ledger, figure.number), figure.spread
    following = next_piece(mean, shared, spread, figure.pieces)
    if following is None:
        return None
    side = WORST_SIDE[better] if better is not None else None
    most = most_pieces(mean, shared, spread, figure.pieces, side) if side is not None else None
    return Ahead(following, most)


def apart(items: Sequence[LiveItem]) -> dict[str, Apart]:
    """The piece of each item that lies away from its others, by item: flagged, and never dropped.

    Grubbs' test from six pieces on; of fewer, one that differs from the others, without a test.
    """
    values, resolution = [values_of(each) for each in items], _resolution(items)
    few = differing(values, resolution)
    found = {}
    for live, own, place in zip(items, values, few, strict=True):
        letters = [piece.specimen for piece in live.counted if piece.number is not None]
        tested = grubbs(own, resolution)
        if tested is not None and tested.stands_out:
            found[live.item] = Apart(letters[tested.place], True, tested.statistic, tested.critical)
        elif place is not None:
            found[live.item] = Apart(letters[place], tested=False)
    return found


def loosest(items: Sequence[LiveItem]) -> Loosest | None:
    """The item that scatters more than the others; None without one."""
    found = scatters_more([values_of(each) for each in items], _resolution(items))
    if found is None:
        return None
    return Loosest(items[found.place].item, found.deviation, found.others, found.ratio, found.critical)


def _resolution(items: Sequence[LiveItem]) -> float:
    """The largest step of a figure of any piece."""
    pieces = (piece for live in items for piece in live.counted)
    return max((piece.counted.resolution for piece in pieces if piece.counted is not None), default=0.0)
