"""Items against the limits of their report: piece by piece, never by the mean."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from generator.analysis.fit import why_not_printed
from generator.analysis.interval import Estimate, error_of, estimate, half_width
from generator.analysis.limits import (
    Limit,
    against,
    at_reference_ambient,
    of_item,
)
from generator.analysis.linear import deferred
from generator.analysis.mark import TimeTo, time_to
from generator.analysis.specimens import Figure, components
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.ends import SettledRise
from generator.evaluation.ground import Ground
from generator.evaluation.pieces import Piece
from generator.evaluation.quantity_against import by_rule, quantity_against
from generator.evaluation.reduced import Reduced
from generator.evaluation.statements import (
    GRAVEST,
    ItemOutcome,
    KeptBy,
    LimitFinding,
    PieceAgainst,
    PieceOutcome,
    Side,
    Warmest,
)

if TYPE_CHECKING:
    from generator.records.schema.report import Limit as Stated

NEVER_WITHIN = frozenset({"worsening", "disturbed", "too-few"})
"""States of a run whose figure at the mark promises nothing of what comes after."""

How = Literal["completed", "over-range", "stopped"]
WITHOUT_A_READING: dict[How, PieceOutcome] = {
    "completed": "no-figure",
    "over-range": "undecided",
    "stopped": "stopped",
}


@dataclass(frozen=True)
class Held:
    """One run of a piece in a limit's own unit.

    Attributes:
        how: Whether it went on to the mark, over the meter's range, or was stopped by the piece's doing.
        reduced: What the run came to.
        rise: Its rise, K; None where it gives none.
        number: The same as it is held against a limit: the rise, or a temperature in °C.
    """

    how: How
    reduced: Reduced
    rise: Uncertain | None
    number: Uncertain | None


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
    for number, limit in ground.limits:
        if not pieces or not ground.holds(limit):
            continue
        reference = ground.reference if limit.kind == "temperature" else None
        told = tuple(_told(ground, piece, limit, reference) for piece in pieces)
        outcome, leaning = outcome_of(told)
        found.append(
            LimitFinding(
                number,
                limit.kind,
                limit.value.si,
                reference,
                told,
                outcome,
                _share_beyond(told),
                _carried(ground, pieces, figure, reference),
                leaning,
                ground.method.rule,
                limit.standing,
            )
        )
    return tuple(found)


def _told(ground: Ground, piece: Piece, limit: Stated, reference: float | None) -> PieceAgainst:
    if not limit.of_heating:
        side: Literal["at most", "at least"] = "at least" if limit.kind == "at least" else "at most"
        return quantity_against(ground, piece, Limit(limit.value.si, side))
    reached = _reached(piece, limit.value.si - (reference or 0.0))
    return replace(piece_against(ground, piece, limit.value.si, reference), reached=reached)


def _carried(
    ground: Ground, pieces: Sequence[Piece], figure: Figure | None, reference: float | None
) -> Estimate | None:
    """An item's figure, still a rise, with what the way to the reference ambient adds to its interval."""
    airs = [each.counted.ambient for each in pieces if each.counted is not None]
    known = [air for air in airs if air is not None]
    if figure is None or reference is None or not known:
        return None
    rise = _to_air(ground, figure.number, math.fsum(known) / len(known), reference)
    return estimate(rise.x, components(ground.ledger, replace(figure, number=rise)), "K")


def piece_against(ground: Ground, piece: Piece, limit: float, air: float | None) -> PieceAgainst:
    """What can be said of one piece: the gravest of what its runs say.

    Args:
        ground: What statements are made on.
        piece: The piece.
        limit: °C, or K where no air is given.
        air: The air that its temperature is told for, °C; None for a limit on the rise.
    """
    told = [_one(ground, piece.specimen, each, limit) for each in _held(ground, piece, air)]
    if not told:
        return PieceAgainst(piece.specimen, None, None, "no-figure", None)
    return min(told, key=lambda each: GRAVEST.index(each.outcome))


def outcome_of(pieces: Sequence[PieceAgainst]) -> tuple[ItemOutcome, Side | None]:
    """What can be said of an item: the gravest of what is said of its pieces, never by their mean.

    A piece without a figure says nothing beside others that have one.
    """
    known = [each for each in pieces if each.outcome != "no-figure"]
    outcome: ItemOutcome = min((each.outcome for each in known), key=GRAVEST.index, default="no-figure")
    sides = {each.leaning for each in known if each.outcome == "undecided"}
    if outcome != "undecided" or None in sides:
        return outcome, None
    return outcome, "beyond" if "beyond" in sides else "within"


