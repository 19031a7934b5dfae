"""Items against the limits of their report: piece by piece, never by the mean."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from generator.analysis.fit import why_not_printed
from generator.analysis.interval import Estimate, error_of, estimate
from generator.analysis.limits import Limit, against, at_reference_ambient, of_item
from generator.analysis.mark import TimeTo, time_to
from generator.analysis.specimens import Figure, components
from generator.analysis.uncertainty import Ledger, Uncertain
from generator.evaluation.pieces import Piece
from generator.evaluation.reduced import Reduced
from generator.evaluation.statements import ItemOutcome, LimitFinding, PieceAgainst, PieceOutcome

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.run import Run
    from generator.records.schema.method import Method
    from generator.records.schema.report import Limit as Stated

NEVER_WITHIN = frozenset({"worsening", "disturbed", "too-few"})
"""States of a run whose figure at the mark promises nothing of what comes after."""


@dataclass(frozen=True)
class Ground:
    """What statements against limits are made on.

    Attributes:
        ledger: The report's inputs.
        bench: Its records.
        method: The version that the figures are by.
        point: The point that gives them.
        limits: The report's limits.
    """

    ledger: Ledger
    bench: Bench
    method: Method
    point: str
    limits: tuple[Stated, ...]

    @property
    def reference(self) -> float | None:
        """The reference ambient, °C: the method's, else the bench's; a convention without uncertainty."""
        stated = self.method.reference_ambient or self.bench.settings.reference_ambient
        return stated.value.si if stated is not None else None

    def fits(self, limit: Stated) -> bool:
        """Whether a limit is for this point and for the conditions that the method sets."""
        asked = {name: _said(each) for name, each in self.method.conditions.items()}
        return limit.point == self.point and all(
            asked.get(key) == text for key, text in limit.condition.items()
        )


def item_against(
    ground: Ground, pieces: Sequence[Piece], figure: Figure | None = None
) -> tuple[LimitFinding, ...]:
    """What can be said of an item against each limit that is for its point and conditions.

    Args:
        ground: What statements are made on.
        pieces: The pieces of the stock that stands.
        figure: Mean over them; None without one.
    """
    found = []
    for number, limit in enumerate(ground.limits):
        reference = ground.reference if limit.kind == "temperature" else None
        if not pieces or not ground.fits(limit) or (limit.kind == "temperature" and reference is None):
            continue
        told = tuple(_piece(ground, piece, limit.value.si, reference) for piece in pieces)
        outcome, share = _item([each.outcome for each in told])
        carried = _carried(ground, pieces, figure, reference)
        found.append(
            LimitFinding(number, limit.kind, limit.value.si, reference, told, outcome, share, carried)
        )
    return tuple(found)


def _carried(
    ground: Ground, pieces: Sequence[Piece], figure: Figure | None, reference: float | None
) -> Estimate | None:
    """An item's figure, still a rise, with what the way to the reference ambient adds to its interval."""
    airs = [each.counted.ambient for each in pieces if each.counted is not None]
    known = [air for air in airs if air is not None]
    if figure is None or reference is None or not known:
        return None
    rise = _held(ground, figure.number, math.fsum(known) / len(known), reference) - reference
    parts_of = components(ground.ledger, replace(figure, number=rise))
    return estimate(rise.x, parts_of, "K")


def _piece(ground: Ground, piece: Piece, limit: float, reference: float | None) -> PieceAgainst:
    told = _told(ground, piece, limit, reference)
    return replace(told, reached=_reached(piece, limit - (reference or 0.0)))


