"""What the pages outside of reports tell of results: one row an item, a measure and a report."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.evaluation.findings import (
    ItemFinding,
    MeasureFinding,
    PieceFinding,
    ReportFinding,
)
from generator.evaluation.statements import ItemOutcome, LimitFinding, Side
from generator.evaluation.versions import versions_of
from generator.pages import addresses
from generator.pages.format import Both, Day, Plus, amperes, day, minutes, quantity
from generator.pages.pieces import PiecesView, pieces_view
from generator.pages.report import ReportView, methods_of
from generator.pages.shown import Shown, shown
from generator.pages.statements import reference_ambient
from generator.pages.stocks import stock_name
from generator.pages.tallied import Told, told_of
from generator.records.bench import Bench, Report
from generator.records.run import Run
from generator.records.schema.item import Item
from generator.records.schema.measures import AnyMeasure
from generator.records.schema.method import Method
from generator.records.schema.report import Limit
from generator.records.schema.settings import ReferenceAmbient


@dataclass(frozen=True)
class Reported:
    """A report with what was found in it and what its page says.

    Attributes:
        report: The report.
        finding: What was found in it.
        view: What its page says.
        bench: The records that it was found in, those of its edition; None where they are those of the page.
    """

    report: Report
    finding: ReportFinding
    view: ReportView
    bench: Bench | None = None


@dataclass(frozen=True)
class ReportLink:
    """A report seen from another page.

    Attributes:
        question: Its question.
        edition: The edition that its address shows.
        draft: Whether that is a draft.
        day: Of its publishing; of a draft, of its newest run; None without one.
        link: To the item's part of it.
        id: Its id.
    """

    question: str
    edition: int
    draft: bool
    day: Day | None
    link: Markup
    id: str


@dataclass(frozen=True)
class Against:
    """What is said of an item against one limit: of a rise, or of a temperature in a reference air."""

    outcome: ItemOutcome
    kind: str
    standing: str
    limit: Both
    reference: Both | None
    leaning: Side | None


@dataclass(frozen=True)
class PieceResult:
    """One piece: its figure or why it has none, the minute it was stopped at, the name of an older stock."""

    letter: str
    plus: Plus | None
    why_not: str
    stopped: str
    older: str
    day: Day


@dataclass(frozen=True)
class Result:
    """An item by one measure of one report.

    Attributes:
        report: The report.
        measure: The measure's name as the method says.
        main: Whether it is the measure that answers the report's question.
        method: Title and newest version of the method that ran.
        link: To that version.
        why_not: Why there is no figure; empty with one.
        n: Pieces that the figure rests on; without one, pieces that have none.
        mark: The time mark; empty without.
        current: The set current; empty without.
        days: First and last day of its runs; empty without.
        plus: The figure; None without one.
        meter_only: Whether its ± is the meter's alone.
        stopped: Pieces that were stopped.
        states: How runs ended that did not settle: which way, and how many.
        against: What is said against the report's limits.
        pieces: Each piece.
        value: The figure in the measure's unit; None without one.
        rise: Whether it is a rise above the air.
        stock: Name of the stock that the figure stands for; empty where the item has one only.
        tallied: What was counted or asked in place of a figure; None by a measure that has one.
        rests: What the figure rests on, and what its pieces tell beside it; None without findings.
        versions: Of the method that the figure is by; empty without one.
    """

    report: ReportLink
    measure: str
    main: bool
    method: str
    link: Markup
    why_not: str = ""
    n: int = 0
    mark: str = ""
    current: str = ""
    days: tuple[Day, ...] = ()
    plus: Plus | None = None
    meter_only: bool = False
    stopped: int = 0
    states: tuple[tuple[str, int], ...] = ()
    against: tuple[Against, ...] = ()
    pieces: tuple[PieceResult, ...] = ()
    value: float | None = None
    rise: bool = False
    stock: str = ""
    tallied: Told | None = None
    rests: PiecesView | None = None
    versions: tuple[int, ...] = ()


def newest_first(reported: Sequence[Reported]) -> tuple[Reported, ...]:
    """Reports by the day of their newest run, the newest first; of one day, by id."""
    by_id = sorted(reported, key=lambda each: each.report.id)
    return tuple(sorted(by_id, key=lambda each: max(each.finding.dates, default=""), reverse=True))


def results_of(bench: Bench, key: str, reported: Sequence[Reported], here: str) -> tuple[Result, ...]:
    """Every result of an item, newest reports first, each report's main measure first.

    Args:
        bench: The records.
        key: Id of the item.
        reported: Every report.
        here: Address of the page that shows them.
    """
    found = []
    for each in newest_first(reported):
        if key in each.report.record.items:
            own = [result_of(bench, each, measure, key, here) for measure in each.report.record.measures]
            found += sorted(own, key=lambda result: not result.main)
    return tuple(found)


def result_of(bench: Bench, reported: Reported, measure: str, key: str, here: str) -> Result:
    """An item by one measure of a report that names both."""
    record, bench = reported.report.record, reported.bench or bench
    method = _stating(bench, reported, measure)
    stated = method.measure(measure)
    found = next((each for each in reported.finding.measures if each.measure == measure), None)
    item = next((each for each in found.items if each.item == key), None) if found else None
    bare = Result(
        report_link(reported, key, here),
        (stated.name if stated else None) or measure,
        measure == record.main,
        method.title,
        addresses.link(here, addresses.version(method.id, method.version)),
    )
    told = next((each for each in told_of(reported.view.tallied, key) if each.view.measure == measure), None)
    if told is not None:
        return _counted(bare, told)
    if found is None or item is None:
        return replace(bare, why_not="no-run")
    air = reference_ambient(method, bench.settings.reference_ambient)
    said = tuple(_against(each, record.limits[each.number], air) for each in item.limits)
    return _told(replace(bare, against=said), found, item, bench.items[key], reported.report.runs)


def report_link(reported: Reported, key: str, here: str) -> ReportLink:
    """A link to an item's part of a report."""
    view = reported.view
    anchor = "" if view.standing.withdrawn else f"item-{key}"
    link = addresses.link(here, addresses.report(view.id), anchor)
    return ReportLink(view.question, view.edition, view.standing.day is None, view.date, link, view.id)


