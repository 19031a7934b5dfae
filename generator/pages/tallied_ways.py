"""How each share was worked out: runs → sum over the pieces → the interval's two quantiles, in numbers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeAlias

from generator.analysis.counts import Share
from generator.charts.numerals import numeral, plain
from generator.evaluation.counted import (
    Answered,
    CheckFinding,
    Counted,
    CountFinding,
    EnduranceFinding,
    ItemCheck,
    ItemCount,
    ItemEndurance,
    Lasted,
    PieceOf,
    Told,
)
from generator.evaluation.findings import ReportFinding
from generator.pages.format import day
from generator.pages.ways import Step, TallyRun, TallyWay

Tallied: TypeAlias = CountFinding | CheckFinding | EnduranceFinding
Item: TypeAlias = ItemCount | ItemCheck | ItemEndurance

DIGITS = 5
"""Decimals of a share on its way."""


def tally_ways(finding: ReportFinding, item: str, name: str) -> tuple[TallyWay, ...]:
    """How all that was counted and asked of an item was worked out, in the order of the report's tables.

    Args:
        finding: Of the report.
        item: Id of the item.
        name: Its name.
    """
    return tuple(_way(found, each, name) for found, each in _found(finding) if each.item == item)


def tally_way_of_run(finding: ReportFinding, measure: str, run: str) -> tuple[str, TallyWay] | None:
    """The item that a run is of and the way to its share; None where the measure has no such run."""
    for found, each in _found(finding):
        if found.measure == measure and _ran(each, run):
            return each.item, _way(found, each, each.item)
    return None


def tallied_by(finding: ReportFinding, run: str) -> tuple[str, ...]:
    """Measures by which something was counted or asked in a run."""
    return tuple(found.measure for found, each in _found(finding) if _ran(each, run))


def _found(finding: ReportFinding) -> Iterator[tuple[Tallied, Item]]:
    for counted in finding.counts:
        yield from ((counted, each) for each in counted.items)
    for lasted in finding.endurances:
        yield from ((lasted, each) for each in lasted.items)
    for asked in finding.checks:
        yield from ((asked, each) for each in asked.items)


def _ran(item: Item, run: str) -> bool:
    return any(told.run == run for piece in item.pieces for told in piece.runs)


def _way(found: Tallied, item: Item, name: str) -> TallyWay:
    if isinstance(item, ItemCount):
        runs, steps = _run_rows(item.pieces, item.stock), _count(item)
    elif isinstance(item, ItemEndurance):
        runs, steps = _run_rows(item.pieces, item.stock), _endurance(item)
    else:
        runs = _run_rows(item.pieces, item.stock)
        steps = _check(item, "no" if isinstance(found, CheckFinding) and found.good == "yes" else "yes")
    return TallyWay(item.item, name, found.measure, found.method, runs, steps)


def _run_rows(pieces: Iterable[PieceOf[Told]], stock: str) -> tuple[TallyRun, ...]:
    return tuple(
        TallyRun(run.run, piece.specimen, day(run.date), _said(run), not run.beside and piece.stock == stock)
        for piece in pieces
        for run in piece.runs
    )


def _said(run: Counted | Answered | Lasted) -> Step:
    if isinstance(run, Lasted):
        return Step("broke" if run.failed else "whole", {"cycles": str(run.cycles)})
    if isinstance(run, Counted):
        return Step("counted", {"k": str(run.k), "n": str(run.n)})
    return Step("answered", {"answer": run.answer})


def _count(item: ItemCount) -> tuple[Step, ...]:
    if item.trials is None or item.affected is None:
        return ()
    runs = [run for piece in _standing(item) for run in piece.runs if not run.beside]
    added = {
        "k": _sum(each.k for each in runs),
        "n": _sum(each.n for each in runs),
        "pieces": str(item.n),
        "sum": f"{item.trials.k} of {item.trials.n}",
    }
    affected = {"k": str(item.affected.k), "n": str(item.affected.n)}
    return (
        Step("tally-sum", added),
        *share_steps(item.trials, "trials"),
        Step("tally-pieces", affected),
        *share_steps(item.affected, "pieces"),
    )


def _check(item: ItemCheck, counts: str) -> tuple[Step, ...]:
    if item.against is None:
        return ()
    aside = ", ".join(letter for letter, answer in item.answers if answer not in {"yes", "no"})
    numbers = {"k": str(item.against.k), "n": str(item.against.n), "answer": counts, "aside": aside}
    return (Step("tally-answers", numbers), *share_steps(item.against, "pieces"))


def _endurance(item: ItemEndurance) -> tuple[Step, ...]:
    """Exact where every survivor was watched to one count; else a product over the failing counts."""
    if item.failed is not None and item.until is not None:
        numbers = {"k": str(item.failed.k), "n": str(item.failed.n), "until": str(item.until)}
        return (Step("endured-all", numbers), *share_steps(item.failed, "pieces"))
    steps, before = [], 1.0
    for each in item.steps:
        numbers = {
            "cycles": plain(each.cycles),
            "broken": str(each.failed),
            "at_risk": str(each.at_risk),
            "before": numeral(before, DIGITS),
            "surviving": numeral(each.surviving, DIGITS),
            "low": numeral(each.low, DIGITS),
            "high": numeral(each.high, DIGITS),
        }
        steps.append(Step("endured-step", numbers))
        before = each.surviving
    return tuple(steps)


def share_steps(found: Share, of: str) -> tuple[Step, ...]:
    """The exact interval of a share: the quantiles of the beta distribution, with the numbers put in.

    Args:
        found: k of n with its interval.
        of: What it is a share of: `trials` or `pieces`.
    """
    k, n, rest = found.k, found.n, (1 - found.level) / 2
    numbers = {
        "of": of,
        "k": str(k),
        "n": str(n),
        "rest": plain(round(rest, 6)),
        "other": plain(round(1 - rest, 6)),
        "low_a": str(k),
        "low_b": str(n - k + 1),
        "high_a": str(k + 1),
        "high_b": str(n - k),
        "low": numeral(found.low, DIGITS),
        "high": numeral(found.high, DIGITS),
    }
    code = "share-none" if k == 0 else "share-all" if k == n else "share"
    return (Step(code, numbers),)


def _standing(item: ItemCount) -> list[PieceOf[Counted]]:
    return [piece for piece in item.pieces if piece.stock == item.stock]


def _sum(numbers: Iterable[int]) -> str:
    found: Sequence[str] = [str(each) for each in numbers]
    return " + ".join(found)
