"""What a reviewer's own results lead to expect of the next comparison: its spread, and its meters' part."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import TYPE_CHECKING

from generator.analysis.interval import Parts, error_of
from generator.analysis.specimens import Spread, pooled_spread
from generator.analysis.uncertainty import Ledger, Uncertain
from generator.evaluation.gathered import live_items
from generator.evaluation.items import LiveItem
from generator.evaluation.pieces import why_no_mean
from generator.evaluation.work import Work, versions_agreeing, work_on

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.schema.measures import AnyMeasure
    from generator.records.schema.method import Method


@dataclass(frozen=True)
class Recorded:
    """What the bench's own results by a measure of a method come to.

    Attributes:
        spread: Between pieces, pooled over all items with two and more; None without one or where it is 0.
        items: Items with two and more pieces.
        pieces: Their pieces.
        reports: Reports that they are of, by id.
        versions: Versions of the method that they were made by.
        runs: Runs on pieces, those without a figure among them.
        lost: Of these, how many gave no figure.
        apart: Versions with results that do not agree with the one that is planned.
        between: Instrument errors that do not cancel in a difference of two means: those of the pair in the
            middle of all pairs; None without a pair.
        between_single: The same of two single pieces, what is new in each run among them.
        resolution: The coarsest step of a figure, in its unit; 0 where not known.
        controls: Names of the controls that were run.
    """

    spread: Spread | None = None
    items: int = 0
    pieces: int = 0
    reports: tuple[str, ...] = ()
    versions: tuple[int, ...] = ()
    runs: int = 0
    lost: int = 0
    apart: tuple[int, ...] = ()
    between: Parts | None = None
    between_single: Parts | None = None
    resolution: float = 0.0
    controls: tuple[str, ...] = ()


def recorded(bench: Bench, method: Method, measure: AnyMeasure) -> Recorded:
    """What a bench recorded by a method, in versions that agree with this one, in every report.

    A piece that several reports show is counted once; an item that stopped or went over range is not pooled.
    """
    works = list(_works(bench, method, measure))
    lives = [(work, live_items(work)) for work in works]
    figures = _figures([item for _, items in lives for item in items])
    several = [each for each in figures.values() if len(each) > 1]
    spread = pooled_spread(several)
    runs = {run.id: reduced for work in works for run, reduced in work.runs}
    versions = {run.version for work in works for run, _ in work.runs}
    return Recorded(
        spread=spread if spread is not None and spread.deviation > 0 else None,
        items=len(several),
        pieces=sum(map(len, several)),
        reports=tuple(work.report.id for work in works),
        versions=tuple(sorted(versions)),
        runs=len(runs),
        lost=sum(reduced.number is None for reduced in runs.values()),
        apart=_apart(bench, method),
        between=_middle([each for work, items in lives for each in _of_means(work, items)]),
        between_single=_middle([each for work, items in lives for each in _of_pieces(work, items)]),
        resolution=max((reduced.resolution for reduced in runs.values()), default=0.0),
        controls=tuple(dict.fromkeys(run.control for work in works for run, _ in work.controls)),
    )


def _works(bench: Bench, method: Method, measure: AnyMeasure) -> Iterator[Work]:
    """The measure in every report that has it by this method, runs of versions that do not agree left out."""
    agreeing = _agreeing(bench, method)
    ledger = Ledger()
    for _, report in sorted(bench.reports.items()):
        work = work_on(ledger, bench, report, measure.id)
        if work is None or work.stated.kind != measure.kind or work.unit != work.kind.unit(measure):
            continue
        runs, controls = (
            tuple(each for each in made if each[0].method == method.id and each[0].version in agreeing)
            for made in (work.runs, work.controls)
        )
        if runs:
            yield replace(work, runs=runs, controls=controls)


def _apart(bench: Bench, method: Method) -> tuple[int, ...]:
    made = {run.version for run in bench.standing if run.method == method.id}
    return tuple(sorted(made - _agreeing(bench, method)))


def _agreeing(bench: Bench, method: Method) -> set[int]:
    """Versions that agree with this one: those that it declares, and those that declare it."""
    versions = bench.methods[method.id]
    own = versions_agreeing(versions, method.version)
    return own | {each for each in versions if method.version in versions_agreeing(versions, each)}


def _figures(items: Sequence[LiveItem]) -> dict[tuple[str, str], tuple[float, ...]]:
    """The figures of each item's pieces, a piece once, by item and stock."""
    found: dict[tuple[str, str], dict[str, float]] = {}
    for item in items:
        if why_no_mean(item.counted) is not None:
            continue
        of = found.setdefault((item.item, item.stock), {})
        for piece in item.counted:
            if piece.number is not None:
                of.setdefault(piece.specimen, piece.number.x)
    return {key: tuple(of.values()) for key, of in found.items()}


def _of_means(work: Work, items: Sequence[LiveItem]) -> Iterator[Parts]:
    figures = [each.figure for each in items if each.figure is not None and each.figure.pieces > 1]
    for one, other in combinations(figures, 2):
        yield _error(work, one.number - other.number)


def _of_pieces(work: Work, items: Sequence[LiveItem]) -> Iterator[Parts]:
    firsts = [next((p.number for p in each.counted if p.number is not None), None) for each in items]
    for one, other in combinations([each for each in firsts if each is not None], 2):
        yield _error(work, one - other)


def _error(work: Work, difference: Uncertain) -> Parts:
    """Its error without the spread; parts of finite ν go with the normal ones, the spread has its own ν."""
    error = error_of(work.ledger, difference)
    return Parts(math.hypot(error.u_normal, error.u_t), error.half_width)


def _middle(errors: Sequence[Parts]) -> Parts | None:
    """The error in the middle by its size: of two in the middle the larger."""
    ordered = sorted(errors, key=lambda each: math.hypot(each.u_normal, each.half_width / math.sqrt(3)))
    return ordered[len(ordered) // 2] if ordered else None
