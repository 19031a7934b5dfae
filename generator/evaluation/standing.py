"""Where items stand: those that completed by their pairs, those that stopped behind them."""

from __future__ import annotations

from collections.abc import Sequence

from generator.analysis.ranking import places
from generator.evaluation.findings import PairFinding
from generator.evaluation.items import LiveItem
from generator.evaluation.pieces import OUT_OF_RANGE, Piece, why_no_mean
from generator.evaluation.statements import Better, Place
from generator.evaluation.why_not import WhyNot

STOPPED = frozenset({"stopped", *OUT_OF_RANGE})
BEYOND: dict[Better, WhyNot] = {"higher": "over-range", "lower": "under-range"}
"""Which end of a meter's range lies where figures are better."""


def standings(
    items: Sequence[LiveItem], pairs: Sequence[PairFinding], better: Better | None
) -> dict[str, Place]:
    """The place of each item that has one.

    Items that completed stand by the pairs that are shown. Those of which a piece stopped, or left the
    meter's range where figures are worse, stand behind them all, outside the family of pairs: by the share of
    their pieces that did, then by the time of the first. A piece that left the range where figures are better
    would stand before them all, nobody knows how far: then nothing has a place.

    Args:
        items: All items of a measure.
        pairs: Every pair of those that completed, the smaller figure first.
        better: Which way is better; where neither is, nothing has a place.
    """
    if better is None or any(why_no_mean(each.counted) == BEYOND[better] for each in items):
        return {}
    ranked = [each.item for each in items if _ranks(each)]
    stopped = {each.item: _how_soon(each.counted) for each in items if _stopped(each)}
    if len(ranked) + len(stopped) < 2:
        return {}
    shown = [_better_first(pair, better) for pair in pairs if pair.known and pair.shown]
    found = {
        item: Place(place.first, place.last, place.best or (len(ranked) == 1 and bool(stopped)))
        for item, place in places(ranked, shown).items()
    }
    for item, soon in stopped.items():
        ahead = sum(other < soon for other in stopped.values())
        not_behind = sum(other <= soon for other in stopped.values())
        found[item] = Place(len(ranked) + ahead + 1, len(ranked) + not_behind, best=False)
    return found


def _better_first(pair: PairFinding, better: Better) -> tuple[str, str]:
    return (pair.first, pair.second) if better == "lower" else (pair.second, pair.first)


def _ranks(live: LiveItem) -> bool:
    """Whether an item can be told from others: its spread is known, and it is warm enough."""
    return live.figure is not None and live.figure.spread is not None and not live.warming


def _stopped(live: LiveItem) -> bool:
    return why_no_mean(live.counted) in STOPPED


def _how_soon(pieces: Sequence[Piece]) -> tuple[float, float]:
    """Share of the pieces that stopped, and minus the time of the first: the smaller the better."""
    times = [min(found) for piece in pieces if (found := list(_ends(piece)))]
    return len(times) / len(pieces), -min(times)


def _ends(piece: Piece) -> list[float]:
    """When runs of a piece stopped by its own doing or first went out of range, s; 0 without a time."""
    found = []
    for run, reduced in piece.runs:
        if run.stopped is not None and run.stopped.cause == "item":
            found.append(run.stopped.at.si)
        if reduced.why_not in OUT_OF_RANGE:
            found.extend([each.time for each in reduced.readings if each.bound] or [0.0])
    return found
