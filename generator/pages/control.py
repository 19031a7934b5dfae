"""What the control charts on a method's page are given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.charts.control import ControlDrawing, control_drawing
from generator.evaluation.control import ControlChart, control_charts
from generator.pages import addresses
from generator.pages.format import Day, Plus, Span, day
from generator.pages.render import Renderer
from generator.pages.results import Reported
from generator.pages.shown import Shown, shown
from generator.records.bench import Bench


@dataclass(frozen=True)
class ControlRow:
    """One result: its day, the figure, whether it lies beyond the limits, and the report that tells of it."""

    day: Day
    plus: Plus
    beyond: bool
    question: str
    report: Markup


@dataclass(frozen=True)
class ControlView:
    """Everything that `fragments/control.html.jinja` is given.

    Attributes:
        id: Id of the drawing.
        control: Name of the control.
        title: The measure's name.
        rise: Whether the figures are rises above the air.
        rows: Its results in order of date.
        limits: The limits; None below eight results.
        drawing: The chart; None without limits.
    """

    id: str
    control: str
    title: str
    rise: bool
    rows: tuple[ControlRow, ...]
    limits: Span | None
    drawing: ControlDrawing | None

    @property
    def beyond(self) -> int:
        """Results that lie beyond the limits."""
        return sum(row.beyond for row in self.rows)


def control_views(bench: Bench, reported: Sequence[Reported], method: str, here: str) -> list[ControlView]:
    """The control charts of a method as seen from an address."""
    findings = {each.report.id: each.finding for each in reported}
    questions = {each.report.id: each.report.record.question for each in reported}
    versions = bench.methods[method]
    newest = versions[max(versions)]
    found = []
    for number, chart in enumerate(control_charts(bench, findings, method), 1):
        stated = newest.measure(chart.measure)
        title = (stated.name if stated is not None else None) or chart.measure
        found.append(_view(f"{method}-control-{number}", title, chart, questions, here))
    return found


def _view(key: str, title: str, chart: ControlChart, questions: Mapping[str, str], here: str) -> ControlView:
    unit, limits = shown(chart.finding), chart.limits
    rows = tuple(
        ControlRow(
            day(each.date),
            unit.plus(each.figure.value, each.figure.half_width),
            each.beyond,
            questions[each.report],
            addresses.link(here, addresses.report(each.report)),
        )
        for each in chart.results
    )
    return ControlView(
        key,
        chart.control.replace("-", " "),
        title,
        chart.finding.unit == "K",
        rows,
        unit.span(limits.low, limits.high) if limits is not None else None,
        _drawing(chart, unit),
    )


def _drawing(chart: ControlChart, unit: Shown) -> ControlDrawing | None:
    if chart.limits is None:
        return None
    limits = replace(
        chart.limits,
        centre=chart.limits.centre * unit.factor,
        low=chart.limits.low * unit.factor,
        high=chart.limits.high * unit.factor,
    )
    values = [each.figure.value * unit.factor for each in chart.results]
    return control_drawing(values, limits, unit.unit)


def control_fragment(view: ControlView, renderer: Renderer) -> str:
    """A control chart with its table."""
    svg = renderer.fragment("charts/control.svg.jinja", view=view) if view.drawing is not None else ""
    return renderer.fragment("fragments/control.html.jinja", view=view, svg=svg)
