"""Findings as plain data for other programs: the shape that `provebook results --json` prints.

Figures are unrounded and in the unit named beside them. What is not computed is null. Keys are only ever
added; `format` rises where the meaning of one changes.
"""

from __future__ import annotations

from collections.abc import Mapping

from generator.analysis.counts import Share
from generator.analysis.future import MOST
from generator.analysis.interval import Estimate
from generator.evaluation.conductance import Conductance
from generator.evaluation.counted import CheckFinding, CountFinding, EnduranceFinding
from generator.evaluation.findings import (
    ItemFinding,
    MeasureFinding,
    PairFinding,
    PieceFinding,
    ReportFinding,
)
from generator.evaluation.older import OlderFinding
from generator.evaluation.prices_as_data import prices_as_data
from generator.evaluation.statements import LimitFinding, gravest, said_of
from generator.evaluation.versions import versions_of

FORMAT = 1


def report_as_data(finding: ReportFinding) -> dict[str, object]:
    """One report's figures and pairs as lists, mappings, text and numbers.

    Args:
        finding: The evaluation of a report.

    Returns:
        A mapping that JSON can hold, in a fixed order of keys.
    """
    return {
        "format": FORMAT,
        "report": finding.report,
        "main": finding.main,
        "dates": list(finding.dates),
        "pieces": finding.pieces,
        "measures": [_measure(each) for each in finding.measures],
        "counts": [_count(each) for each in finding.counts],
        "endurances": [_endurance(each) for each in finding.endurances],
        "checks": [_check(each) for each in finding.checks],
        "prices": prices_as_data(finding.prices),
    }


def _measure(measure: MeasureFinding) -> dict[str, object]:
    return {
        "measure": measure.measure,
        "kind": measure.kind,
        "method": measure.method,
        "versions": list(measure.versions),
        "unit": measure.unit,
        "at_s": measure.at,
        "better": measure.better,
        "heating": measure.heating,
        "figures": [_item(each, measure.unit) for each in measure.items],
        "controls": [_item(each, measure.unit) for each in measure.controls],
        "pairs": [_pair(each, {item.item: item.n for item in measure.items}) for each in measure.pairs],
        "scatters_more": measure.loosest.item if measure.loosest is not None else None,
        "older": [_older(each) for each in measure.older],
    }


def _older(found: OlderFinding) -> dict[str, object]:
    """A result from before; `half_width` is as it was stated then, null where nobody knows it."""
    result = found.result
    return {
        "item": found.item,
        "batch": found.batch,
        "date": str(result.date),
        "value": found.value,
        "bound": found.bound or None,
        "unit": found.unit,
        "why_no_half_width": None if found.half_width is not None else "not-known",
        "half_width": found.half_width,
        "air_degC": None if result.air is None else result.air.si,
        "at_s": None if result.at is None else result.at.si,
        "pieces": result.pieces,
        "meter": result.meter,
        "published": result.published,
    }


def _item(item: ItemFinding, unit: str) -> dict[str, object]:
    return {
        "item": item.item,
        "stock": item.stock or None,
        "specimens": [_piece(each) for each in item.pieces],
        "n": item.n,
        "runs": item.runs,
        **_figure(item.figure),
        "spread": {
            "origin": item.spread.origin,
            "standard_deviation": None if item.spread.origin == "none" else item.spread.deviation,
            "degrees_of_freedom": None if item.spread.origin == "none" else _finite(item.spread.dof),
            "declared_from": item.spread.declared_from or None,
        },
        "why_not": item.why_not,
        "outcome": gravest(item.limits),
        "place": None if item.place is None else [item.place.first, item.place.last],
        "limits": [_limit(each, unit) for each in item.limits],
        "rests_on": None
        if item.repeats is None
        else {"pieces": item.n, "terminations": item.repeats.terminations, "runs": item.repeats.runs},
        **_others(item),
        "over_control": None
        if item.excess is None
        else {
            "value": item.excess.value,
            "interval": [item.excess.low, item.excess.high],
            "controls_differ_by": None if item.rig is None else 2 * item.rig,
        },
    }


def _others(item: ItemFinding) -> dict[str, object]:
    """What its pieces tell beside their mean."""
    most = item.ahead.most if item.ahead is not None else None
    return {
        "versions": list(versions_of(item)),
        "next_piece": None if item.ahead is None else [item.ahead.next.low, item.ahead.next.high],
        "most_pieces": None if most is None else {"share": MOST, "limit": most.limit, "side": most.side},
        "piece_apart": None
        if item.apart is None
        else {"specimen": item.apart.specimen, "tested": item.apart.tested},
    }


