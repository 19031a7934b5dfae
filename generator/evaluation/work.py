"""One measure of one report: its runs, reduced by the method that each was made by."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, TypeVar

from generator.analysis.uncertainty import Ledger
from generator.evaluation.conditions import departures
from generator.evaluation.kinds import KINDS, Kind
from generator.evaluation.kinds.task import Given, Task
from generator.evaluation.leads_of_day import lead_near
from generator.evaluation.pieces import OUT_OF_RANGE
from generator.evaluation.reduced import Reduced
from generator.evaluation.shared import mark_for
from generator.evaluation.statements import Better
from generator.evaluation.surfaces import on_like_surfaces

if TYPE_CHECKING:
    from generator.records.bench import Bench, Report
    from generator.records.run import Run
    from generator.records.schema.measures import Measure
    from generator.records.schema.method import Method


Brought = TypeVar("Brought")

UNCOMPARED = frozenset({"other-method", "other-conditions", "other-surface"})
"""Why a run with a figure of its own stands beside the ranking and not in it."""

UNFINISHED = frozenset({"stopped", "not-finished", *OUT_OF_RANGE})
"""Why a run did not come to its mark: a shorter mark that it did reach makes it no completed one."""


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
        mark: The time mark that the runs share, s, where it is not the method's.
    """

    ledger: Ledger
    bench: Bench
    report: Report
    measure: str
    kind: Kind
    stated: Measure
    runs: tuple[tuple[Run, Reduced], ...]
    controls: tuple[tuple[Run, Reduced], ...]
    mark: float | None = None

    @property
    def unit(self) -> str:
        """Unit of its figures."""
        return self.kind.unit(self.stated)

    @property
    def error_unit(self) -> str:
        """Unit of errors, spreads and differences: K for temperatures."""
        return "K" if self.unit == "°C" else self.unit

    @property
    def better(self) -> Better | None:
        """Which way it is better; None where neither is."""
        return self.kind.better(self.stated)


@dataclass(frozen=True)
class Made:
    """A run with the version that it was made by and the measure as that states it."""

    run: Run
    method: Method
    stated: Measure


def work_on(ledger: Ledger, bench: Bench, report: Report, measure: str) -> Work | None:
    """Reduce every run of a measure; None where no run has it or its kind gives no figure."""
    made = _made(bench, report, measure)
    if not made:
        return None
    newest = max(made, key=lambda each: each.run.version)
    agreeing = versions_agreeing(bench.methods[newest.run.method], newest.run.version)

    kind = KINDS[newest.stated.kind]

    def reduced(each: Made, given: Given) -> tuple[Run, Reduced]:
        if each.stated.kind != newest.stated.kind or kind.unit(each.stated) != kind.unit(newest.stated):
            return each.run, Reduced(None, "other-method")
        task = Task(ledger, bench, each.run, each.method, each.stated, given)
        return each.run, _beside(task, kind.reduce(task), agreeing)

    alone = getattr(getattr(newest.stated, "leads", None), "control", None)

    def at(mark: float | None) -> tuple[list[tuple[Run, Reduced]], list[tuple[Run, Reduced]]]:
        controls = [reduced(each, Given(mark=mark)) for each in made if each.run.control]
        items = [
            reduced(each, _given(ledger, each.run, controls, mark=mark, alone=alone))
            for each in made
            if each.run.item
        ]
        return controls, on_like_surfaces(items)

    controls, items = at(None)
    mark = _shared(made, items, newest.stated)
    if mark is not None:
        whole = {run.id: each for run, each in items}
        controls, items = at(mark)
        items = [(run, _at_shared(each, whole[run.id])) for run, each in items]
    return Work(ledger, bench, report, measure, kind, newest.stated, tuple(items), tuple(controls), mark)


def _made(bench: Bench, report: Report, measure: str) -> list[Made]:
    """Runs of a measure whose kind is evaluated, in order of date."""
    found = []
    for run in sorted(report.runs.values(), key=lambda each: (each.date, each.id)):
        method = bench.methods[run.method][run.version]
        stated = method.measure(measure)
        if stated is not None and stated.kind in KINDS:
            found.append(Made(run, method, stated))
    return found


def _shared(made: Sequence[Made], items: Sequence[tuple[Run, Reduced]], newest: Measure) -> float | None:
    """The mark that the runs share, where it is not the method's."""
    if getattr(newest, "at", None) is None:
        return None
    compared = [each for each in items if each[1].why_not not in UNCOMPARED]
    ids = {run.id for run, _ in compared}
    versions = [(each.method, each.stated) for each in made if each.run.id in ids]
    return mark_for(compared, versions, int(getattr(newest, "heating", 1)))


def _at_shared(reduced: Reduced, whole: Reduced) -> Reduced:
    """A run at the shared mark; one that did not come to its own method's stays what it was there."""
    return whole if whole.why_not in UNFINISHED else replace(reduced, whole=whole)


def _given(
    ledger: Ledger,
    run: Run,
    controls: Sequence[tuple[Run, Reduced]],
    *,
    mark: float | None,
    alone: str | None,
) -> Given:
    """What the controls nearest in date bring to a run.

    Args:
        ledger: The report's inputs.
        run: The run.
        controls: The report's controls, reduced.
        mark: The mark that the runs share.
        alone: Name of the control that is the lead alone; None without one.
    """
    known = [(control, reduced.fit.tau) for control, reduced in controls if reduced.fit is not None]
    return Given(_nearest(run, known), mark, lead_near(ledger, run, controls, alone))


def _nearest(run: Run, known: Sequence[tuple[Run, Brought]]) -> Brought | None:
    """What the control nearest in date brings; of two as near, the earlier."""
    nearest = min(known, key=lambda each: (abs(each[0].date - run.date), each[0].date), default=None)
    return nearest[1] if nearest is not None else None


def versions_agreeing(versions: Mapping[int, Method], newest: int) -> set[int]:
    """The versions whose results may stand beside the newest's: those it declares, and theirs in turn."""
    agreeing, new = {newest}, {newest}
    while new:
        new = {
            int(each) for version in new if version in versions for each in versions[version].comparable_with
        }
        new -= agreeing
        agreeing |= new
    return agreeing


def _beside(task: Task[Any], reduced: Reduced, agreeing: Collection[int]) -> Reduced:
    """A run as it may stand in the ranking.

    By a version that does not agree, or with a condition out of tolerance, it is shown and not compared.
    """
    air = [each.ambient for each in reduced.readings if each.ambient is not None]
    departed = departures(task.run, task.method, air)
    reduced = replace(reduced, departures=departed)
    if task.run.version not in agreeing:
        return replace(reduced, number=None, points=(), why_not="other-method")
    if departed and reduced.number is not None:
        return replace(reduced, number=None, points=(), why_not="other-conditions")
    return reduced
