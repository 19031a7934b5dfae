"""A report's runs → its findings: every measure, every item, every pair."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.analysis.uncertainty import Ledger
from generator.evaluation.against import item_against
from generator.evaluation.conditions import unlike
from generator.evaluation.endurance import endurances
from generator.evaluation.excess import excess
from generator.evaluation.findings import MeasureFinding, PairFinding, ReportFinding
from generator.evaluation.gathered import live_items
from generator.evaluation.giving_off import with_conductances
from generator.evaluation.ground import Ground, limits_for, not_held
from generator.evaluation.items import LiveItem, control_finding, item_finding
from generator.evaluation.older import older_beside
from generator.evaluation.pairs import pairs_of
from generator.evaluation.priced import priced
from generator.evaluation.reduced import Reduced
from generator.evaluation.scatter import ahead, apart, loosest
from generator.evaluation.standing import standings
from generator.evaluation.tallies import checks, counts
from generator.evaluation.where import in_airs
from generator.evaluation.work import Work, work_on
from generator.records.schema.electrical import AT_THE_SET_CURRENT
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
    reduced = [work_on(ledger, bench, report, measure) for measure in report.record.measures]
    works = with_conductances(reduced)
    runs = [run for run in report.runs.values() if run.item]
    return ReportFinding(
        report=report.id,
        main=report.record.main,
        measures=tuple(_measure(work) for work in works if work is not None),
        dates=tuple(sorted({run.date.isoformat() for run in report.runs.values()})),
        pieces=len({(run.item, run.specimen) for run in runs}),
        counts=counts(bench, report),
        checks=checks(bench, report),
        endurances=endurances(bench, report),
        prices=priced(bench, report),
    )


def _measure(work: Work) -> MeasureFinding:
    items = live_items(work)
    pairs = pairs_of(work, items)
    all_runs = [run for run, _ in (*work.runs, *work.controls)]
    versions = sorted({run.version for run in all_runs})
    method = work.bench.methods[all_runs[0].method][versions[-1]]
    at = getattr(work.stated, "at", None)
    limits = limits_for(work.report.record.limits, work.stated)
    ground = Ground(work.ledger, work.bench, method, getattr(work.stated, "point", ""), limits)
    return MeasureFinding(
        measure=work.measure,
        kind=work.stated.kind,
        unit=work.unit,
        method=all_runs[0].method,
        versions=tuple(versions),
        at=at.si if at is not None and work.mark is None else work.mark,
        own_mark=at.si if at is not None else None,
        set_current=_set_current(work, method),
        point=getattr(work.stated, "point", ""),
        items=tuple(item_finding(work.ledger, each, work.unit) for each in _told(work, items, pairs, ground)),
        controls=tuple(control_finding(work.ledger, *each, work.unit) for each in work.controls),
        pairs=pairs,
        not_held=not_held(ground),
        unlike=unlike(run for run, reduced in work.runs if _beside(reduced)),
        better=work.better,
        loosest=loosest(items),
        heating=int(getattr(work.stated, "heating", 1)) if work.kind.first_only else None,
        older=older_beside(work.bench, work.report.record.items, all_runs[0].method, work.measure),
    )


def _set_current(work: Work, method: Method) -> float | None:
    """The current that figures are told at, A; None for a kind that is told at none."""
    current = method.conditions.get("current")
    told = getattr(work.stated, "at", None) is not None or work.stated.kind in AT_THE_SET_CURRENT
    return current.value.si if told and isinstance(current, Toleranced) else None


def _beside(reduced: Reduced) -> bool:
    """Whether what a run was like is told beside the ranking: it is in it, or its surface keeps it out."""
    return reduced.number is not None or reduced.why_not == "other-surface"


def _told(
    work: Work, items: Sequence[LiveItem], pairs: Sequence[PairFinding], ground: Ground
) -> Iterator[LiveItem]:
    """The items with what can be said of them: against limits, over the controls, and where they stand."""
    heating = work.stated.kind == "heating"
    stands, away = standings(items, pairs, work.better), apart(items)
    for each in items:
        over = excess(work.ledger, each, work.controls, work.unit) if heating else None
        yield replace(
            each,
            limits=item_against(ground, each.counted, each.figure),
            airs=in_airs(ground, each.counted),
            place=stands.get(each.item),
            excess=over.figure if over is not None else None,
            rig=over.rig if over is not None else None,
            apart=away.get(each.item),
            ahead=ahead(work.ledger, each, work.better),
        )
