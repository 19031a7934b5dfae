"""What the report page is given, gathered from the records and the findings of one report."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.charts.description import Name
from generator.evaluation.findings import ReportFinding
from generator.pages import addresses
from generator.pages.answer import Answer, tallied_answers
from generator.pages.cards import Card, OpinionView, card, opinion_view
from generator.pages.cautions import Cautions, cautions
from generator.pages.disclosure import Disclosure, disclosure
from generator.pages.fit import FitView, fit_view
from generator.pages.format import Day, day
from generator.pages.measured import MeasuredView, measured_view
from generator.pages.method import Condition, conditions_of
from generator.pages.names import names_of
from generator.pages.older import older_by_item
from generator.pages.parts import Part, drawings_of, edition_of, parts_of, titles_of
from generator.pages.priced import PricesView, prices_view
from generator.pages.standing import Standing
from generator.pages.sure import Errors, errors_in
from generator.pages.tallied import Names, TallyView, tally_views, told_of
from generator.records.bench import Bench, Report
from generator.records.schema.item import Item
from generator.records.schema.measures import HeatingMeasure
from generator.records.schema.method import Method
from generator.records.schema.report import ReportRecord

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
class MethodConditions:
    """What a method, in the newest version that ran, asks of the conditions."""

    title: str
    conditions: tuple[Condition, ...]


@dataclass(frozen=True)
class ReportView:
    """Everything that `pages/report.md.jinja` is given, and its fragments; the parts stand in its order."""

    id: str
    standing: Standing
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
    answering: str
    parts: tuple[Part, ...]
    fit: FitView
    cards: tuple[Card, ...]
    anchors: Mapping[str, Markup]
    measures: Mapping[str, Markup]
    opinions: tuple[OpinionView, ...]
    errors: Errors
    measured: MeasuredView
    conditions: tuple[MethodConditions, ...]
    cannot_show: tuple[str, ...]
    contact: Contact
    heats: bool
    names: Mapping[str, str]
    tallied: tuple[TallyView, ...] = ()
    prices: PricesView | None = None

    @property
    def edition(self) -> int:
        """Its edition's number; of a draft the one it will have."""
        return self.standing.number

    @property
    def tables(self) -> Mapping[str, Markup]:
        """Names of the slots of tables by measure, as they stand in Markdown."""
        return {key: addresses.anchor(f"table-{key}") for key in self.measures}

    @property
    def main(self) -> Part | None:
        """What is shown of the measure that answers the question, where that gives figures."""
        return next((part for part in self.parts if part.measure == self.answering), None)

    @property
    def main_tallied(self) -> TallyView | None:
        """The count or question that answers the report's question, where one does."""
        return next((each for each in self.tallied if each.measure == self.answering), None)

    @property
    def answers(self) -> tuple[Answer, ...]:
        """What the main measure answers, the fullest first; without it, what is missing."""
        if self.main:
            return self.main.answers
        if self.main_tallied:
            return tallied_answers(self.main_tallied)
        return (Answer(missing=("not-measured" if self.days else "no-run",)),)

    @property
    def singles(self) -> tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]:
        """Items of which one piece only was tested, with the measures of which that is so of just these."""
        found: dict[tuple[str, ...], list[str]] = {}
        for part in self.parts:
            if part.sure.single:
                found.setdefault(part.sure.single, []).append(part.title)
        return tuple((names, tuple(titles)) for names, titles in found.items())

    @property
    def pooled(self) -> bool:
        """Whether any figure rests on a spread of several items together."""
        return any(part.sure.pooled for part in self.parts)

    @property
    def assumed(self) -> bool:
        """Whether anything in a ± is assumed."""
        return any(part.sure.assumed for part in self.parts)

    @property
    def heated(self) -> bool:
        """Whether there are curves to show."""
        return any(part.chart for part in self.parts)

    @property
    def older(self) -> bool:
        """Whether any of its items has results from before."""
        return any(card.older for card in self.cards)

    @property
    def also_tallied(self) -> tuple[TallyView, ...]:
        """What was counted and asked beside what answers the question."""
        return tuple(each for each in self.tallied if each is not self.main_tallied)

    @property
    def others(self) -> tuple[Part, ...]:
        """Measures without a series beside the one that answers the question."""
        return tuple(part for part in self.parts if part.table and part is not self.main)


