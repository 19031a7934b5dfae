"""What the template of a heating chart is given: the placed drawing, the facts of its sentence, its table."""

from __future__ import annotations

import math
from dataclasses import dataclass

from markupsafe import Markup

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN
from generator.charts.description import HeatingChart, Limit, Line
from generator.charts.interactive import live
from generator.charts.numerals import numeral, plain
from generator.charts.series import Place
from generator.charts.still import Still, still
from generator.pages.format import (
    CELSIUS,
    FAHRENHEIT,
    Both,
    Plus,
    amperes,
    celsius,
    difference,
    figure,
    minutes,
    plus,
)
from generator.pages.render import data_block

FIRST = 10
"""Minutes in which a small part has heated: the live chart has a button for them."""


@dataclass(frozen=True)
class Named:
    """A figure, whose it is, and how many pieces it rests on."""

    name: str
    plus: Plus
    n: int


@dataclass(frozen=True)
class Stop:
    """A piece that was stopped, and at how many minutes."""

    name: str
    piece: str
    at: str


@dataclass(frozen=True)
class Against:
    """A limit that is drawn: a temperature in an air, or a rise without; `claimed` by a maker or not."""

    limit: Both
    air: Both | None
    claimed: bool = False


@dataclass(frozen=True)
class ChartFacts:
    """What the words around a chart are made of.

    Attributes:
        mark: The time mark; empty without one.
        current: The set current; empty without one.
        coolest: The smallest figure; None without any.
        hottest: The largest figure of at least two.
        between: How many items lie between those two.
        stopped: Pieces that were stopped.
        limits: Limits that are drawn.
        thin: Whether pieces are drawn as thin lines.
        fitted: Whether curves through the readings are drawn.
        hollow: Whether an item of one piece is drawn.
        struck: Whether excluded readings are drawn.
        gaps: Whether a line breaks.
        first: How many of the first minutes the live chart has a button for; 0 for none.
    """

    mark: str
    current: str
    coolest: Named | None
    hottest: Named | None
    between: int
    stopped: tuple[Stop, ...]
    limits: tuple[Against, ...]
    thin: bool
    fitted: bool
    hollow: bool
    struck: bool
    gaps: bool
    first: int = 0


@dataclass(frozen=True)
class Head:
    """A head of the chart's table.

    Attributes:
        name: Of the item or the control, with the piece's letter where it is one of several.
        pieces: How many pieces its figures are the mean of; 0 of one of several, and of a control.
        control: Whether it is a run of a control.
    """

    name: str
    pieces: int
    control: bool


@dataclass(frozen=True)
class Row:
    """A row of the chart's table: minutes, and a figure or None for each column."""

    minutes: str
    cells: tuple[Plus | None, ...]


@dataclass(frozen=True)
class ChartView:
    """Everything that `fragments/heating.html.jinja` is given.

    Attributes:
        id: Unique on the page.
        still: The placed drawing.
        live: The live chart, as JSON.
        facts: What the words are made of.
        columns: Heads of the table.
        rows: Its rows.
    """

    id: str
    still: Still
    live: Markup
    facts: ChartFacts
    columns: tuple[Head, ...]
    rows: tuple[Row, ...]


def chart_view(chart: HeatingChart) -> ChartView:
    """From a chart's description to what its template is given."""
    lines = [line for line in chart.lines if line.lead]
    ordered = sorted(lines, key=lambda line: line.kind == "control")
    times = sorted({place.minutes for line in ordered for place in line.places if place})
    columns = tuple(_head(line) for line in ordered)
    rows = tuple(Row(plain(round(time, 2)), tuple(_cell(line, time) for line in ordered)) for time in times)
    return ChartView(chart.id, still(chart), data_block(live(chart)), _facts(chart, lines), columns, rows)


def _head(line: Line) -> Head:
    control = line.kind == "control"
    name = f"{line.name.full} {line.piece}".rstrip()
    return Head(name, 0 if control or line.kind == "piece" else line.n, control)


def _facts(chart: HeatingChart, lines: list[Line]) -> ChartFacts:
    figures = [(line, line.figure) for line in lines if line.figure and line.kind != "control"]
    ranked = sorted(figures, key=lambda each: each[1].value)
    named = [Named(line.name.full, figure(estimate), line.n) for line, estimate in ranked]
    return ChartFacts(
        mark=minutes(chart.at * 60) if chart.at is not None else "",
        current=amperes(chart.set_current),
        coolest=named[0] if named else None,
        hottest=named[-1] if len(named) > 1 else None,
        between=max(len(named) - 2, 0),
        stopped=tuple(
            Stop(line.name.full, line.piece, plain(round(line.stopped, 1)))
            for line in chart.lines
            if line.stopped is not None
        ),
        limits=tuple(_against(limit) for limit in chart.limits),
        thin=any(not line.lead for line in chart.lines),
        fitted=any(line.fitted for line in chart.lines),
        hollow=any(line.kind == "single" for line in lines),
        struck=bool(chart.struck),
        gaps=any(place is None for line in lines for place in line.places),
        first=FIRST if chart.x.high > FIRST else 0,
    )


def _against(limit: Limit) -> Against:
    if limit.reference is None:
        return Against(difference(limit.value), None, limit.claimed)
    return Against(celsius(limit.value), celsius(limit.reference), limit.claimed)


def _cell(line: Line, time: float) -> Plus | None:
    place = next((each for each in line.places if each and math.isclose(each.minutes, time)), None)
    return None if place is None else told(place)


def told(place: Place) -> Plus:
    """A point of a curve as text."""
    if place.half_width:
        return plus(place.rise, place.half_width, "K")
    us = numeral(place.rise * FAHRENHEIT_PER_KELVIN, 1)
    return Plus(numeral(place.rise, 1), "", us, "", CELSIUS, FAHRENHEIT, rise=True)
