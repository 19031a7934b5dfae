"""The time mark at which runs of differing length are compared."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from generator.analysis.mark import shared_mark
from generator.evaluation.heatings import numbered
from generator.evaluation.pieces import Piece
from generator.evaluation.reduced import Reduced

if TYPE_CHECKING:
    from generator.records.run import Run
    from generator.records.schema.method import Method

WARM_AFTER = 3.0
"""An item is warm enough to be compared at a mark of so many of its time constants."""


def mark_for(
    reduced: Iterable[tuple[Run, Reduced]], stated: Iterable[tuple[Method, Any]], heating: int
) -> float | None:
    """The longest mark that the runs which count all reach; None where that is each one's own.

    Stopped runs do not set it, and neither do later heatings of a piece.

    Args:
        reduced: Runs of items, each at its own mark, in order of date.
        stated: Methods that they were made by, each with its measure.
        heating: Which completed heating of a piece counts.
    """
    ends = _ends(reduced, heating)
    if not ends:
        return None
    versions = list(stated)
    own = {measure.at.si for _, measure in versions}
    mark, within = min(own), min(measure.within.si for _, measure in versions)
    if len(own) == 1 and min(ends) >= mark - within:
        return None
    times = {time.si for method, _ in versions for time in method.schedule or ()}
    return shared_mark(mark, ends, sorted(times), within)


def warming(pieces: Iterable[Piece], mark: float | None) -> bool:
    """Whether an item is still warming at a shared mark: three time constants of any piece, or no curve."""
    if mark is None:
        return False
    fits = [piece.counted.fit for piece in pieces if piece.counted is not None]
    return any(fit is None or mark < WARM_AFTER * fit.tau for fit in fits)


def _ends(reduced: Iterable[tuple[Run, Reduced]], heating: int) -> list[float]:
    """Time of the last reading of the run of each piece that counts, s."""
    by_piece: dict[tuple[str, str], list[tuple[Run, bool]]] = {}
    ends: dict[str, float] = {}
    for run, each in reduced:
        completed = run.stopped is None and each.why_not != "over-range" and bool(each.readings)
        by_piece.setdefault((run.item, run.specimen), []).append((run, completed))
        if completed:
            ends[run.id] = each.readings[-1].time
    return [
        ends[run.id]
        for runs in by_piece.values()
        for (run, _), number in zip(runs, numbered(runs), strict=True)
        if number == heating
    ]
