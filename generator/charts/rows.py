"""One row of the figures: an item with everything that is drawn of it and said beside it."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.interval import Estimate
from generator.charts.description import Name
from generator.charts.looks import Look, look_of
from generator.charts.series import counted, curve_of
from generator.evaluation.ends import State
from generator.evaluation.findings import ItemFinding, MeasureFinding, PairFinding
from generator.evaluation.statements import ItemOutcome, LimitFinding, Place
from generator.evaluation.why_not import WhyNot
from generator.records.quantity import Bound

WORST_FIRST: tuple[ItemOutcome, ...] = ("beyond", "stopped", "undecided", "within", "no-figure")
"""Of several limits the worst outcome stands for the item."""

OWN_DOING: frozenset[WhyNot] = frozenset({"stopped", "over-range"})
"""Reasons for which an item has no mean though pieces of it may have figures."""


@dataclass(frozen=True)
class Earlier:
    """What the figure of a row was before.

    Attributes:
        value: In the measure's unit, without a ±.
        kind: Of pieces of an older stock, from a retest, or read wrong.
        n: Pieces of the older stock that it is the mean of; else 0.
    """

    value: float
    kind: Literal["stock", "retested", "corrected"]
    n: int = 0


@dataclass(frozen=True)
class Older:
    """A result from before: a mark without an interval.

    Attributes:
        value: In the measure's unit.
        bound: `>` or `<` where that is the end of a range, which has no place on a scale.
    """

    value: float
    bound: Bound = ""


@dataclass(frozen=True)
class Bar:
    """One row.

    Attributes:
        item: Id of the item.
        name: Its name.
        look: Colour role and marker.
        figure: Its figure; None where there is none.
        reach: Ends of the figure's interval with the part that the reference ambient brings; None where no
            temperature is held against a limit.
        pieces: The pieces' own figures, ascending.
        n: Pieces that the figure rests on; without one, pieces that were tested.
        of: Pieces that were tested, of the stock that stands.
        meter_only: Whether the interval speaks of the meter alone: one piece, and no spread known.
        why_not: Why there is no figure.
        end: The highest rise that a piece without a figure was last read at, K; None with a mean.
        outcome: What can be said of its pieces against the limits; None where no limit is for it.
        place: Where it stands; None for one that cannot be compared.
        states: How runs that count ended, where that is worth a word.
        warming: Whether it is too far from settled at the mark to be compared.
        earlier: What its figure was before; None without.
        older: Results from before, the newest first; they stand in place of a figure where nothing newer is.
        alike: Ids of the items that it could not be told from.
        beyond: Pieces that are beyond a limit.
    """

    item: str
    name: Name
    look: Look
    figure: Estimate | None = None
    reach: tuple[float, float] | None = None
    pieces: tuple[float, ...] = ()
    n: int = 0
    of: int = 0
    meter_only: bool = False
    why_not: WhyNot | None = None
    end: float | None = None
    outcome: ItemOutcome | None = None
    place: Place | None = None
    states: tuple[State, ...] = ()
    warming: bool = False
    earlier: Earlier | None = None
    older: tuple[Older, ...] = ()
    alike: tuple[str, ...] = ()
    beyond: int = 0

    @property
    def single(self) -> bool:
        """Whether one piece alone speaks for the item."""
        return self.n == 1

    @property
    def reaches(self) -> tuple[float, ...]:
        """Every value that the row's drawing shows."""
        drawn = [] if self.figure is None else [self.figure.low, self.figure.high, *(self.reach or ())]
        single = [self.end, self.earlier and self.earlier.value]
        older = (each.value for each in self.older if not each.bound)
        return (*drawn, *self.pieces, *(value for value in single if value is not None), *older)


def rows_of(measure: MeasureFinding, names: Mapping[str, Name], deciding: Collection[int]) -> list[Bar]:
    """The rows of a measure, in the report's order.

    Args:
        measure: What was found.
        names: Names of all its items by id.
        deciding: Numbers of the limits that the rows are grouped by.
    """
    return [_bar(each, names[each.item], measure, deciding) for each in measure.items]


def told_against(item: ItemFinding, deciding: Collection[int]) -> tuple[LimitFinding, ...]:
    """What is said of an item against the limits that decide, where its pieces say anything."""
    return tuple(each for each in item.limits if each.number in deciding and each.outcome != "no-figure")


def _bar(item: ItemFinding, name: Name, measure: MeasureFinding, deciding: Collection[int]) -> Bar:
    newest = [piece for piece in item.pieces if piece.stock == item.stock]
    said = told_against(item, deciding)
    return Bar(
        item.item,
        name,
        look_of(item.order),
        item.figure,
        _reach(said),
        tuple(sorted(piece.figure.value for piece in newest if piece.figure)),
        item.n,
        len(newest),
        item.figure is not None and item.n == 1 and item.spread.origin == "none",
        item.why_not,
        _end(item),
        min((each.outcome for each in said), key=WORST_FIRST.index, default=None),
        item.place,
        _states(item),
        item.warming,
        _earlier_stock(item),
        tuple(Older(each.value, each.bound) for each in measure.older if each.item == item.item),
        alike(measure.pairs, item.item),
        max((sum(piece.outcome == "beyond" for piece in each.pieces) for each in said), default=0),
    )


def alike(pairs: Sequence[PairFinding], item: str) -> tuple[str, ...]:
    """Items that this one could not be told from."""
    return tuple(
        pair.second if pair.first == item else pair.first
        for pair in pairs
        if item in {pair.first, pair.second} and pair.known and not pair.shown
    )


def _reach(said: Sequence[LimitFinding]) -> tuple[float, float] | None:
    """The widest interval at a reference ambient, as a rise."""
    carried = [each.carried for each in said if each.carried is not None]
    return (min(each.low for each in carried), max(each.high for each in carried)) if carried else None


def _end(item: ItemFinding) -> float | None:
    """How far the runs got that gave no figure."""
    if item.figure is not None:
        return None
    runs = [run for _, run in counted(item) if run.figure is None]
    ends = [[place.rise for place in curve_of(run) if place] for run in runs]
    return max((rises[-1] for rises in ends if rises), default=None)


def _states(item: ItemFinding) -> tuple[State, ...]:
    """Still warming or getting worse, if any run that counts ended so."""
    found = {run.end.state for _, run in counted(item) if run.end is not None}
    worth: tuple[State, ...] = ("worsening", "still-rising")
    return tuple(state for state in worth if state in found)


def _earlier_stock(item: ItemFinding) -> Earlier | None:
    """The mean over the pieces of the stock before the one that stands; it has no interval here."""
    older = [piece for piece in item.pieces if piece.stock != item.stock and piece.figure is not None]
    if not older:
        return None
    last = max((run.date for piece in older for run in piece.runs), default="")
    stock = next(piece.stock for piece in older if any(run.date == last for run in piece.runs))
    values = [piece.figure.value for piece in older if piece.stock == stock and piece.figure is not None]
    return Earlier(math.fsum(values) / len(values), "stock", len(values))
