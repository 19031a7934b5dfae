"""Where a planned comparison cannot answer its question, or not as well as its table says."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from scipy.special import chdtri

from generator.analysis.interval import Parts
from generator.analysis.planning import POWER
from generator.analysis.ranking import gap_seen
from generator.evaluation.planned import Plan, Warned

FEW = 10
"""Degrees of freedom below which a recorded spread is told with how large it may really be; our choice."""

FLOOR = 0.7
"""Share of the smallest gap in the table from which on it is the meters that set it; our choice."""


def doubts(plan: Plan, control: str) -> tuple[Warned, ...]:
    """What has to be known of a plan before its pieces are bought, gravest first.

    Args:
        plan: It, without these.
        control: What is run first and last of a day; empty without one.
    """
    return (*_of_the_gap(plan), *_of_the_spread(plan), *_of_the_rig(plan, control))


def _of_the_gap(plan: Plan) -> Iterator[Warned]:
    row, asked = plan.row(plan.pieces), plan.asked.gap
    if row is None:
        yield Warned("one-piece")
    elif asked and row.gap > asked:
        yield Warned("unseen", row.gap, plan.enough or 0)
    elif plan.pieces == 1:
        yield Warned("single", row.gap)
    wanted = asked or (row.gap if row is not None else 0.0)
    if wanted and plan.recorded.resolution >= wanted:
        yield Warned("resolution", plan.recorded.resolution)
    floor = _by_meters_alone(plan)
    if floor > FLOOR * plan.row_of_most.gap:
        yield Warned("meters", floor)


def _by_meters_alone(plan: Plan) -> float:
    """The gap that pieces without any spread between them would show."""
    between = plan.recorded.between
    if between is None or between == Parts():
        return 0.0
    return gap_seen(replace(between, u_t=0.0, dof=math.inf), plan.level, POWER)


def _of_the_spread(plan: Plan) -> Iterator[Warned]:
    own = plan.recorded
    if plan.origin == "recorded" and plan.spread.dof < FEW:
        # Upper 95 % limit of a standard deviation: s·√(ν/χ²), NIST/SEMATECH e-Handbook 7.2.3.1.
        yield Warned("few", plan.spread.dof, plan.spread.deviation * math.sqrt(plan.spread.dof / _chi2(plan)))
    if own.apart:
        yield Warned("apart", own.apart[-1])
    if own.between is None:
        yield Warned("no-meters")
    if own.lost:
        yield Warned("lost", own.lost, own.runs)


def _chi2(plan: Plan) -> float:
    return float(chdtri(plan.spread.dof, 0.95))


def _of_the_rig(plan: Plan, control: str) -> Iterator[Warned]:
    if plan.better is None:
        yield Warned("no-direction")
    if not control and plan.measure.kind == "heating":
        yield Warned("no-control")
    if plan.asked.per_day and plan.asked.per_day % len(plan.asked.names):
        yield Warned("split-rounds", plan.asked.per_day, len(plan.asked.names))
