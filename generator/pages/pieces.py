"""What is told of an item's pieces beside their mean: how many, how often run, one apart, others to come."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.future import Below
from generator.evaluation.findings import ItemFinding, MeasureFinding
from generator.evaluation.versions import versions_told
from generator.pages.format import Both, Span
from generator.pages.shown import Shown


@dataclass(frozen=True)
class PiecesView:
    """What `words/pieces.jinja` is given.

    Attributes:
        n: Pieces that the figure rests on; without one, pieces that were tested.
        runs: Runs that it rests on.
        terminations: How often its pieces were connected for them.
        next: Where the next piece of the same purchase is to be expected; None where that can't be said.
        most: The limit that most such pieces keep; None where that can't be said.
        side: On which side of it they lie.
        apart: Letter of a piece that lies away from the others; empty without one.
        tested: Whether a test says so.
        rig: Half of what the controls of a day differ by; None where they agree, and without them.
        versions: Of the method that it is by, where the figures beside it are by others; else empty.
    """

    n: int
    runs: int
    terminations: int
    next: Span | None = None
    most: Both | None = None
    side: Below = "below"
    apart: str = ""
    tested: bool = False
    rig: Both | None = None
    versions: tuple[int, ...] = ()


def pieces_view(item: ItemFinding, unit: Shown, measure: MeasureFinding) -> PiecesView:
    """From the finding of an item to what is told of its pieces.

    Args:
        item: The finding.
        unit: How the figures of its measure are written.
        measure: The measure, with the items beside it.
    """
    repeats, ahead, apart = item.repeats, item.ahead, item.apart
    most = ahead.most if ahead is not None else None
    return PiecesView(
        item.n,
        repeats.runs if repeats is not None else item.runs,
        repeats.terminations if repeats is not None else item.n,
        unit.span(ahead.next.low, ahead.next.high) if ahead is not None else None,
        None if most is None or item.figure is None else unit.limit(most.limit, item.figure.value),
        most.side if most is not None else "below",
        apart.specimen if apart is not None else "",
        apart is not None and apart.tested,
        unit.size(item.rig) if item.rig is not None else None,
        versions_told(measure, item),
    )
