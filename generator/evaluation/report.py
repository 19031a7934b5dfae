"""A report's runs → its findings: every measure, every item, every pair."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.analysis import specimens
from generator.analysis.comparison import Difference, difference
from generator.analysis.interval import half_width, parts
from generator.analysis.multiple import LEVEL, Held, holm
from generator.analysis.ranking import places
from generator.analysis.uncertainty import Ledger
from generator.evaluation.against import Ground, item_against
from generator.evaluation.findings import MeasureFinding, PairFinding, ReportFinding
from generator.evaluation.items import LiveItem, control_finding, item_finding
from generator.evaluation.kinds import KINDS, Kind
from generator.evaluation.kinds.task import Given, Task
from generator.evaluation.pieces import declared, figure_of, newest_stock, numbers, pieces_of, why_no_mean
from generator.evaluation.reduced import Reduced
from generator.evaluation.statements import Place
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.bench import Bench, Report
    from generator.records.run import Run
    from generator.records.schema.measures import Measure
    from generator.records.schema.method import Method


@dataclass(frozen=True)
class Work:
    """One measure of one report, as far as it is worked out.

    Attributes:
        ledger: The report's inputs: an error that two figures share is one input.
        bench: The records.
        report: The report.
        measure: Id of the measure.
        kind: Its kind.
        stated: The measure as the newest version that ran states it.
        runs: Its runs of items, reduced.
        controls: Its control runs, reduced.
    """

    ledger: Ledger
    bench: Bench
    report: Report
    measure: str
    kind: Kind
    stated: Measure
    runs: tuple[tuple[Run, Reduced], ...]
    controls: tuple[tuple[Run, Reduced], ...]


def evaluate(bench: Bench, report: Report) -> ReportFinding:
    """Evaluate one report.

    Args:
        bench: The records, without faults.
        report: One of its reports.

    Returns:
        Every measure of it whose kind is evaluated, in the report's order.
    """
    ledger = Ledger()
    works = [_work(ledger, bench, report, measure) for measure in report.record.measures]
    runs = [run for run in report.runs.values() if run.item]
    return ReportFinding(
        report=report.id,
        main=report.record.main,
        measures=tuple(_measure(work) for work in works if work is not None),
        dates=tuple(sorted({run.date.isoformat() for run in report.runs.values()})),
        pieces=len({(run.item, run.specimen) for run in runs}),
    )


def _work(ledger: Ledger, bench: Bench, report: Report, measure: str) -> Work | None:
    """Reduce every run of a measure; None where no run has it or its kind is not evaluated."""
    found = []
    for run in sorted(report.runs.values(), key=lambda each: (each.date, each.id)):
        method = bench.methods[run.method][run.version]
        stated = method.measure(measure)
        if stated is not None and stated.kind in KINDS:
            found.append((run, method, stated))
    if not found:
        return None
    newest_run, _, newest = max(found, key=lambda each: each[0].version)
    kind = KINDS[newest.kind]
    agreeing = _agreeing(bench.methods[newest_run.method], newest_run.version)

    def reduced(run: Run, method: Method, stated: Measure, given: Given) -> tuple[Run, Reduced]:
        made = kind.reduce(Task(ledger, bench, run, method, stated, given))
        return run, _beside(made, agrees=run.version in agreeing)

    controls = [reduced(*each, Given()) for each in found if each[0].control]
    items = [reduced(*each, _given(each[0], controls)) for each in found if each[0].item]
    return Work(
        ledger,
        bench,
        report,
        measure,
        kind,
        newest,
        tuple(items),
        tuple(controls),
    )


def _given(run: Run, controls: Sequence[tuple[Run, Reduced]]) -> Given:
    """What the control nearest in date brings to a run; of two as near, the earlier."""
    known = [(control, reduced.tau) for control, reduced in controls if reduced.tau is not None]
    nearest = min(known, key=lambda each: (abs(each[0].date - run.date), each[0].date), default=None)
    return Given(nearest[1] if nearest is not None else None)


def _agreeing(versions: Mapping[int, Method], newest: int) -> set[int]:
    """The versions whose results may stand beside the newest's: those it declares, and theirs in turn."""
    agreeing, new = {newest}, {newest}
    while new:
        new = {
            int(each) for version in new if version in versions for each in versions[version].comparable_with
        }
        new -= agreeing
        agreeing |= new
    return agreeing


def _beside(reduced: Reduced, *, agrees: bool) -> Reduced:
    """A run as it may stand in the ranking: by a version that does not agree it is shown and not compared."""
    return reduced if agrees else replace(reduced, number=None, points=(), why_not="other-method")


