"""The table of counts and answers to take away: every run, and every share with its exact interval."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.counts import Share
from generator.evaluation.counted import (
    Answered,
    Counted,
    ItemCheck,
    ItemCount,
    ItemEndurance,
    Lasted,
    PieceOf,
)
from generator.evaluation.findings import ReportFinding
from generator.pages.tables import digits
from generator.pages.us_columns import Cell

COUNTS = (
    "measure",
    "kind",
    "item",
    "stock",
    "piece",
    "run",
    "date",
    "of",
    "k",
    "n",
    "share",
    "lower end of its 95 % interval",
    "upper end of its 95 % interval",
    "answer",
    "counted",
    "cycles",
)
"""Headings; a row without a run is over the pieces of that stock."""


def tallies(finding: ReportFinding) -> Iterator[tuple[Cell, ...]]:
    """Rows below `COUNTS`: of each item its shares, then its runs."""
    for count in finding.counts:
        for each in count.items:
            yield from _count(("count", count.measure), each)
    for lasted in finding.endurances:
        for whole in lasted.items:
            yield from _endurance(("endurance", lasted.measure), whole)
    for check in finding.checks:
        for asked in check.items:
            yield from _check(("check", check.measure), asked)


def _count(of: tuple[str, str], item: ItemCount) -> Iterator[tuple[Cell, ...]]:
    for what, found in (("times", item.trials), ("pieces with at least one", item.affected)):
        if found is not None:
            yield _share(of, item, what, found)
    yield from _runs(of, item, item.pieces)


def _check(of: tuple[str, str], item: ItemCheck) -> Iterator[tuple[Cell, ...]]:
    if item.against is not None:
        yield _share(of, item, "pieces with the answer that is not hoped for", item.against)
    yield from _runs(of, item, item.pieces)


def _endurance(of: tuple[str, str], item: ItemEndurance) -> Iterator[tuple[Cell, ...]]:
    if item.failed is not None and item.until is not None:
        yield (*_share(of, item, "pieces that broke", item.failed)[:-1], item.until)
    kind, measure = of
    for each in item.steps:
        ends = (digits(each.surviving), digits(each.low), digits(each.high))
        head = (measure, kind, item.item, item.stock, None, None, None, "pieces that last beyond")
        yield (*head, each.at_risk - each.failed, each.at_risk, *ends, None, None, digits(each.cycles))
    yield from _runs(of, item, item.pieces)


def _share(
    of: tuple[str, str], item: ItemCount | ItemCheck | ItemEndurance, what: str, found: Share
) -> tuple[Cell, ...]:
    kind, measure = of
    ends = (digits(found.k / found.n), digits(found.low), digits(found.high))
    return (
        measure,
        kind,
        item.item,
        item.stock,
        None,
        None,
        None,
        what,
        found.k,
        found.n,
        *ends,
        None,
        None,
        None,
    )


def _runs(
    of: tuple[str, str],
    item: ItemCount | ItemCheck | ItemEndurance,
    pieces: tuple[PieceOf[Counted], ...] | tuple[PieceOf[Answered], ...] | tuple[PieceOf[Lasted], ...],
) -> Iterator[tuple[Cell, ...]]:
    kind, measure = of
    for piece in pieces:
        for run in piece.runs:
            head = (measure, kind, item.item, piece.stock, piece.specimen, run.run, run.date)
            counted = "no" if run.beside or piece.stock != item.stock else "yes"
            if isinstance(run, Counted):
                yield (*head, "times", run.k, run.n, None, None, None, None, counted, None)
            elif isinstance(run, Lasted):
                said = "broke" if run.failed else "whole"
                yield (*head, None, None, None, None, None, None, said, counted, run.cycles)
            else:
                yield (*head, None, None, None, None, None, None, run.answer, counted, None)
