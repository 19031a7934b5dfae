"""What is shown of one measure of a report: bars and curves, or a table, and how sure its figures are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.charts.bars import bars
from generator.charts.description import Name, heating_chart
from generator.evaluation.findings import MeasureFinding
from generator.evaluation.versions import versions_told
from generator.pages.answer import Answer, answers
from generator.pages.cards import Card
from generator.pages.chart import ChartView, chart_view
from generator.pages.electrical import ElectricalView, electrical_view
from generator.pages.figures import About, FiguresView, figures_view
from generator.pages.format import amperes, minutes
from generator.pages.in_unit import in_unit
from generator.pages.older import older_by_item
from generator.pages.quantities import QuantityView, quantity_view
from generator.pages.shown import shown
from generator.pages.sure import SureView, sure_view
from generator.records.bench import Report
from generator.records.schema.measures import HeatingMeasure
from generator.records.schema.method import Method


@dataclass(frozen=True)
class Part:
    """What is shown of one measure.

    Attributes:
        measure: Its id.
        title: Its name as the method says.
        figures: The bars.
        chart: The curves; None for a kind without a series.
        table: Its figures in a table, where it is not the main measure; None for a kind with a series.
        sure: Its pairs, spreads and budgets.
        without: Names of items that have no figure.
        answers: What they answer, the fullest first.
        electrical: How a drop, a resistance or a power is to be read; None for another kind.
        heating: Which heating of each piece is compared; 0 for a kind that counts none.
    """

    measure: str
    title: str
    figures: FiguresView
    chart: ChartView | None
    table: QuantityView | None
    sure: SureView
    without: tuple[str, ...]
    answers: tuple[Answer, ...]
    electrical: ElectricalView | None
    heating: int = 0


def edition_of(report: Report) -> int:
    """The edition that a draft will be: its address is known before it is published."""
    return max(report.editions, default=0) + 1


def titles_of(report: Report, methods: tuple[Method, ...]) -> dict[str, str]:
    """Names of the report's measures by id, as the newest version that states them says; else the id."""
    titles = {key: key for key in report.record.measures}
    for method in methods:
        for measure in method.measures:
            if measure.id in titles:
                titles[measure.id] = measure.name or measure.id
    return titles


def parts_of(
    report: Report,
    measures: tuple[MeasureFinding, ...],
    names: Mapping[str, Name],
    cards: tuple[Card, ...],
    methods: tuple[Method, ...],
) -> tuple[Part, ...]:
    """What is shown of each measure of a report.

    Args:
        report: The report.
        measures: What was found.
        names: Names of its items and controls by id.
        cards: The cards of its items.
        methods: The versions that ran.
    """
    titles = titles_of(report, methods)
    return tuple(_part(report, each, names, cards, methods, title=titles[each.measure]) for each in measures)


def _part(
    report: Report,
    measure: MeasureFinding,
    names: Mapping[str, Name],
    cards: tuple[Card, ...],
    methods: tuple[Method, ...],
    *,
    title: str,
) -> Part:
    full = {key: name.full for key, name in names.items()}
    about = About(
        {each.id: each.stock_of(measure.measure) for each in cards},
        {each.id: each.price for each in cards},
        full,
        {each.id: each.stops(measure.measure) for each in cards},
        title,
        minutes(measure.at) if measure.at is not None else "",
        amperes(measure.set_current),
        older_by_item(measure.older, {measure.measure: title}),
        {each.item: versions_told(measure, each) for each in measure.items},
    )
    claimed = [number for number, each in enumerate(report.record.limits) if each.standing == "claimed"]
    unit = shown(measure)
    described = bars(
        f"{drawings_of(report)}-figures-{measure.measure}", in_unit(unit, measure), names, claimed
    )
    heating = measure.kind == "heating"
    return Part(
        measure.measure,
        title,
        figures_view(described, about),
        _curves(report, measure, names, methods) if heating else None,
        None if heating else quantity_view(measure, title, about, unit),
        sure_view(measure, full),
        tuple(full[each.item] for each in measure.items if each.figure is None),
        answers(described, about.stops),
        electrical_view(measure, full),
        measure.heating or 0,
    )


def drawings_of(report: Report) -> str:
    """What ids of the report's drawings begin with."""
    return f"{report.id}-{edition_of(report)}"


def _curves(
    report: Report, measure: MeasureFinding, names: Mapping[str, Name], methods: tuple[Method, ...]
) -> ChartView:
    method = next(each for each in reversed(methods) if each.id == measure.method)
    stated = method.measure(measure.measure)
    chart = heating_chart(
        f"{drawings_of(report)}-curves-{measure.measure}",
        measure,
        names,
        schedule=tuple(each.si for each in method.schedule or ()),
        within=stated.within.si if isinstance(stated, HeatingMeasure) else 0.0,
        stops={key: run.stopped.at.si for key, run in report.runs.items() if run.stopped},
    )
    return chart_view(chart)
