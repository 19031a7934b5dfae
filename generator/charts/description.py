"""A heating chart as numbers, roles and names; the still and the live chart are drawn from this one thing.

Times are in minutes, rises in K. Nothing here is a pixel or a colour.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from generator.analysis.interval import Estimate
from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN
from generator.charts.looks import CONTROL, Look, look_of
from generator.charts.scales import Scale, minute_scale, value_scale
from generator.charts.series import (
    Fitted,
    Places,
    Struck,
    counted,
    curve_of,
    fitted_of,
    mean_curve,
    struck_of,
)
from generator.evaluation.findings import ItemFinding, MeasureFinding, RunFinding


@dataclass(frozen=True)
class Name:
    """What readers call an item or a control.

    Attributes:
        full: Maker and model.
        short: Enough to tell it from the others of the report.
    """

    full: str
    short: str


LineKind = Literal["mean", "single", "piece", "control"]
"""Mean of several pieces; the only piece; one of several; a control."""


@dataclass(frozen=True)
class Line:
    """One curve.

    Attributes:
        item: Id of the item or control.
        name: Its name.
        piece: Letter of the piece; empty for a mean. Of several controls, which, from 1.
        kind: What it is a curve of.
        look: Colour role, marker and dash.
        lead: Whether it stands for its item, with markers and a label; else it is a thin line behind.
        places: Its points, with gaps.
        figure: The item's figure, for the label; None without one.
        n: Pieces that it stands for.
        stopped: When the run was stopped, minutes, so that the line ends in a mark; None where it was not.
        fitted: The curve through its readings, for a line of one run that has one.
    """

    item: str
    name: Name
    piece: str
    kind: LineKind
    look: Look
    lead: bool
    places: Places
    figure: Estimate | None
    n: int = 1
    stopped: float | None = None
    fitted: Fitted | None = None


@dataclass(frozen=True)
class Limit:
    """A limit of the report, as far up as it lies over the reference ambient.

    Attributes:
        rise: Where it lies, K.
        value: The limit itself: °C, or K for one on the rise.
        reference: The air that it is told for, °C; None for a limit on the rise.
        claimed: Whether it is a figure that the maker prints.
    """

    rise: float
    value: float
    reference: float | None
    claimed: bool = False


@dataclass(frozen=True)
class HeatingChart:
    """Rise against time.

    Attributes:
        id: Unique on its page.
        at: The time mark, minutes; None without one.
        set_current: A; None without one.
        x: Minutes.
        y: Rise in K.
        y_us: The same scale with ticks at round figures of °F, still placed in K.
        lines: In the order they are drawn: thin ones first, then controls, then items.
        struck: Excluded readings.
        limits: Limits that hold for the point and the conditions of the measure, lowest first.
    """

    id: str
    at: float | None
    set_current: float | None
    x: Scale
    y: Scale
    y_us: Scale
    lines: tuple[Line, ...]
    struck: tuple[Struck, ...]
    limits: tuple[Limit, ...] = ()


def heating_chart(
    chart_id: str,
    measure: MeasureFinding,
    names: Mapping[str, Name],
    *,
    schedule: Sequence[float] = (),
    within: float = 30.0,
    stops: Mapping[str, float] | None = None,
) -> HeatingChart:
    """Describe how the items of a measure heated.

    Args:
        chart_id: An id, unique on the page.
        measure: What was found.
        names: Names of all its items and controls by id.
        schedule: The method's times to read at, in s.
        within: How far off them a reading may lie, in s.
        stops: When runs were stopped, in s, by the run's id.

    Returns:
        The description. Items without any reading have no line.
    """
    lines = _Drawing(names, tuple(schedule), within, stops or {}).lines(measure)
    every = (*measure.items, *measure.controls)
    struck = tuple(each for item in every for _, run in counted(item) for each in struck_of(run))
    limits = _limits(measure)
    y, y_us = _rises(lines, [*(each.rise for each in struck), *(each.rise for each in limits)])
    longest = max((place.minutes for line in lines for place in line.places if place), default=0.0)
    at = None if measure.at is None else measure.at / 60
    return HeatingChart(
        chart_id,
        at,
        measure.set_current,
        minute_scale(max(longest, at or 0.0)),
        y,
        y_us,
        tuple(sorted(lines, key=_depth)),
        struck,
        limits,
    )


def _depth(line: Line) -> int:
    return 0 if not line.lead else 1 if line.kind == "control" else 2


@dataclass(frozen=True)
class _Drawing:
    """What all lines of a chart need: see `heating_chart`."""

    names: Mapping[str, Name]
    schedule: tuple[float, ...]
    within: float
    stops: Mapping[str, float]

    def lines(self, measure: MeasureFinding) -> list[Line]:
        """Every line that has a point."""
        several = len(measure.controls) > 1
        numbers = [str(number) if several else "" for number in range(1, len(measure.controls) + 1)]
        found = [line for item in measure.items for line in self.item(item)]
        found += [self.control(*each) for each in zip(measure.controls, numbers, strict=True)]
        return [line for line in found if any(line.places)]

    def item(self, item: ItemFinding) -> list[Line]:
        """The lines of one item: its mean with the pieces behind it, or its pieces where there is no mean."""
        lines = [self._run(item, piece.specimen, run) for piece, run in counted(item)]
        if item.figure is None:
            alone: LineKind = "single" if len(lines) == 1 else "piece"
            return [replace(line, kind=alone, lead=True) for line in lines]
        places = mean_curve(item, self.schedule, self.within)
        name, look = self.names[item.item], look_of(item.order)
        kind: LineKind = "mean" if item.n > 1 else "single"
        fitted = lines[0].fitted if len(lines) == 1 else None
        mean = Line(item.item, name, "", kind, look, True, places, item.figure, item.n, fitted=fitted)
        return [*lines, mean] if len(lines) > 1 else [mean]

    def control(self, control: ItemFinding, number: str) -> Line:
        """The line of a control; `number` tells it from others."""
        places = mean_curve(control, self.schedule, self.within)
        return Line(
            control.item, self.names[control.item], number, "control", CONTROL, True, places, control.figure
        )

    def _run(self, item: ItemFinding, piece: str, run: RunFinding) -> Line:
        stop = self.stops.get(run.run)
        stopped = None if stop is None else stop / 60
        name, look = self.names[item.item], look_of(item.order)
        return Line(
            item.item,
            name,
            piece,
            "piece",
            look,
            False,
            curve_of(run),
            None,
            stopped=stopped,
            fitted=fitted_of(run),
        )


def _limits(measure: MeasureFinding) -> tuple[Limit, ...]:
    """What the items are held against, each once."""
    found = {
        each.number: Limit(each.limit - (each.reference or 0.0), each.limit, each.reference, each.claimed)
        for item in measure.items
        for each in item.limits
    }
    return tuple(sorted(found.values(), key=lambda each: each.rise))


def _rises(lines: Sequence[Line], others: Sequence[float]) -> tuple[Scale, Scale]:
    """The scale of rises with ticks for K, and the same with ticks for °F; `others` are rises in K too."""
    rises = list(others)
    for line in lines:
        for place in line.places:
            if place:
                reach = (place.half_width or 0.0) if line.lead and line.kind != "control" else 0.0
                rises += [place.rise - reach, place.rise + reach]
    scale = value_scale(rises)
    return scale, us_scale(scale)


def us_scale(scale: Scale) -> Scale:
    """The same scale of rises, ticks where °F are round."""
    ticks = value_scale([scale.low * FAHRENHEIT_PER_KELVIN, scale.high * FAHRENHEIT_PER_KELVIN]).ticks
    placed = (tick / FAHRENHEIT_PER_KELVIN for tick in ticks)
    return Scale(scale.low, scale.high, tuple(tick for tick in placed if scale.low <= tick <= scale.high))
