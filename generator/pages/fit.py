"""What "Where will you fit it?" and "Settled?" are given, gathered from a report's measures of heating."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.charts.description import Name
from generator.evaluation.findings import MeasureFinding, ReportFinding
from generator.pages.cards import Card
from generator.pages.ends import EndRow, SettledRule, end_rows, settled_rule
from generator.pages.statements import (
    Heated,
    LimitView,
    UnheldView,
    limit_views,
    reference_ambient,
    unheld_views,
)
from generator.pages.where import WhereView, where_views
from generator.records.bench import Bench, Report
from generator.records.schema.measures import HeatingMeasure


@dataclass(frozen=True)
class FitView:
    """What is said of the parts in use.

    Attributes:
        where: Their temperatures in air from cool to hot.
        limits: What is said against the report's limits.
        unheld: The limits that nothing is said against.
        settled: When a run counts as settled; None without a measure of heating.
        ends: How the runs ended.
    """

    where: tuple[WhereView, ...]
    limits: tuple[LimitView, ...]
    unheld: tuple[UnheldView, ...]
    settled: SettledRule | None
    ends: tuple[EndRow, ...]


def fit_view(
    bench: Bench, report: Report, finding: ReportFinding, names: Mapping[str, Name], cards: Iterable[Card]
) -> FitView:
    """Gather what is said of a report's parts in use; the main measure stands first."""
    measures = sorted(
        (each for each in finding.measures if each.kind == "heating"),
        key=lambda each: each.measure != finding.main,
    )
    heated = [_heated(bench, each) for each in measures]
    held = [*heated, *(_heated(bench, each) for each in finding.measures if each.kind != "heating")]
    limits = report.record.limits
    said = limit_views(limits, held, names), unheld_views(limits, held)
    if not measures:
        return FitView((), *said, None, ())
    first = measures[0]
    stops = {each.id: each.stops(first.measure) for each in cards}
    return FitView(
        where_views(limits, heated, names, stops),
        *said,
        _settled(bench, first),
        end_rows(first, names),
    )


def _heated(bench: Bench, measure: MeasureFinding) -> Heated:
    """A measure with its name and reference ambient, as the newest version that ran has them."""
    method = bench.methods[measure.method][max(measure.versions)]
    stated = method.measure(measure.measure)
    title = (stated.name if stated is not None else None) or measure.measure
    return Heated(measure, title, reference_ambient(method, bench.settings.reference_ambient))


def _settled(bench: Bench, measure: MeasureFinding) -> SettledRule | None:
    method = bench.methods[measure.method][max(measure.versions)]
    stated = method.measure(measure.measure)
    return settled_rule(method, stated) if isinstance(stated, HeatingMeasure) else None