def _told(ground: Ground, piece: Piece, limit: float, reference: float | None) -> PieceAgainst:
    counted = _at_own_mark(piece)
    if counted is not None and counted.number is not None:
        return _counted(ground, piece, counted, limit, reference)
    over = next((each for _, each in piece.runs if each.why_not == "over-range"), None)
    if over is not None:
        # What the meter could not follow is never within; beyond where the last that it could read is.
        told = _stopped(ground, piece, over, limit, reference)
        return replace(told, outcome="beyond" if told.outcome == "beyond" else "undecided")
    stopped = next((each for each in piece.runs if _stopped_itself(each)), None)
    if stopped is None:
        return PieceAgainst(piece.specimen, None, None, "no-figure", None)
    return _stopped(ground, piece, stopped[1], limit, reference)


def _at_own_mark(piece: Piece) -> Reduced | None:
    """The run that counts at its method's own mark: limits are held there, wherever items are compared."""
    return None if piece.counted is None else piece.counted.whole or piece.counted


def _reached(piece: Piece, limit: float) -> TimeTo | None:
    """When the run that counts, or one that stopped, reaches a rise in K."""
    found = _at_own_mark(piece) or next((each for _, each in piece.runs), None)
    if found is None:
        return None
    read = [(each.time, each.rise) for each in found.readings if each.rise is not None]
    fit = found.fit if found.fit is not None and why_not_printed(found.fit) is None else None
    return time_to([time for time, _ in read], [rise for _, rise in read], limit, fit)


def _counted(
    ground: Ground, piece: Piece, counted: Reduced, limit: float, reference: float | None
) -> PieceAgainst:
    assert counted.number is not None  # noqa: S101
    held = _held(ground, counted.number, counted.ambient, reference)
    settled = counted.end.settled if counted.end is not None else None
    printed = settled if settled is not None and settled.why_not is None else None
    reach = None if printed is None else printed.high + (held.x - counted.number.x)
    said = against(held.x, error_of(ground.ledger, held), Limit(limit), reach)
    outcome: PieceOutcome = said.outcome
    state = counted.end.state if counted.end is not None else "too-few"
    if outcome == "within" and (state in NEVER_WITHIN or (state == "still-rising" and printed is None)):
        outcome = "undecided"
    return PieceAgainst(piece.specimen, held.x, said.half_width, outcome, said.probability)


def _stopped(
    ground: Ground, piece: Piece, reduced: Reduced, limit: float, reference: float | None
) -> PieceAgainst:
    """A piece that stopped by its own doing: beyond where its last reading is over by U, else stopped."""
    if reduced.last is None:
        return PieceAgainst(piece.specimen, None, None, "stopped", None)
    held = _held(ground, reduced.last, reduced.ambient, reference)
    said = against(held.x, error_of(ground.ledger, held), Limit(limit))
    outcome: PieceOutcome = "beyond" if said.outcome == "beyond" else "stopped"
    return PieceAgainst(piece.specimen, held.x, said.half_width, outcome, said.probability)


def _held(ground: Ground, rise: Uncertain, ambient: float | None, reference: float | None) -> Uncertain:
    """What is held against the limit: the rise, or the temperature at the reference ambient."""
    if reference is None or ambient is None:
        return rise
    key = ("reference ambient", ground.method.id)
    return at_reference_ambient(ground.ledger, rise, ambient, reference, key=key) + reference


def _item(outcomes: Sequence[PieceOutcome]) -> tuple[ItemOutcome, float | None]:
    if "beyond" in outcomes:
        return "beyond", None
    if "stopped" in outcomes:
        return "stopped", None
    known: list[Any] = [each for each in outcomes if each != "no-figure"]
    if not known:
        return "no-figure", None
    told = of_item(known)
    if told.outcome == "all-within":
        return "within", told.beyond.high if told.beyond is not None else None
    return "undecided", None


def _stopped_itself(each: tuple[Run, Reduced]) -> bool:
    run, reduced = each
    return reduced.why_not == "stopped" and run.stopped is not None and run.stopped.cause == "item"


def _said(condition: Any) -> str:
    """A condition as the method's record has it."""
    value = getattr(condition, "value", condition)
    return str(getattr(value, "text", value))
