"""Counts and checks of a report, piece by piece and item by item."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Literal, TypeVar

from generator.analysis.counts import share
from generator.evaluation.counted import (
    Answer,
    Answered,
    CheckFinding,
    Counted,
    CountFinding,
    ItemCheck,
    ItemCount,
    PieceOf,
    Told,
)
from generator.evaluation.work import versions_agreeing
from generator.records.schema.measures import CheckMeasure, CountMeasure, EnduranceMeasure
from generator.records.schema.references import CountOf

if TYPE_CHECKING:
    from generator.records.bench import Bench, Report
    from generator.records.run import Run
    from generator.records.schema.item import Item
    from generator.records.schema.measures import Measure
    from generator.records.schema.run import Observation

StatedAs = TypeVar("StatedAs", CountMeasure, CheckMeasure, EnduranceMeasure)


def counts(bench: Bench, report: Report) -> tuple[CountFinding, ...]:
    """Every count of a report, in the report's order of measures."""
    return tuple(
        CountFinding(
            measure,
            stated.what,
            stated.better,
            runs[0].method,
            tuple(sorted({run.version for run in runs})),
            tuple(_count(*each) for each in items(bench, report, runs, _counted(bench, measure, runs))),
        )
        for measure, stated, runs in measures(bench, report, CountMeasure)
    )


def checks(bench: Bench, report: Report) -> tuple[CheckFinding, ...]:
    """Every question of a report that a run answers, in the report's order of measures."""
    return tuple(
        CheckFinding(
            measure,
            stated.question,
            stated.good,
            runs[0].method,
            tuple(sorted({run.version for run in runs})),
            tuple(
                _check(*each, stated.good)
                for each in items(bench, report, runs, _answered(bench, measure, runs))
            ),
        )
        for measure, stated, runs in measures(bench, report, CheckMeasure)
    )


def measures(
    bench: Bench, report: Report, kind: type[StatedAs]
) -> Iterator[tuple[str, StatedAs, tuple[Run, ...]]]:
    """Measures of a kind, as the newest version that told them states them, with the runs that told them."""
    for measure in report.record.measures:
        runs = [
            run
            for run in sorted(report.runs.values(), key=lambda each: (each.date, each.id))
            if run.item and isinstance(_stated(bench, run, measure), kind) and _tells(run, measure)
        ]
        if runs:
            stated = _stated(bench, max(runs, key=lambda each: each.version), measure)
            if isinstance(stated, kind):
                yield measure, stated, tuple(runs)


def _stated(bench: Bench, run: Run, measure: str) -> Measure | None:
    return bench.methods[run.method][run.version].measure(measure)


def _tells(run: Run, measure: str) -> bool:
    return measure in run.counts or any(each.check == measure for each in run.observations)


def beside(bench: Bench, runs: Sequence[Run]) -> Callable[[Run], bool]:
    """Which runs stand beside: those of a version that does not agree with the newest."""
    newest = max(runs, key=lambda each: each.version)
    agreeing = versions_agreeing(bench.methods[newest.method], newest.version)
    return lambda run: run.version not in agreeing


def _counted(bench: Bench, measure: str, runs: Sequence[Run]) -> Callable[[Run], Counted]:
    aside = beside(bench, runs)

    def told(run: Run) -> Counted:
        found = run.counts[measure]
        assert isinstance(found, CountOf)  # noqa: S101 - a rule of the records holds it
        return Counted(run.id, run.date.isoformat(), found.k, found.n, aside(run))

    return told


def _answered(bench: Bench, measure: str, runs: Sequence[Run]) -> Callable[[Run], Answered]:
    aside = beside(bench, runs)

    def told(run: Run) -> Answered:
        found: Observation = next(each for each in run.observations if each.check == measure)
        seen = (found.note or "", found.photo or "")
        return Answered(run.id, run.date.isoformat(), found.answer, *seen, aside(run))

    return told


def items(
    bench: Bench, report: Report, runs: Sequence[Run], told: Callable[[Run], Told]
) -> Iterator[tuple[str, str, tuple[PieceOf[Told], ...]]]:
    """Items in the report's order: id, newest stock told of, and the pieces in order of their letters."""
    for key in report.record.items:
        item: Item = bench.items[key]
        own = [run for run in runs if run.item == key]
        letters = sorted({run.specimen for run in own})
        stocks = {letter: item.specimens[letter].stock or "" for letter in letters}
        pieces = tuple(
            PieceOf(letter, stocks[letter], tuple(told(run) for run in own if run.specimen == letter))
            for letter in letters
        )
        if pieces:
            yield key, item.newest_stock(stocks.values()), pieces


def _count(item: str, stock: str, pieces: tuple[PieceOf[Counted], ...]) -> ItemCount:
    told = [[run for run in piece.runs if not run.beside] for piece in pieces if piece.stock == stock]
    added = [(sum(run.k for run in runs), sum(run.n for run in runs)) for runs in told if runs]
    if not added:
        return ItemCount(item, stock, pieces, 0, None, None)
    trials = share(sum(k for k, _ in added), sum(n for _, n in added))
    affected = share(sum(k > 0 for k, _ in added), len(added))
    return ItemCount(item, stock, pieces, len(added), trials, affected)


def _check(
    item: str, stock: str, pieces: tuple[PieceOf[Answered], ...], good: Literal["yes", "no"] | None
) -> ItemCheck:
    answers = tuple(
        (piece.specimen, _answer(told))
        for piece in pieces
        if piece.stock == stock and (told := [run.answer for run in piece.runs if not run.beside])
    )
    plain = [answer for _, answer in answers if answer in {"yes", "no"}]
    unwanted = "no" if good == "yes" else "yes"
    against = share(sum(each == unwanted for each in plain), len(plain)) if plain else None
    return ItemCheck(item, stock, pieces, answers, against)


def _answer(told: Sequence[Answer]) -> Answer:
    """What the runs of a piece answer together; one that could not tell takes nothing from one that could."""
    plain = [each for each in told if each != "could not tell"]
    if not plain:
        return "could not tell"
    return plain[0] if len(set(plain)) == 1 else "differs"
