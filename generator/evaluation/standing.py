"""Where items stand: those that completed by their pairs, those that stopped behind them."""

from __future__ import annotations

from collections.abc import Sequence

from generator.analysis.ranking import places
from generator.evaluation.findings import PairFinding
from generator.evaluation.items import LiveItem
from generator.evaluation.pieces import Piece, why_no_mean
from generator.evaluation.statements import Place

STOPPED = frozenset({"stopped", "over-range"})


def standings(items: Sequence[LiveItem], pairs: Sequence[PairFinding]) -> dict[str, Place]:
    """The place of each item that has one.

    Items that completed stand by the pairs that are shown. Those of which a piece stopped or went over range
    stand behind them all, outside the family of pairs: by the share of their pieces that did, then by the
    time of the first.

    Args:
        items: All items of a measure.
        pairs: Every pair of those that completed, the better one first.
    """
    ranked = [each.item for each in items if _ranks(each)]
    stopped = {each.item: _how_soon(each.counted) for each in items if _stopped(each)}
    if len(ranked) + len(stopped) < 2:
        return {}
    shown = [(pair.first, pair.second) for pair in pairs if pair.known and pair.shown]
    found = {
        item: Place(place.first, place.last, place.best or (len(ranked) == 1 and bool(stopped)))
        for item, place in places(ranked, shown).items()
    }
    for item, soon in stopped.items():
        ahead = sum(other < soon for other in stopped.values())
        not_behind = sum(other <= soon for other in stopped.values())
        found[item] = Place(len(ranked) + ahead + 1, len(ranked) + not_behind, best=False)
    return found


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
    """When runs of a piece stopped by its own doing or first went over range, s."""
    found = []
    for run, reduced in piece.runs:
        if run.stopped is not None and run.stopped.cause == "item":
            found.append(run.stopped.at.si)
        if reduced.why_not == "over-range":
            found.extend(each.time for each in reduced.readings if each.bound)
    return found