def report_view(bench: Bench, report: Report, finding: ReportFinding) -> ReportView:
    """Gather what the page of a report says, as the draft of its next edition."""
    return edition_view(bench, report, finding, Standing(edition_of(report)))


def edition_view(bench: Bench, report: Report, finding: ReportFinding, at: Standing) -> ReportView:
    """Gather what the page of an edition or of a draft says."""
    record, methods, measures = report.record, methods_of(bench, report), finding.measures
    items = {key: bench.items[key] for key in record.items}
    names = names_of(items, tuple(dict.fromkeys(run.control for run in report.runs.values() if run.control)))
    tallied = tally_views(finding, Names(items, titles_of(report, methods)))
    cards = _cards(bench, report, finding, methods, tallied)
    parts = parts_of(report, measures, names, cards, methods)
    days = tuple(day(each) for each in finding.dates)
    shown = days if len(days) <= FEW_DAYS else (days[0], days[-1])
    return ReportView(
        id=report.id,
        standing=at,
        canonical=addresses.anchor(addresses.report(report.id)),
        reviewer=bench.settings.reviewer,
        demonstration=bench.settings.demonstration,
        question=record.question,
        date=at.day or (days[-1] if days else None),
        days=shown,
        more_days=len(days) - len(shown),
        disclosure=disclosure_of(bench, report),
        cautions=cautions(methods),
        choice=_choice(record, items),
        answering=record.main,
        parts=parts,
        fit=fit_view(bench, report, finding, names, cards),
        cards=cards,
        anchors={key: addresses.anchor(f"item-{key}") for key in items},
        measures={key: addresses.anchor(f"measure-{key}") for key in record.measures},
        opinions=tuple(opinion_view(each, report.runs) for each in record.opinions if not each.item),
        errors=errors_in(measures, bench.instruments),
        measured=measured_view(report.runs.values(), measures, bench.instruments, _in_full(names), methods),
        conditions=conditions_by_method(methods),
        cannot_show=tuple(dict.fromkeys(text for method in methods for text in method.cannot_show)),
        contact=contact(bench.settings.contact),
        heats=heats(methods),
        names=_in_full(names),
        prices=prices_view(finding, names, titles_of(report, methods), f"{drawings_of(report)}-prices"),
        tallied=tallied,
    )


def _in_full(names: Mapping[str, Name]) -> dict[str, str]:
    return {key: name.full for key, name in names.items()}


def _cards(
    bench: Bench,
    report: Report,
    finding: ReportFinding,
    methods: tuple[Method, ...],
    tallied: tuple[TallyView, ...],
) -> tuple[Card, ...]:
    titles, record = titles_of(report, methods), report.record
    items = {key: bench.items[key] for key in record.items}
    older = older_by_item((each for measure in finding.measures for each in measure.older), titles)
    return tuple(
        replace(
            card(key, item, finding.measures, report.runs, record.opinions, titles=titles),
            tallied=told_of(tallied, key),
            older=older.get(key, ()),
        )
        for key, item in items.items()
    )


def disclosure_of(bench: Bench, report: Report) -> Disclosure:
    """Who got the pieces of a report and how."""
    runs = report.runs.values()
    items = {key: bench.items[key] for key in report.record.items}
    tested = {key: sorted({run.specimen for run in runs if run.item == key}) for key in items}
    return disclosure(items, tested, report.record.initiative, bench.settings.disclosure or "")


def _choice(record: ReportRecord, items: Mapping[str, Item]) -> Choice | None:
    return Choice(items[record.choice].title, record.because or "") if record.choice else None


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


def newest_of(methods: tuple[Method, ...]) -> tuple[Method, ...]:
    """Of each method the newest version among these."""
    return tuple({each.id: each for each in methods}.values())


def conditions_by_method(methods: tuple[Method, ...]) -> tuple[MethodConditions, ...]:
    """What each method that asks for conditions asks for."""
    return tuple(
        MethodConditions(each.title, conditions_of(each)) for each in newest_of(methods) if each.conditions
    )


def heats(methods: tuple[Method, ...]) -> bool:
    """Whether any of the methods heats what it tests."""
    return any(isinstance(each, HeatingMeasure) for method in methods for each in method.measures)


def contact(text: str) -> Contact:
    """How to reach the reviewer, as a link where it is one of the two forms known here."""
    if _MAIL.fullmatch(text):
        return Contact(text, f"mailto:{text}")
    return Contact(text, text if _WEB.fullmatch(text) else "")