def _measure(work: Work) -> MeasureFinding:
    items = _items(work)
    pairs = _pairs(work, items)
    all_runs = [run for run, _ in (*work.runs, *work.controls)]
    versions = sorted({run.version for run in all_runs})
    method = work.bench.methods[all_runs[0].method][versions[-1]]
    current = method.conditions.get("current")
    at = getattr(work.stated, "at", None)
    return MeasureFinding(
        measure=work.measure,
        kind=work.stated.kind,
        unit=work.kind.unit,
        method=all_runs[0].method,
        versions=tuple(versions),
        at=at.si if at is not None else None,
        set_current=current.value.si if isinstance(current, Toleranced) and at is not None else None,
        point=getattr(work.stated, "point", ""),
        items=tuple(
            item_finding(work.ledger, each, work.kind.unit) for each in _told(work, items, pairs, method)
        ),
        controls=tuple(control_finding(work.ledger, *each, work.kind.unit) for each in work.controls),
        pairs=pairs,
    )


def _told(
    work: Work, items: Sequence[LiveItem], pairs: Sequence[PairFinding], method: Method
) -> Iterator[LiveItem]:
    """The items with what can be said of them: against limits, and where they stand."""
    limits = work.report.record.limits if work.kind.unit == "K" else ()
    ground = Ground(work.ledger, work.bench, method, getattr(work.stated, "point", ""), limits)
    known = {pair.first for pair in pairs if pair.known} | {pair.second for pair in pairs if pair.known}
    stopped = sum(1 for each in items if why_no_mean(each.counted) in {"stopped", "over-range"})
    ranked = [each.item for each in items if each.item in known]
    stands = places(ranked, [(pair.first, pair.second) for pair in pairs if pair.known and pair.shown])
    for each in items:
        found = stands.get(each.item)
        # What stopped stands behind all that completed, outside the family of pairs.
        best = found is not None and (found.best or (len(ranked) == 1 and stopped > 0))
        place = None if found is None else Place(found.first, found.last, best)
        yield replace(each, limits=item_against(ground, each.counted), place=place)


def _items(work: Work) -> tuple[LiveItem, ...]:
    gathered = []
    for order, item_id in enumerate(work.report.record.items):
        item = work.bench.items[item_id]
        own = [each for each in work.runs if each[0].item == item_id]
        pieces = pieces_of(item, own, int(getattr(work.stated, "heating", 1)))
        stock = newest_stock(item, pieces)
        counted = tuple(piece for piece in pieces if piece.stock == stock)
        gathered.append(LiveItem(item_id, order, stock, pieces, counted, None))
    pooled = _pooled(gathered)
    return tuple(_with_figure(work, each, pooled) for each in gathered)


def _pooled(items: Sequence[LiveItem]) -> specimens.Spread | None:
    """Spread pooled over the items that completed: one that stopped or went over range is not pooled."""
    completed = [each for each in items if why_no_mean(each.counted) is None]
    return specimens.pooled_spread([[number.x for number in numbers(each.counted)] for each in completed])


def _with_figure(work: Work, live: LiveItem, pooled: specimens.Spread | None) -> LiveItem:
    if not live.counted or why_no_mean(live.counted) is not None:
        return live
    stated = declared(getattr(work.stated, "spread", None))
    key = (work.measure, live.item, live.stock)
    figure = figure_of(work.ledger, key, live.counted, pooled=pooled, stated=stated, unit=work.kind.unit)
    return LiveItem(live.item, live.order, live.stock, live.pieces, live.counted, figure)


def _pairs(work: Work, items: Sequence[LiveItem]) -> tuple[PairFinding, ...]:
    """Every pair of items with figures; those whose spread is known are held together."""
    pooled = _pooled(items)
    ranked = sorted((each for each in items if each.figure is not None), key=_value)
    found = []
    for place, low in enumerate(ranked):
        for high in ranked[place + 1 :]:
            assert low.figure is not None and high.figure is not None  # noqa: S101, PT018
            found.append((low.item, high.item, difference(work.ledger, high.figure, low.figure, pooled)))
    known = [each for *_, each in found if each.spread_known]
    held = dict(zip(map(id, known), holm([each.p for each in known]), strict=True))
    return tuple(_pair(low, high, each, held.get(id(each))) for low, high, each in found)


def _value(live: LiveItem) -> tuple[float, int]:
    assert live.figure is not None  # noqa: S101
    return live.figure.number.x, live.order


def _pair(low: str, high: str, found: Difference, held: Held | None) -> PairFinding:
    level = held.level if held is not None else LEVEL
    return PairFinding(
        first=low,
        second=high,
        difference=found.estimate,
        half_width=half_width(parts(found.components), 1.0 - level),
        p=found.p,
        shown=held.shown if held is not None else False,
        known=held is not None,
    )
