"""How runs of heating ended, and where they would settle: facts for the words of the templates."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.analysis.fit import UNSEEN
from generator.charts.description import Name
from generator.charts.numerals import plain
from generator.evaluation.ends import Between, End
from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding, RunFinding
from generator.evaluation.seeing import SEEN_BADLY
from generator.pages.format import Around, Both, around, minutes, quantity
from generator.records.schema.measures import HeatingMeasure
from generator.records.schema.method import Method

NOT_JUDGED = "not-judged"
"""In place of a state: the run's meters do not say how much one reading scatters."""
NO_CURVE = "no-curve"
"""In place of a reason why a settled rise may not be printed: no curve could be fitted."""


@dataclass(frozen=True)
class Ended:
    """How the run of a piece ended.

    Attributes:
        piece: Letter of the piece.
        state: What its end says; `not-judged` where it can't be asked.
        to_come: Of one that is still warming, what is still to come; None where that can't be said.
        rose: Of one that is still warming, what it rose by over the last minutes, where what is to come can't
            be said.
        over: Those last minutes; empty without a change.
        settles: Where it would settle, above the air; None where that may not be told.
        why_not: Why it may not; empty where it may.
    """

    piece: str
    state: str
    to_come: Around | None
    rose: Around | None
    over: str
    settles: Around | None
    why_not: str


@dataclass(frozen=True)
class Together:
    """Pieces of one item of which the same is said, by their letters."""

    code: str
    pieces: tuple[str, ...]


@dataclass(frozen=True)
class Untold:
    """Pieces whose settled rise is not told: why, and whether their runs had settled all the same."""

    why: str
    settled: bool
    pieces: tuple[str, ...]


@dataclass(frozen=True)
class EndRow:
    """Runs of a report that ended alike: how, and each item's name with the letters of its pieces."""

    state: str
    whose: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class EndsView:
    """How the runs of one item ended.

    Attributes:
        mark: The time mark.
        states: Pieces by how they ended.
        warming: Each piece that is still warming.
        settling: Each piece whose settled rise may be told.
        untold: Pieces whose settled rise may not be told, by the reason.
        alone: Whether the item has one piece: then its letter needs no telling.
    """

    mark: str
    states: tuple[Together, ...]
    warming: tuple[Ended, ...]
    settling: tuple[Ended, ...]
    untold: tuple[Untold, ...]
    alone: bool


@dataclass(frozen=True)
class SettledRule:
    """When a run counts as settled, and what is added to where it would settle.

    Attributes:
        change: The most that it may change by.
        over: Over the last minutes.
        to_come: The most that may be still to come.
        unseen: Share of the rise, in percent, that the upper end of a settled rise is widened by.
        long_run: The long run that this share comes from; empty where it is our choice.
    """

    change: Both
    over: str
    to_come: Both
    unseen: str
    long_run: str


def settled_rule(method: Method, measure: HeatingMeasure) -> SettledRule:
    """The rule of one measure, as the newest version that ran states it."""
    slow = method.slow_part
    return SettledRule(
        quantity(measure.settled.change),
        minutes(measure.settled.over.si),
        quantity(measure.settled.to_come),
        plain(round(100 * (UNSEEN if slow is None else slow.share.si), 2)),
        slow.run if slow is not None else "",
    )


def ends_view(item: ItemFinding, mark: str) -> EndsView | None:
    """How the runs that count of an item's pieces ended, earlier stocks apart; None without one."""
    found = [
        _ended(piece.specimen, run)
        for piece in item.pieces
        if piece.stock == item.stock and (run := counted_run(piece)) is not None and _is_judged(run)
    ]
    if not found:
        return None
    return EndsView(
        mark,
        together((each.state, each.piece) for each in found),
        tuple(each for each in found if each.state == "still-rising"),
        tuple(each for each in found if each.settles is not None),
        _untold(found),
        len(found) == 1,
    )


def end_rows(measure: MeasureFinding, names: Mapping[str, Name]) -> tuple[EndRow, ...]:
    """How the runs of a measure ended, state by state."""
    found: dict[str, dict[str, list[str]]] = {}
    for item in measure.items:
        for piece in item.pieces:
            run = counted_run(piece)
            if run is not None and _is_judged(run):
                state = run.end.state if run.end is not None else NOT_JUDGED
                found.setdefault(state, {}).setdefault(names[item.item].full, []).append(piece.specimen)
    return tuple(
        EndRow(state, tuple((name, tuple(letters)) for name, letters in items.items()))
        for state, items in found.items()
    )


def counted_run(piece: PieceFinding) -> RunFinding | None:
    """The run whose figure is the piece's; its first where it has none."""
    of_figure = (run for run in piece.runs if run.figure is not None and run.figure == piece.figure)
    return next(of_figure, piece.runs[0] if piece.runs else None)


def _is_judged(run: RunFinding) -> bool:
    """Whether it is asked how a run ended: it has readings, and an infra-red meter saw enough of it."""
    return bool(run.readings) and run.why_not not in SEEN_BADLY


def together(said: Iterable[tuple[str, str]]) -> tuple[Together, ...]:
    """Pieces gathered by what is said of them, in the order of the first of each."""
    found: dict[str, list[str]] = {}
    for code, piece in said:
        found.setdefault(code, []).append(piece)
    return tuple(Together(code, tuple(pieces)) for code, pieces in found.items())


def _untold(found: Sequence[Ended]) -> tuple[Untold, ...]:
    by: dict[tuple[str, bool], list[str]] = {}
    for each in found:
        if each.why_not:
            by.setdefault((each.why_not, each.state == "settled"), []).append(each.piece)
    return tuple(Untold(why, settled, tuple(pieces)) for (why, settled), pieces in by.items())


def _ended(piece: str, run: RunFinding) -> Ended:
    end = run.end
    if end is None:
        return Ended(piece, NOT_JUDGED, None, None, "", None, "")
    settled = end.settled
    printed = settled if settled is not None and settled.why_not is None else None
    warming = end.state == "still-rising"
    return Ended(
        piece,
        end.state,
        _between(end.remaining) if warming and printed is not None else None,
        _between(end.change) if warming and printed is None else None,
        minutes(end.over),
        around(printed.value, printed.low, printed.high) if printed is not None else None,
        _why_not(run, end) if printed is None else "",
    )


def _why_not(run: RunFinding, end: End) -> str:
    """Why no settled rise is told; a run without a figure is not asked for one."""
    if run.figure is None:
        return ""
    return NO_CURVE if end.settled is None else end.settled.why_not or ""


def _between(found: Between | None) -> Around | None:
    """A size that is never below nothing."""
    return None if found is None else around(found.value, max(0.0, found.low), found.high)