def _stating(bench: Bench, reported: Reported, measure: str) -> Method:
    """The newest version that a measure ran by; where none did, the newest that states it."""
    found = next((each for each in reported.finding.measures if each.measure == measure), None)
    if found is not None:
        return bench.methods[found.method][max(found.versions)]
    own = [each for each in methods_of(bench, reported.report) if each.measure(measure)]
    return max(own, key=lambda each: each.version)


def stated_by(versions: Mapping[int, Method], measure: str) -> tuple[Method, AnyMeasure]:
    """The newest version of a method that states a measure, and the measure as it does.

    Raises:
        ValueError: No version does.
    """
    found = ((each, each.measure(measure)) for _, each in sorted(versions.items(), reverse=True))
    for method, stated in found:
        if stated is not None:
            return method, stated
    raise ValueError(f"no version states {measure}")


def _told(
    bare: Result, measure: MeasureFinding, found: ItemFinding, item: Item, runs: Mapping[str, Run]
) -> Result:
    unit = shown(measure)
    pieces = tuple(_piece(each, found, item, runs, unit) for each in found.pieces)
    dates = sorted({run.date for piece in found.pieces for run in piece.runs})
    return replace(
        bare,
        why_not=found.why_not or "",
        n=found.n,
        mark=minutes(measure.at) if measure.at is not None else "",
        current=amperes(measure.set_current),
        days=tuple(day(each) for each in dict.fromkeys((*dates[:1], *dates[-1:]))),
        plus=unit.figure(found.figure),
        meter_only=found.figure is not None and found.n == 1 and found.spread.origin == "none",
        stopped=sum(each.why_not == "stopped" and not each.older for each in pieces),
        states=tuple(_states(found)),
        pieces=pieces,
        value=found.figure.value if found.figure else None,
        rise=measure.unit == "K",
        stock=stock_name(item, found.stock),
        rests=pieces_view(found, unit, measure),
        versions=versions_of(found),
    )


def _counted(bare: Result, told: Told) -> Result:
    """A count or a question: its days are told piece by piece."""
    return replace(bare, n=told.row.pieces, stock=told.row.stock, tallied=told)


def _piece(
    piece: PieceFinding, found: ItemFinding, item: Item, runs: Mapping[str, Run], unit: Shown
) -> PieceResult:
    # The run that gives the figure, else the last: a later heating is told in the report.
    told = next((run for run in piece.runs if run.figure == piece.figure and run.figure), piece.runs[-1])
    stop = runs[told.run].stopped
    return PieceResult(
        piece.specimen,
        unit.figure(piece.figure),
        "" if piece.figure else told.why_not or "other-heating",
        minutes(stop.at.si) if stop is not None and piece.figure is None else "",
        "" if piece.stock == found.stock else stock_name(item, piece.stock),
        day(told.date),
    )


def _states(found: ItemFinding) -> Iterator[tuple[str, int]]:
    """How the runs of its newest stock ended, settled apart."""
    ends = [run.end for each in found.pieces if each.stock == found.stock for run in each.runs[:1]]
    states = [end.state for end in ends if end is not None and end.state != "settled"]
    for state in dict.fromkeys(states):
        yield state, states.count(state)


def _against(found: LimitFinding, limit: Limit, air: ReferenceAmbient | None) -> Against:
    reference = quantity(air.value) if air is not None and found.kind == "temperature" else None
    return Against(found.outcome, limit.kind, limit.standing, quantity(limit.value), reference, found.leaning)
