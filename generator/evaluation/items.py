"""From live pieces to the findings of one item or one control."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.analysis import specimens
from generator.analysis.budget import budget
from generator.analysis.interval import Estimate, estimate, estimate_of
from generator.analysis.linear import combined_uncertainty
from generator.analysis.uncertainty import Ledger, Uncertain, total
from generator.evaluation.findings import (
    CurvePoint,
    ItemFinding,
    PieceFinding,
    RunFinding,
)
from generator.evaluation.pieces import Piece, termination_of, why_no_mean
from generator.evaluation.reduced import Reduced
from generator.evaluation.sought import Sought
from generator.evaluation.spreads import Ahead, Apart, Repeats, Spread
from generator.evaluation.statements import InAir, LimitFinding, Place

if TYPE_CHECKING:
    from generator.records.run import Run

NO_SPREAD = Spread("none", 0.0, math.inf)


@dataclass(frozen=True)
class LiveItem:
    """One item of a report by one measure, alive.

    Attributes:
        item: Its id.
        order: Place in the report's list.
        stock: The stock that its figure stands for.
        pieces: All its pieces with runs.
        counted: Those of that stock.
        figure: Mean over the counted pieces; None where they give none.
        limits: What can be said of them against the report's limits.
        airs: Their temperature in air from cool to hot; empty for a kind without one.
        place: Where the item stands; None for one that cannot be compared.
        warming: Whether it is still warming at a mark that runs of differing length share.
        excess: What it is hotter than the controls of its days; None without them.
        rig: Half of what the controls of a day differ by where they do not agree; None where they do.
        apart: The piece that lies away from the others; None without one.
        ahead: What pieces not yet tested may be like; None where that can't be said.
        declared_from: Where a spread that the method declares comes from.
    """

    item: str
    order: int
    stock: str
    pieces: tuple[Piece, ...]
    counted: tuple[Piece, ...]
    figure: specimens.Figure | None
    limits: tuple[LimitFinding, ...] = ()
    airs: tuple[InAir, ...] = ()
    place: Place | None = None
    warming: bool = False
    excess: Estimate | None = None
    rig: float | None = None
    apart: Apart | None = None
    ahead: Ahead | None = None
    declared_from: str = ""


def item_finding(ledger: Ledger, live: LiveItem, unit: str) -> ItemFinding:
    """The finding of an item from its live pieces."""
    figure = live.figure
    parts = specimens.components(ledger, figure) if figure is not None else ()
    told = estimate(figure.number.x, parts, unit) if figure is not None else None
    return ItemFinding(
        item=live.item,
        control=False,
        stock=live.stock,
        pieces=tuple(_piece(ledger, each, unit) for each in live.pieces),
        n=figure.pieces if figure is not None else len(live.counted),
        runs=sum(len(each.runs) for each in live.counted),
        figure=told,
        budget=budget(parts, unit) if figure is not None else None,
        spread=_spread(live),
        why_not=why_no_mean(live.counted) if figure is None else None,
        order=live.order,
        curve=_curve(live, told),
        limits=live.limits,
        airs=live.airs,
        place=live.place,
        warming=live.warming,
        excess=live.excess,
        rig=live.rig,
        repeats=_repeats(live.counted) if figure is not None else None,
        apart=live.apart,
        ahead=live.ahead,
    )


def control_finding(ledger: Ledger, run: Run, reduced: Reduced, unit: str) -> ItemFinding:
    """The finding of one control run."""
    piece = Piece("", "", ((run, reduced),), reduced if reduced.number is not None else None)
    found = run_finding(ledger, run, reduced, unit)
    return ItemFinding(
        item=run.control,
        control=True,
        stock="",
        pieces=(_piece(ledger, piece, unit),),
        n=1,
        runs=1,
        figure=found.figure,
        budget=found.budget,
        spread=NO_SPREAD,
        why_not=reduced.why_not,
        curve=_curve(LiveItem(run.control, 0, "", (piece,), (piece,), None), found.figure),
    )


def run_finding(ledger: Ledger, run: Run, reduced: Reduced, unit: str) -> RunFinding:
    """The finding of one run: its own figure, everything but the spread between pieces in its interval."""
    number = reduced.number
    return RunFinding(
        run=run.id,
        item=run.item or run.control,
        specimen=run.specimen,
        date=run.date.isoformat(),
        method=run.method_name,
        readings=reduced.readings,
        figure=None if number is None else estimate_of(ledger, number, unit),
        parts=None if number is None else Sought(lambda: budget(ledger.parts(number), unit)),
        why_not=reduced.why_not,
        mean_current=reduced.mean_current,
        correction=reduced.correction,
        end=reduced.end,
        ramp=None if reduced.ramp is None else reduced.ramp * 3600,
        departures=reduced.departures,
        worked=reduced.worked,
        values=reduced.values,
        by=reduced.by,
        electrical=reduced.electrical,
        seen=reduced.seen,
        conductance=reduced.conductance,
    )


def _piece(ledger: Ledger, piece: Piece, unit: str) -> PieceFinding:
    numbers = piece.heatings or (None,) * len(piece.runs)
    runs = tuple(
        replace(run_finding(ledger, run, reduced, unit), heating=number)
        for (run, reduced), number in zip(piece.runs, numbers, strict=True)
    )
    figures = (
        found for found, (_, reduced) in zip(runs, piece.runs, strict=True) if reduced is piece.counted
    )
    counted = next(figures, None)
    figure = counted.figure if counted is not None else None
    if counted is None and piece.number is not None:
        figure = estimate_of(ledger, piece.number, unit)
    return PieceFinding(piece.specimen, piece.stock, runs, figure)


def _spread(live: LiveItem) -> Spread:
    spread = live.figure.spread if live.figure is not None else None
    if spread is None:
        return NO_SPREAD
    whence = live.declared_from if spread.origin == "declared" else ""
    return Spread(spread.origin, spread.deviation, spread.dof, whence)


def _repeats(pieces: Sequence[Piece]) -> Repeats:
    """Runs that pieces rest on: the one that counts, or all that have a figure where that is their mean."""
    runs = [
        (run, piece.specimen)
        for piece in pieces
        if piece.counted is not None
        for run, reduced in piece.runs
        if reduced is piece.counted or (reduced.number is not None and _averaged(piece))
    ]
    return Repeats(len(runs), len({(specimen, termination_of(run)) for run, specimen in runs}))


def _averaged(piece: Piece) -> bool:
    return all(reduced is not piece.counted for _, reduced in piece.runs)


def _curve(live: LiveItem, figure: Estimate | None) -> tuple[CurvePoint, ...]:
    """Mean over the pieces at the times that all were read, with a band at the figure's coverage factor."""
    series = [piece.counted.points for piece in live.counted if piece.counted is not None]
    if figure is None or not series:
        return ()
    common = sorted(set.intersection(*({point.time for point in each} for each in series)))
    by_time = [{point.time: point.number for point in each} for each in series]
    return tuple(_point(live, figure, time, [each[time] for each in by_time]) for time in common)


def _point(live: LiveItem, figure: Estimate, time: float, pieces: Sequence[Uncertain]) -> CurvePoint:
    n = len(pieces)
    rise = math.fsum(each.x for each in pieces) / n
    spread = live.figure.spread if live.figure is not None else None
    factor = figure.half_width / figure.standard_uncertainty if figure.standard_uncertainty else 0.0
    share = rise / figure.value if figure.value else 0.0
    between = spread.deviation * abs(share) / math.sqrt(n) if spread is not None else 0.0

    def reach() -> float:
        return factor * math.hypot(combined_uncertainty(total(pieces)) / n, between)

    return CurvePoint(time, rise, Sought(reach))
