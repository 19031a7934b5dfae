"""How long pieces last; those still whole at the end are survivors: exact where it can be, else by steps."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from generator.analysis import survival
from generator.evaluation.counted import EnduranceFinding, ItemEndurance, Lasted, PieceOf
from generator.evaluation.tallies import beside, items, measures
from generator.records.schema.measures import EnduranceMeasure
from generator.records.schema.references import LastedTo

if TYPE_CHECKING:
    from generator.records.bench import Bench, Report
    from generator.records.run import Run


def endurances(bench: Bench, report: Report) -> tuple[EnduranceFinding, ...]:
    """Every measure of endurance of a report, in the report's order of measures."""
    return tuple(
        EnduranceFinding(
            measure,
            stated.cycles,
            stated.failure,
            runs[0].method,
            tuple(sorted({run.version for run in runs})),
            tuple(_item(*each) for each in items(bench, report, runs, _lasted(bench, measure, runs))),
        )
        for measure, stated, runs in measures(bench, report, EnduranceMeasure)
    )


def _lasted(bench: Bench, measure: str, runs: Sequence[Run]) -> Callable[[Run], Lasted]:
    aside = beside(bench, runs)

    def told(run: Run) -> Lasted:
        found = run.counts[measure]
        assert isinstance(found, LastedTo)  # noqa: S101 - a rule of the records holds it
        return Lasted(run.id, run.date.isoformat(), found.cycles, found.failed, aside(run))

    return told


def _item(item: str, stock: str, pieces: tuple[PieceOf[Lasted], ...]) -> ItemEndurance:
    lives = tuple(
        (piece.specimen, _life(told))
        for piece in pieces
        if piece.stock == stock and (told := [run for run in piece.runs if not run.beside])
    )
    if not lives:
        return ItemEndurance(item, stock, pieces, (), None, None, ())
    known = [survival.Lasted(each.cycles, each.failed) for _, each in lives]
    failed = survival.survivors(known)
    ends = [each.cycles for _, each in lives if not each.failed]
    steps = () if failed is not None and ends else survival.kaplan_meier(known)
    until = max(ends) if failed is not None and ends else None
    return ItemEndurance(item, stock, pieces, lives, failed, until, steps)


def _life(told: Sequence[Lasted]) -> Lasted:
    """A piece fails once, at the first failing that was seen; else it outlasted the most that it did."""
    failed = [each for each in told if each.failed]
    return min(failed, key=_cycles) if failed else max(told, key=_cycles)


def _cycles(each: Lasted) -> int:
    return each.cycles
