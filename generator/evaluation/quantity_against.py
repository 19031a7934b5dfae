"""A piece against the most or the least of a quantity, and the rule by which any figure is decided."""

from __future__ import annotations

from generator.analysis.interval import error_of
from generator.analysis.limits import Limit, Statement, against, four_outcomes, simple
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.ground import Ground
from generator.evaluation.pieces import OUT_OF_RANGE, Piece, why_no_figure
from generator.evaluation.reduced import Reduced
from generator.evaluation.statements import GRAVEST, PieceAgainst, PieceOutcome, Rule, Side
from generator.evaluation.why_not import WhyNot

BEHIND: dict[WhyNot, str] = {"over-range": "at least", "under-range": "at most"}
"""The side of a limit on which a reading out of range lies as far as one likes within."""


def quantity_against(ground: Ground, piece: Piece, limit: Limit) -> PieceAgainst:
    """What can be said of one piece: by its own figure; where a run left the meter's range, the gravest.

    Args:
        ground: What statements are made on.
        piece: The piece.
        limit: In SI, or °C.
    """
    if piece.number is not None and why_no_figure(piece) is None:
        return _figured(ground, piece.specimen, piece.number, limit)
    told = [found for _, each in piece.runs if (found := _run(ground, piece.specimen, each, limit))]
    stopped = [PieceAgainst(piece.specimen, None, None, "stopped", None)] if _stopped(piece) else []
    none = PieceAgainst(piece.specimen, None, None, "no-figure", None)
    return min((*told, *stopped), key=lambda each: GRAVEST.index(each.outcome), default=none)


def by_rule(
    rule: Rule, value: float, said: Statement, limit: Limit, settled: float | None = None
) -> tuple[PieceOutcome, Side | None]:
    """An outcome by the method's rule, and to which side an undecided one leans.

    Args:
        rule: Of the method.
        value: What is held against the limit.
        said: By three outcomes.
        limit: The limit.
        settled: Where the run would settle, in the same unit; None where that may not be printed.
    """
    if rule == "three outcomes" or said.outcome != "undecided":
        return said.outcome, None
    side = simple(value, limit)
    if side == "within" and settled is not None and simple(settled, limit) == "beyond":
        return "undecided", None
    if rule == "simple":
        return side, None
    of_four = four_outcomes(value, said.half_width, limit)
    return "undecided", "beyond" if of_four == "conditionally beyond" else "within"


def _figured(ground: Ground, specimen: str, number: Uncertain, limit: Limit) -> PieceAgainst:
    said = against(number.x, error_of(ground.ledger, number), limit)
    outcome, leaning = by_rule(ground.method.rule, number.x, said, limit)
    return PieceAgainst(specimen, number.x, said.half_width, outcome, said.probability, leaning)


def _run(ground: Ground, specimen: str, reduced: Reduced, limit: Limit) -> PieceAgainst | None:
    """A run by itself; None for one that says nothing of its piece."""
    if reduced.number is not None:
        return _figured(ground, specimen, reduced.number, limit)
    if reduced.why_not not in OUT_OF_RANGE:
        return None
    return _out_of_range(ground, specimen, reduced, limit)


def _out_of_range(ground: Ground, specimen: str, reduced: Reduced, limit: Limit) -> PieceAgainst:
    """A reading out of range lies past where the range ends: that decides, or nothing can be said."""
    if reduced.last is None or reduced.why_not is None:
        return PieceAgainst(specimen, None, None, "undecided", None)
    said = against(reduced.last.x, error_of(ground.ledger, reduced.last), limit)
    past: PieceOutcome = "within" if BEHIND[reduced.why_not] == limit.side else "beyond"
    outcome: PieceOutcome = past if said.outcome == past else "undecided"
    return PieceAgainst(specimen, reduced.last.x, said.half_width, outcome, None)


def _stopped(piece: Piece) -> bool:
    return any(
        each.why_not == "stopped" and run.stopped is not None and run.stopped.cause == "item"
        for run, each in piece.runs
    )