def _limit(found: LimitFinding, unit: str) -> dict[str, object]:
    return {
        "number": found.number,
        "kind": found.kind,
        "limit": found.limit,
        "unit": {"temperature": "°C", "rise": "K"}.get(found.kind, unit),
        "reference_ambient": found.reference,
        "rule": found.rule,
        "standing": found.standing,
        "against_makers_figure": said_of(found.outcome, found.kind, found.standing)
        if found.claimed
        else None,
        "outcome": found.outcome,
        "leaning": found.leaning,
        "share_beyond_at_most": found.share_beyond,
        "specimens": [
            {
                "specimen": each.specimen,
                "value": each.value,
                "half_width": each.half_width,
                "outcome": each.outcome,
                "leaning": each.leaning,
                "probability_kept": each.probability,
            }
            for each in found.pieces
        ],
    }


def _piece(piece: PieceFinding) -> dict[str, object]:
    return {
        "specimen": piece.specimen,
        "stock": piece.stock or None,
        "runs": [each.run for each in piece.runs],
        "heatings": {each.run: each.heating for each in piece.runs if each.heating is not None},
        **_figure(piece.figure),
        "why_not": None if piece.figure is not None else piece.runs[-1].why_not,
        "heat_per_kelvin": [
            _conductance(each.run, each.conductance) for each in piece.runs if each.conductance is not None
        ],
    }


def _conductance(run: str, found: Conductance) -> dict[str, object]:
    """Heat over settled rise of one run; its interval is wider on its lower side."""
    none = found.why_not is not None
    return {
        "run": run,
        "heating": found.measure,
        "value": None if none else found.value,
        "unit": "W/K",
        "interval": None if none else [found.low, found.high],
        "why_not": found.why_not,
    }


def _pair(pair: PairFinding, pieces: Mapping[str, int]) -> dict[str, object]:
    return {
        "first": pair.first,
        "second": pair.second,
        "pieces": [pieces.get(pair.first), pieces.get(pair.second)],
        "difference": pair.difference.value,
        "half_width": pair.half_width,
        "unit": pair.difference.unit,
        "p": pair.p,
        "shown": pair.shown if pair.known else None,
        "one_piece_only": not pair.known,
        "gap_seen": pair.gap,
        "spread_by": list(pair.by),
    }


def _figure(figure: Estimate | None) -> dict[str, object]:
    if figure is None:
        keys = ("value", "unit", "standard_uncertainty", "interval", "coverage_factor", "degrees_of_freedom")
        return dict.fromkeys(keys)
    return {
        "value": figure.value,
        "unit": figure.unit,
        "standard_uncertainty": figure.standard_uncertainty,
        "interval": [figure.low, figure.high],
        "coverage_factor": figure.coverage_factor,
        "degrees_of_freedom": _finite(figure.dof),
    }


def _count(count: CountFinding) -> dict[str, object]:
    return {
        "measure": count.measure,
        "what": count.what,
        "method": count.method,
        "versions": list(count.versions),
        "better": count.better,
        "items": [
            {
                "item": each.item,
                "stock": each.stock or None,
                "n": each.n,
                "trials": _share(each.trials),
                "specimens": _share(each.affected),
            }
            for each in count.items
        ],
    }


def _endurance(found: EnduranceFinding) -> dict[str, object]:
    return {
        "measure": found.measure,
        "cycles": found.cycles,
        "failure": found.failure,
        "method": found.method,
        "versions": list(found.versions),
        "items": [
            {
                "item": each.item,
                "stock": each.stock or None,
                "lives": {
                    letter: {"cycles": life.cycles, "failed": life.failed} for letter, life in each.lives
                },
                "until": each.until,
                "failed": _share(each.failed) if each.until is not None else None,
                "survival": [
                    {
                        "cycles": step.cycles,
                        "share": step.surviving,
                        "interval": [step.low, step.high],
                        "at_risk": step.at_risk,
                    }
                    for step in each.steps
                ],
            }
            for each in found.items
        ],
    }


def _check(check: CheckFinding) -> dict[str, object]:
    return {
        "measure": check.measure,
        "question": check.question,
        "method": check.method,
        "versions": list(check.versions),
        "good": check.good,
        "items": [
            {
                "item": each.item,
                "stock": each.stock or None,
                "answers": dict(each.answers),
                "against": _share(each.against),
            }
            for each in check.items
        ],
    }


def _share(found: Share | None) -> dict[str, object] | None:
    if found is None:
        return None
    return {"k": found.k, "n": found.n, "interval": [found.low, found.high]}


def _finite(number: float) -> float | None:
    return None if number == float("inf") else number
