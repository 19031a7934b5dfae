"""One measure of one report: its runs, reduced by the method that each was made by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.analysis.uncertainty import Ledger
from generator.evaluation.kinds import KINDS, Kind
from generator.evaluation.kinds.task import Given, Task
from generator.evaluation.reduced import Reduced

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


def work_on(ledger: Ledger, bench: Bench, report: Report, measure: str) -> Work | None:
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
