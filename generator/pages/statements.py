"""What is said of items against limits, and how their runs ended: facts for the words of the templates."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.charts.description import Name
from generator.evaluation.findings import ItemFinding, MeasureFinding
from generator.evaluation.statements import ItemOutcome, LimitFinding, PieceAgainst
from generator.pages.format import Both, Plus, plus, quantity, temperature_plus
from generator.records.schema.method import Method
from generator.records.schema.report import Limit
from generator.records.schema.settings import ReferenceAmbient


@dataclass(frozen=True)
class LimitRow:
    """One item against a limit.

    Attributes:
        name: Its name.
        outcome: What can be said of it.
        n: Pieces held against the limit.
        over: How many of them are beyond.
        stopped: How many were stopped by their own doing.
        hottest: The hottest of them, as it is held against the limit; None without a value.
        up_to: Of 100 pieces, how many could be beyond all the same; empty where it is not said.
    """

    name: str
    outcome: ItemOutcome
    n: int
    over: int
    stopped: int
    hottest: Plus | None
    up_to: str


@dataclass(frozen=True)
class LimitView:
    """One limit of a report and what can be said against it.

    Attributes:
        limit: The limit.
        reference: The air that temperatures are told for; None for a limit on the rise.
        because: Why that air.
        standing: What the limit rests on.
        source: Where it stands.
        rows: The items in the report's order.
    """

    limit: Both
    reference: Both | None
    because: str
    standing: str
    source: str
    rows: tuple[LimitRow, ...]


@dataclass(frozen=True)
class EndRow:
    """Runs that ended alike: which state, and whose."""

    state: str
    runs: tuple[str, ...]


def limit_views(
    limits: tuple[Limit, ...],
    measure: MeasureFinding,
    names: Mapping[str, Name],
    ambient: ReferenceAmbient | None,
) -> tuple[LimitView, ...]:
    """What a report says against its limits.

    Args:
        limits: Of the report.
        measure: Its main measure.
        names: Of its items.
        ambient: The reference ambient that temperatures are told for.
    """
    views = []
    for number, limit in enumerate(limits):
        rows = tuple(
            _row(names[item.item].full, found)
            for item in measure.items
            for found in item.limits
            if found.number == number
        )
        if rows:
            told = ambient if limit.kind == "temperature" else None
            views.append(
                LimitView(
                    quantity(limit.value),
                    quantity(told.value) if told is not None else None,
                    told.because if told is not None else "",
                    limit.standing,
                    limit.source,
                    rows,
                )
            )
    return tuple(views)


def reference_ambient(method: Method | None, of_bench: ReferenceAmbient | None) -> ReferenceAmbient | None:
    """The reference ambient of a report: its method's, else the bench's."""
    return (method.reference_ambient if method is not None else None) or of_bench


def end_rows(measure: MeasureFinding, names: Mapping[str, Name]) -> tuple[EndRow, ...]:
    """How the runs of a measure ended, state by state."""
    found: dict[str, list[str]] = {}
    for item in measure.items:
        for piece in item.pieces:
            for run in piece.runs[:1]:
                if run.end is not None:
                    found.setdefault(run.end.state, []).append(_piece_name(item, piece.specimen, names))
    return tuple(EndRow(state, tuple(runs)) for state, runs in sorted(found.items()))


def _piece_name(item: ItemFinding, specimen: str, names: Mapping[str, Name]) -> str:
    return f"{names[item.item].full} {specimen}"


def _row(name: str, found: LimitFinding) -> LimitRow:
    outcomes = [piece.outcome for piece in found.pieces]
    valued = [piece for piece in found.pieces if piece.value is not None]
    hottest = max(valued, key=_value, default=None)
    return LimitRow(
        name,
        found.outcome,
        len(found.pieces),
        outcomes.count("beyond"),
        outcomes.count("stopped"),
        _held(hottest, found.kind) if hottest is not None else None,
        f"{100 * found.share_beyond:.0f}" if found.share_beyond is not None else "",
    )


def _value(piece: PieceAgainst) -> float:
    return piece.value if piece.value is not None else float("-inf")


def _held(piece: PieceAgainst, kind: str) -> Plus | None:
    if piece.value is None or piece.half_width is None:
        return None
    if kind == "temperature":
        return temperature_plus(piece.value, piece.half_width)
    return plus(piece.value, piece.half_width, "K")
