"""A piece's figure as the mean of its runs: within each termination first, then over the terminations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.analysis.repeats import Repeats, mean_of_repeats
from generator.analysis.specimens import Spread, own_spread, pooled_spread, spread_for
from generator.analysis.uncertainty import NEW_IN_EACH_RUN, Uncertain, total
from generator.evaluation.items import LiveItem
from generator.evaluation.pieces import Piece, termination_of, why_no_figure
from generator.evaluation.reduced import Reduced
from generator.evaluation.work import Work


@dataclass(frozen=True)
class Level:
    """What a piece's mean is over.

    Attributes:
        what: "terminations" where it has several, else "runs".
        numbers: Their figures: of a termination the mean of its runs.
        resolution: Smallest step of a run.
    """

    what: str
    numbers: tuple[Uncertain, ...]
    resolution: float

    @property
    def values(self) -> list[float]:
        """Their figures as plain numbers."""
        return [each.x for each in self.numbers]


def averaged(work: Work, items: Sequence[LiveItem]) -> list[LiveItem]:
    """The items with each piece's figure the mean of its runs.

    Of two pieces and more, the spread between them holds what is new in each run. A piece told by itself has
    the scatter of its own terminations, or of its runs where it has one termination: pooled over the pieces
    below five of them, as the spread between pieces is.

    Args:
        work: The measure.
        items: Its items, their pieces without figures yet.
    """
    counted = [piece for live in items for piece in live.counted]
    levels = [level for level in map(_level, counted) if level is not None]
    pooled = {
        what: pooled_spread([level.values for level in levels if level.what == what])
        for what in ("runs", "terminations")
    }
    found = []
    for live in items:
        pieces = tuple(replace(piece, counted=_mean(work, live, piece, pooled)) for piece in live.pieces)
        standing = tuple(piece for piece in pieces if piece.stock == live.stock)
        found.append(replace(live, pieces=pieces, counted=standing))
    return found


def _level(piece: Piece) -> Level | None:
    """What a piece's mean is over; None where it has no figure."""
    if why_no_figure(piece) is not None:
        return None
    by_termination: dict[int, list[Uncertain]] = {}
    for run, reduced in piece.runs:
        if reduced.number is not None:
            by_termination.setdefault(termination_of(run), []).append(reduced.number)
    groups = [each for _, each in sorted(by_termination.items())]
    if not groups:
        return None
    step = max(reduced.resolution for _, reduced in piece.runs if reduced.number is not None)
    if len(groups) == 1:
        return Level("runs", tuple(groups[0]), step)
    return Level("terminations", tuple(total(each) / len(each) for each in groups), step)


def _mean(work: Work, live: LiveItem, piece: Piece, pooled: dict[str, Spread | None]) -> Reduced | None:
    level = _level(piece)
    if level is None:
        return None
    if len(level.numbers) == 1:
        return next(reduced for _, reduced in piece.runs if reduced.number is not None)
    key = (work.measure, live.item, piece.specimen)
    of = Repeats(key, level.what, NEW_IN_EACH_RUN, "run", work.error_unit, level.resolution)
    spread = spread_for(level.values, pooled[level.what] or own_spread(level.values), None)
    return Reduced(mean_of_repeats(work.ledger, level.numbers, spread, of), resolution=level.resolution)