def warmest(ground: Ground, pieces: Sequence[Piece], air: float) -> Warmest | None:
    """The hottest of an item's pieces in air of a temperature; None where no piece has a reading."""
    # To be carried to other air adds an error and changes no rise: the hottest there is the hottest here.
    known = [
        (each.rise.x, piece.specimen, each.rise, each.reduced.ambient)
        for piece in pieces
        for each in _held(ground, piece, None)
        if each.rise is not None and each.reduced.ambient is not None
    ]
    if not known:
        return None
    _, specimen, rise, ambient = max(known, key=lambda each: each[0])
    carried = _to_air(ground, rise, ambient, air)
    return Warmest(specimen, carried.x + air, half_width(error_of(ground.ledger, carried)))


def _held(ground: Ground, piece: Piece, air: float | None) -> Iterator[Held]:
    """The run that counts, at its method's own mark, and each that ended by the piece's own doing."""
    counted = None if piece.counted is None else piece.counted.whole or piece.counted
    if counted is not None and counted.number is not None:
        yield _as_held(ground, "completed", counted, counted.number, air)
    for run, reduced in piece.runs:
        if reduced.why_not == "over-range":
            yield _as_held(ground, "over-range", reduced, reduced.last, air)
        elif reduced.why_not == "stopped" and run.stopped is not None and run.stopped.cause == "item":
            yield _as_held(ground, "stopped", reduced, reduced.last, air)


def _as_held(ground: Ground, how: How, reduced: Reduced, rise: Uncertain | None, air: float | None) -> Held:
    if rise is None or air is None:
        return Held(how, reduced, rise, rise)
    if reduced.ambient is None:
        return Held(how, reduced, rise, None)
    carried = _to_air(ground, rise, reduced.ambient, air)
    return Held(how, reduced, rise, deferred(carried.x + air, ((1.0, carried),)))


def _to_air(ground: Ground, rise: Uncertain, ambient: float, air: float) -> Uncertain:
    """A rise carried from the air on the bench to other air; one error for all that the method measures."""
    key = ("reference ambient", ground.method.id)
    return at_reference_ambient(ground.ledger, rise, ambient, air, key=key)


def _one(ground: Ground, specimen: str, held: Held, limit: float) -> PieceAgainst:
    if held.number is None or held.rise is None:
        return PieceAgainst(specimen, None, None, WITHOUT_A_READING[held.how], None)
    value, error = held.number.x, error_of(ground.ledger, held.number)
    if held.how != "completed":
        # What stopped, or what the meter could not follow, is never within; beyond where the last reading is.
        said = against(value, error, Limit(limit))
        outcome = "beyond" if said.outcome == "beyond" else WITHOUT_A_READING[held.how]
        return PieceAgainst(specimen, value, said.half_width, outcome, said.probability)
    settled = _printed(held.reduced)
    shift = value - held.rise.x
    said = against(value, error, Limit(limit), None if settled is None else settled.high + shift)
    rule, held_to = ground.method.rule, Limit(limit)
    decided = by_rule(rule, value, said, held_to, None if settled is None else settled.value + shift)
    outcome, leaning, kept_by = _by_end(held.reduced, decided)
    if kept_by is None and settled is not None:
        at_mark, _ = by_rule(rule, value, against(value, error, held_to), held_to)
        kept_by = "settled-rise" if outcome != at_mark else None
    return PieceAgainst(specimen, value, said.half_width, outcome, said.probability, leaning, kept_by)


def _by_end(
    reduced: Reduced, decided: tuple[PieceOutcome, Side | None]
) -> tuple[PieceOutcome, Side | None, KeptBy | None]:
    """The same after what the end of the run forbids: what promises nothing of later is never within."""
    outcome, leaning = decided
    state = reduced.end.state if reduced.end is not None else "too-few"
    promises = state not in NEVER_WITHIN and (state != "still-rising" or _printed(reduced) is not None)
    if promises or "within" not in decided:
        return outcome, leaning, None
    return "undecided", None, state


def _printed(reduced: Reduced) -> SettledRise | None:
    """The settled rise of a run, where it may be printed."""
    settled = reduced.end.settled if reduced.end is not None else None
    return settled if settled is not None and settled.why_not is None else None


def _share_beyond(pieces: Sequence[PieceAgainst]) -> float | None:
    """Upper bound of the share beyond, where every piece that has a figure is within."""
    known = [each for each in pieces if each.outcome != "no-figure"]
    if not known or any(each.outcome != "within" for each in known):
        return None
    told = of_item(["within"] * len(known))
    return told.beyond.high if told.beyond is not None else None


def _reached(piece: Piece, limit: float) -> TimeTo | None:
    """When the run that counts, or one that stopped, reaches a rise in K."""
    counted = None if piece.counted is None else piece.counted.whole or piece.counted
    found = counted or next((each for _, each in piece.runs), None)
    if found is None:
        return None
    read = [(each.time, each.rise) for each in found.readings if each.rise is not None]
    fit = found.fit if found.fit is not None and why_not_printed(found.fit) is None else None
    return time_to([time for time, _ in read], [rise for _, rise in read], limit, fit)
