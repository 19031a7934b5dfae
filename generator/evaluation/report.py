"""A report's runs → its findings: every measure, every item, every pair."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.analysis.ranking import places
from generator.analysis.uncertainty import Ledger
from generator.evaluation.against import Ground, item_against
from generator.evaluation.findings import MeasureFinding, PairFinding, ReportFinding
from generator.evaluation.gathered import live_items
from generator.evaluation.items import LiveItem, control_finding, item_finding
from generator.evaluation.pairs import pairs_of
from generator.evaluation.pieces import why_no_mean
from generator.evaluation.statements import Place
from generator.evaluation.work import Work, work_on
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.bench import Bench, Report
    from generator.records.schema.method import Method


def evaluate(bench: Bench, report: Report) -> ReportFinding:
    """Evaluate one report.

    Args:
        bench: The records, without faults.
        report: One of its reports.

    Returns:
        Every measure of it whose kind is evaluated, in the report's order.
    """
    ledger = Ledger()
    works = [work_on(ledger, bench, report, measure) for measure in report.record.measures]
    runs = [run for run in report.runs.values() if run.item]
    return ReportFinding(
        report=report.id,
        main=report.record.main,
        measures=tuple(_measure(work) for work in works if work is not None),
        dates=tuple(sorted({run.date.isoformat() for run in report.runs.values()})),
        pieces=len({(run.item, run.specimen) for run in runs}),
    )


def _measure(work: Work) -> MeasureFinding:
    items = live_items(work)
    pairs = pairs_of(work, items)
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
