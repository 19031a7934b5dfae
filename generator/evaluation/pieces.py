"""From runs to pieces and items: which run counts, which stock stands, which spread is used."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import specimens
from generator.analysis.uncertainty import Ledger, Uncertain
from generator.evaluation.heatings import numbered
from generator.evaluation.reduced import Reduced
from generator.evaluation.why_not import WhyNot

if TYPE_CHECKING:
    from generator.records.run import Run
    from generator.records.schema.item import Item
    from generator.records.schema.measure import DeclaredSpread

OUT_OF_RANGE: frozenset[WhyNot] = frozenset({"over-range", "under-range"})
"""A run that left its meter's range: no mean may leave it out, and nobody knows what to put in its place."""


@dataclass(frozen=True)
class Piece:
    """One piece with its runs, alive.

    Attributes:
        specimen: Its letter.
        stock: Its stock; empty for the first.
        runs: Runs in order of date and id, with what they came to.
        counted: What its runs come to: the run whose figure is the piece's, or their mean; None without one.
        heatings: Of each run, which heating of the piece it was; None of one that did not complete. Empty for
            a kind that counts none.
    """

    specimen: str
    stock: str
    runs: tuple[tuple[Run, Reduced], ...]
    counted: Reduced | None
    heatings: tuple[int | None, ...] = ()

    @property
    def number(self) -> Uncertain | None:
        """The piece's figure."""
        return self.counted.number if self.counted is not None else None


def pieces_of(item: Item, runs: Iterable[tuple[Run, Reduced]], heating: int | None) -> tuple[Piece, ...]:
    """Gather an item's runs by piece.

    Args:
        item: The item's record.
        runs: Its runs, reduced.
        heating: Which completed run of a piece counts, from 1; later ones are shown and not averaged. None
            where none counts by itself (see `averaged`).

    Returns:
        Its pieces that have runs, in order of their letters.
    """
    by_piece: dict[str, list[tuple[Run, Reduced]]] = {}
    for run, reduced in sorted(runs, key=lambda each: (each[0].date, each[0].id)):
        by_piece.setdefault(run.specimen, []).append((run, reduced))
    return tuple(
        _piece(letter, item.specimens[letter].stock or "", found, heating)
        for letter, found in sorted(by_piece.items())
    )


def _piece(letter: str, stock: str, runs: Sequence[tuple[Run, Reduced]], heating: int | None) -> Piece:
    if heating is None:
        return Piece(letter, stock, tuple(runs), None)
    numbers = tuple(numbered((run, reduced.number is not None) for run, reduced in runs))
    counted = (reduced for (_, reduced), number in zip(runs, numbers, strict=True) if number == heating)
    return Piece(letter, stock, tuple(runs), next(counted, None), numbers)


def termination_of(run: Run) -> int:
    """Which connection of its piece a run was made on, from 1."""
    return int(run.termination.number) if run.termination is not None else 1


def why_no_mean(pieces: Sequence[Piece]) -> WhyNot | None:
    """Why the pieces give no mean: one stopped by its own doing or went over range, or none has a figure."""
    for piece in pieces:
        why = why_no_figure(piece)
        if why is not None:
            return why
    if any(piece.number is not None for piece in pieces):
        return None
    reasons = [
        reduced.why_not for piece in pieces for _, reduced in piece.runs if reduced.why_not is not None
    ]
    if any(reduced.number is not None for piece in pieces for _, reduced in piece.runs):
        return "other-heating"
    return reasons[0] if reasons else "no-run"


def why_no_figure(piece: Piece) -> WhyNot | None:
    """What a run of a piece did that leaves the piece without a figure whatever its other runs did."""
    for run, reduced in piece.runs:
        if reduced.why_not in OUT_OF_RANGE:
            return reduced.why_not
        if reduced.why_not == "stopped" and run.stopped is not None and run.stopped.cause == "item":
            return "stopped"
    return None


def numbers(pieces: Sequence[Piece]) -> list[Uncertain]:
    """The figures of the pieces that have one."""
    return [piece.number for piece in pieces if piece.number is not None]


def declared(spread: DeclaredSpread | None) -> specimens.Spread | None:
    """A spread that the method declares, in the figure's unit."""
    if spread is None:
        return None
    return specimens.Spread(spread.value.si, float(spread.freedom), "declared")


def figure_of(
    ledger: Ledger,
    key: tuple[str, ...],
    pieces: Sequence[Piece],
    *,
    pooled: specimens.Spread | None,
    stated: specimens.Spread | None,
    unit: str,
) -> specimens.Figure:
    """Mean over the pieces of one item, with its spread.

    Args:
        ledger: The report's inputs.
        key: Identity of the measure and the item.
        pieces: Its pieces, at least one with a figure.
        pooled: Spread pooled over the report's items.
        stated: Spread declared by the method.
        unit: Unit of the figures.
    """
    found = numbers(pieces)
    spread = specimens.spread_for([each.x for each in found], pooled, stated)
    steps = [piece.counted.resolution for piece in pieces if piece.counted is not None]
    return specimens.figure(ledger, key, found, spread, unit=unit, resolution=max(steps, default=0.0))
