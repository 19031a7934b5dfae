"""A comparison before there are readings: what it would find, what its pieces cost, how it is run."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.analysis.interval import Parts
from generator.analysis.planning import UP_TO, Planned, comparison, enough, plans, run_order
from generator.analysis.specimens import Spread
from generator.evaluation.costs import costs, prices_of
from generator.evaluation.expected import Recorded, recorded
from generator.evaluation.kinds import KINDS
from generator.evaluation.pieces import declared
from generator.evaluation.plan_doubts import doubts
from generator.evaluation.planned import Asked, Origin, Plan, Run

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.schema.measures import AnyMeasure
    from generator.records.schema.method import Method

USUAL = 3
"""Pieces of each that runs are ordered for where nothing else is asked: the fewest with a next piece told."""


class NoSpread(Exception):
    """Nothing says how far apart pieces of one item lie."""


def plan(bench: Bench, method: Method, measure: AnyMeasure, asked: Asked) -> Plan:
    """Plan a comparison of at least two items by one measure.

    The spread is what was said; else pooled over the bench's own results; else the method's declared one.

    Raises:
        NoSpread: There is none of these.
        ValueError: Fewer than two items, or a measure of a kind without figures.
    """
    if measure.kind not in KINDS:
        raise ValueError(f"{measure.kind} has no figures to compare")
    kind = KINDS[measure.kind]
    own = recorded(bench, method, measure)
    stated = declared(getattr(measure, "spread", None))
    spread, origin = _spread(asked, own, stated)
    rows = _rows(asked, spread, own, stated)
    fewest = enough(rows, asked.gap) if asked.gap else None
    pieces = asked.pieces or (fewest.pieces if fewest is not None else USUAL)
    known = prices_of(bench, asked.names, asked.prices)
    control = asked.control or str(method.control or "") or next(iter(own.controls), "")
    made = Plan(
        method=method,
        measure=measure,
        unit=kind.unit(measure).replace("°C", "K"),
        better=kind.better(measure),
        asked=asked,
        spread=spread,
        origin=origin,
        declared=stated,
        recorded=own,
        rows=rows,
        costs=tuple(costs(known, asked.names, row.pieces) for row in rows),
        prices=known,
        enough=None if fewest is None else fewest.pieces,
        pieces=pieces,
        days=_days(asked, pieces, control),
        warned=(),
    )
    return replace(made, warned=doubts(made, control))


def _spread(asked: Asked, own: Recorded, stated: Spread | None) -> tuple[Spread, Origin]:
    if asked.spread:
        return Spread(asked.spread, math.inf, "declared"), "said"
    if own.spread is not None:
        return own.spread, "recorded"
    if stated is not None:
        return stated, "declared"
    raise NoSpread


def _rows(asked: Asked, spread: Spread, own: Recorded, stated: Spread | None) -> tuple[Planned, ...]:
    items = len(asked.names)
    one = () if stated is None else (comparison(items, 1, stated, own.between_single or Parts()),)
    between = own.between or Parts()
    more = (comparison(items, asked.pieces, spread, between),) if asked.pieces > UP_TO else ()
    return (*one, *plans(items, spread, between), *more)


def _days(asked: Asked, pieces: int, control: str) -> tuple[tuple[Run, ...], ...]:
    letters = [letter_of(number) for number in range(pieces)]
    order = [Run(*each) for each in run_order(asked.names, letters, asked.seed)]
    size = asked.per_day or len(order)
    ends = (Run(control, ""),) if control else ()
    return tuple((*ends, *order[start : start + size], *ends) for start in range(0, len(order), size))


def letter_of(number: int) -> str:
    """The letter of a piece by its number from 0: A to Z, then AA."""
    first, last = divmod(number, 26)
    return (letter_of(first - 1) if first else "") + chr(ord("A") + last)
