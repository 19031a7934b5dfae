"""What an item is hotter than the controls of its day: the excess over the rig without an item."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import specimens
from generator.analysis.interval import Estimate, estimate
from generator.analysis.uncertainty import Ledger, Uncertain, total
from generator.evaluation.items import LiveItem
from generator.evaluation.of_day import mean_of_day
from generator.evaluation.pieces import Piece
from generator.evaluation.reduced import Reduced

if TYPE_CHECKING:
    from generator.records.run import Run


@dataclass(frozen=True)
class Excess:
    """What an item is hotter than the controls of its days.

    Attributes:
        figure: Mean over its pieces.
        rig: Largest half-difference of the controls of a day that do not agree; None where all agree.
    """

    figure: Estimate
    rig: float | None


def excess(
    ledger: Ledger, live: LiveItem, controls: Sequence[tuple[Run, Reduced]], unit: str
) -> Excess | None:
    """Mean excess of an item's pieces over the controls of their days, at the same mark.

    Errors that item and control share cancel. First and last control of a day must agree within the interval
    of their difference; where they don't, half of it is a rectangular part, the rig's.

    Args:
        ledger: The report's inputs.
        live: The item.
        controls: Control runs, reduced, in order of date.
        unit: Unit of the figures.

    Returns:
        None without a figure, or where a piece has no control of its day.
    """
    if live.figure is None:
        return None
    of_pieces = [
        _control(ledger, piece, controls, unit) for piece in live.counted if piece.counted is not None
    ]
    known = [each for each in of_pieces if each is not None]
    if len(known) < len(of_pieces) or not known:
        return None
    # The mean is without what is new in each run, since the pieces' scatter holds it; a control's is common
    # to all pieces of its day and stays.
    rigs = [rig for _, rig in known if rig]
    number = live.figure.number - total([control for control, _ in known]) / float(len(known))
    sides = ((live.figure.spread, live.figure.pieces),)
    whole = specimens.with_spread(ledger, number, (*live.figure.key, "excess"), unit, sides)
    return Excess(estimate(whole.x, ledger.components(whole), unit), max(rigs, default=None))


def _control(
    ledger: Ledger, piece: Piece, controls: Sequence[tuple[Run, Reduced]], unit: str
) -> tuple[Uncertain, float] | None:
    """Mean of first and last control of the day of the run that counts, and what they differ by too much."""
    days = [run.date for run, reduced in piece.runs if reduced is piece.counted]
    of_day = [reduced.number for run, reduced in controls if run.date in days and reduced.number is not None]
    if not of_day:
        return None
    return mean_of_day(ledger, of_day, ("rig", days[0].isoformat()), unit)
