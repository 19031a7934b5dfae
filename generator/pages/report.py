"""What the report page is given, gathered from the records and the findings of one report."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from generator.charts.bars import bars
from generator.charts.description import Name, heating_chart
from generator.evaluation.findings import MeasureFinding, ReportFinding
from generator.pages import addresses
from generator.pages.answer import Answer, answers
from generator.pages.cards import Card, OpinionView, card, opinion_view
from generator.pages.cautions import Cautions, cautions
from generator.pages.changed import Changed
from generator.pages.chart import ChartView, chart_view
from generator.pages.disclosure import Disclosure, disclosure
from generator.pages.figures import About, FiguresView, figures_view
from generator.pages.fit import FitView, fit_view
from generator.pages.format import Day, amperes, day, minutes
from generator.pages.measured import MeasuredView, measured_view
from generator.pages.method import Condition, conditions_of
from generator.pages.names import names_of
from generator.pages.sure import Errors, SureView, errors_in, sure_view
from generator.records.bench import Bench, Report
from generator.records.schema.measures import HeatingMeasure
from generator.records.schema.method import Method

_MAIL = re.compile(r"[A-Za-z0-9._+-]+@[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+")
_WEB = re.compile(r"https?://[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+(?:/[A-Za-z0-9._~/?=&%-]*)?")

FEW_DAYS = 4
"""So many days are told one by one; of more, the first and the last."""


@dataclass(frozen=True)
class Contact:
    """How to reach the reviewer; `href` is empty where it is neither an address of mail nor of a page."""

    text: str
    href: str


@dataclass(frozen=True)
class Choice:
    """What the reviewer would choose, and why."""

    name: str
    because: str


@dataclass(frozen=True)
class Part:
    """What is shown of one measure.

    Attributes:
        measure: Its id.
        title: Its name as the method says.
        figures: The bars.
        chart: The curves.
        sure: Its pairs, spreads and budgets.
        without: Names of items that have no figure.
        answers: What they answer, the fullest first.
    """

    measure: str
    title: str
    figures: FiguresView
    chart: ChartView
    sure: SureView
    without: tuple[str, ...]
    answers: tuple[Answer, ...]


@dataclass(frozen=True)
class ReportView:
    """Everything that `pages/report.md.jinja` is given, and its fragments; the parts stand in its order."""

    id: str
    edition: int
    canonical: Markup
    reviewer: str
    demonstration: bool
    question: str
    date: Day | None
    days: tuple[Day, ...]
    more_days: int
    disclosure: Disclosure
    cautions: Cautions
    choice: Choice | None
    main: Part | None
    parts: tuple[Part, ...]
    fit: FitView
    cards: tuple[Card, ...]
    anchors: Mapping[str, Markup]
    opinions: tuple[OpinionView, ...]
    errors: Errors
    measured: MeasuredView
    conditions: tuple[Condition, ...]
    cannot_show: tuple[str, ...]
    contact: Contact
    names: Mapping[str, str]
    changed: Changed | None = None

    @property
    def answers(self) -> tuple[Answer, ...]:
        """What the main measure answers, the fullest first; without it, what is missing."""
        if self.main:
            return self.main.answers
        return (Answer(missing=("not-evaluated" if self.days else "no-run",)),)


def report_view(bench: Bench, report: Report, finding: ReportFinding) -> ReportView:
    """Gather what the page of a report says."""
    record, methods = report.record, methods_of(bench, report)
    measures = tuple(each for each in finding.measures if each.kind == "heating")
    items = {key: bench.items[key] for key in record.items}
    runs = tuple(report.runs.values())
    names = names_of(items, tuple(dict.fromkeys(run.control for run in runs if run.control)))
    cards = tuple(card(key, items[key], measures, report.runs, record.opinions) for key in items)
    parts = tuple(_part(report, measure, names, cards, methods) for measure in measures)
    tested = {key: sorted({run.specimen for run in runs if run.item == key}) for key in items}
    full = {key: name.full for key, name in names.items()}
    days = tuple(day(each) for each in finding.dates)
    return ReportView(
        id=report.id,
        edition=edition_of(report),
        canonical=addresses.anchor(addresses.report(report.id)),
        reviewer=bench.settings.reviewer,
        demonstration=bench.settings.demonstration,
        question=record.question,
        date=days[-1] if days else None,
        days=days if len(days) <= FEW_DAYS else (days[0], days[-1]),
        more_days=len(days) - 2 if len(days) > FEW_DAYS else 0,
        disclosure=disclosure(items, tested, record.initiative, bench.settings.disclosure or ""),
        cautions=cautions(methods),
        choice=Choice(items[record.choice].title, record.because or "") if record.choice else None,
        main=next((part for part in parts if part.measure == record.main), None),
        parts=parts,
        fit=fit_view(bench, report, finding, names, cards),
        cards=cards,
        anchors={key: addresses.anchor(f"item-{key}") for key in items},
        opinions=tuple(opinion_view(each, report.runs) for each in record.opinions if not each.item),
        errors=errors_in(measures, bench.instruments),
        measured=measured_view(runs, measures, bench.instruments, full),
        conditions=conditions_of(methods[-1]),
        cannot_show=tuple(dict.fromkeys(text for method in methods for text in method.cannot_show)),
        contact=contact(bench.settings.contact),
        names=full,
    )


def edition_of(report: Report) -> int:
    """The edition that a draft will be: its address is known before it is published."""
    return max(report.editions, default=0) + 1


def methods_of(bench: Bench, report: Report) -> tuple[Method, ...]:
    """Every version of a method that the report's runs were made by, in order of id and version.

    A report without a run rests on those that state its measures: their cautions stand on it from the start.
    """
    used = sorted({(run.method, run.version) for run in report.runs.values()})
    if used:
        return tuple(bench.methods[key][version] for key, version in used)
    stating = [
        versions[max(versions)]
        for _, versions in sorted(bench.methods.items())
        if any(versions[max(versions)].measure(measure) for measure in report.record.measures)
    ]
    return tuple(stating)


def contact(text: str) -> Contact:
    """How to reach the reviewer, as a link where it is one of the two forms known here."""
    if _MAIL.fullmatch(text):
        return Contact(text, f"mailto:{text}")
    return Contact(text, text if _WEB.fullmatch(text) else "")


def _part(
    report: Report,
    measure: MeasureFinding,
    names: Mapping[str, Name],
    cards: tuple[Card, ...],
    methods: tuple[Method, ...],
) -> Part:
    method = next(each for each in reversed(methods) if each.id == measure.method)
    stated = method.measure(measure.measure)
    full = {key: name.full for key, name in names.items()}
    about = About(
        {each.id: each.stock for each in cards},
        {each.id: each.price for each in cards},
        full,
        {each.id: each.stops(measure.measure) for each in cards},
        (stated.name if stated else None) or measure.measure,
        minutes(measure.at) if measure.at is not None else "",
        amperes(measure.set_current),
    )
    of = f"{report.id}-{edition_of(report)}"
    claimed = [number for number, each in enumerate(report.record.limits) if each.standing == "claimed"]
    described = bars(f"{of}-figures-{measure.measure}", measure, names, claimed)
    chart = heating_chart(
        f"{of}-curves-{measure.measure}",
        measure,
        names,
        schedule=tuple(each.si for each in method.schedule or ()),
        within=stated.within.si if isinstance(stated, HeatingMeasure) else 0.0,
        stops={key: run.stopped.at.si for key, run in report.runs.items() if run.stopped},
    )
    return Part(
        measure.measure,
        about.title,
        figures_view(described, about),
        chart_view(chart),
        sure_view(measure, full),
        tuple(full[each.item] for each in measure.items if each.figure is None),
        answers(described, about.stops),
    )
