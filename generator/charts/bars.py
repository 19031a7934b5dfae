"""The figures of a measure side by side, as numbers, roles and names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.analysis.interval import Estimate
from generator.charts.description import Name, us_scale
from generator.charts.looks import Look, look_of
from generator.charts.scales import Scale, value_scale
from generator.charts.series import counted, curve_of
from generator.evaluation.findings import ItemFinding, MeasureFinding, WhyNot


@dataclass(frozen=True)
class Bar:
    """One row.

    Attributes:
        item: Id of the item.
        name: Its name.
        look: Colour role and marker.
        figure: Its figure; None where there is none.
        pieces: The pieces' own figures, ascending.
        n: Pieces that the figure rests on.
        meter_only: Whether the interval speaks of the meter alone: one piece, and no spread known.
        why_not: Why there is no figure.
        stopped: The highest rise that a stopped piece was last read at, K; None where none was stopped.
    """

    item: str
    name: Name
    look: Look
    figure: Estimate | None
    pieces: tuple[float, ...]
    n: int
    meter_only: bool
    why_not: WhyNot | None
    stopped: float | None


@dataclass(frozen=True)
class Bars:
    """All rows of one measure.

    Attributes:
        id: Unique on its page.
        scale: In the measure's unit.
        scale_us: The same scale with ticks at round figures of °F, still placed in K.
        rows: Smallest figure first; items without a figure last, in the report's order.
        controls: Name, figure and ISO date of each control that has a figure.
    """

    id: str
    scale: Scale
    scale_us: Scale
    rows: tuple[Bar, ...]
    controls: tuple[tuple[Name, Estimate, str], ...]


def bars(chart_id: str, measure: MeasureFinding, names: Mapping[str, Name]) -> Bars:
    """Describe the figures of a measure.

    Args:
        chart_id: An id, unique on the page.
        measure: What was found.
        names: Names of all its items and controls by id.

    Returns:
        A row for each item, those without a figure too.
    """
    rows = sorted((_bar(each, names[each.item]) for each in measure.items), key=_smallest_first)
    controls = tuple((names[each.item], each.figure, _date(each)) for each in measure.controls if each.figure)
    reach = [end for row in rows if row.figure for end in (row.figure.low, row.figure.high, *row.pieces)]
    reach += [row.stopped for row in rows if row.stopped is not None]
    scale = value_scale([*reach, *(figure.value for _, figure, _ in controls)])
    return Bars(chart_id, scale, us_scale(scale), tuple(rows), controls)


def _bar(item: ItemFinding, name: Name) -> Bar:
    pieces = sorted(piece.figure.value for piece in item.pieces if piece.figure and piece.stock == item.stock)
    return Bar(
        item.item,
        name,
        look_of(item.order),
        item.figure,
        tuple(pieces),
        item.n,
        item.figure is not None and item.n == 1 and item.spread.origin == "none",
        item.why_not,
        _stopped(item),
    )


def _stopped(item: ItemFinding) -> float | None:
    """How far the stopped runs of an item without a figure got."""
    if item.figure is not None:
        return None
    runs = [run for _, run in counted(item) if run.why_not == "stopped"]
    ends = [[place.rise for place in curve_of(run) if place] for run in runs]
    return max((rises[-1] for rises in ends if rises), default=None)


def _date(control: ItemFinding) -> str:
    return next(run.date for piece in control.pieces for run in piece.runs if run.figure)


def _smallest_first(row: Bar) -> tuple[bool, float]:
    return row.figure is None, row.figure.value if row.figure else 0.0
