"""Probes side by side without current: the difference of two channels, taken out of the rise."""

from __future__ import annotations

import math
from typing import Any

from generator.analysis.linear import deferred
from generator.analysis.specimens import own_spread
from generator.analysis.uncertainty import Uncertain, rectangle, scatter, total
from generator.evaluation.instruments import class_slope
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.task import Task, cells_of, step

FEWEST = 5
"""Pairs that a zero check needs."""


def zeroed(task: Task[Any], hot: Cells, point: str) -> Cells:
    """The item's temperatures with the difference of its channel to the air's taken out.

    The offsets of both channels, known from the readings side by side, go out with their inputs; the gain
    stays with the distance from the temperature of the check, and of a probe's class its share of that
    distance. In their place stands the standard uncertainty of the mean difference of the pairs.

    Args:
        task: The run.
        hot: °C at the point, alive.
        point: The point.

    Returns:
        The same where the run has no zero check of both channels with five pairs.
    """
    check = task.run.zero_check
    item = check.table.column("temperature", point) if check is not None else None
    air = check.table.column("ambient") if check is not None else None
    if check is None or item is None or air is None:
        return hot
    sides = [cells_of(task, check.table, each, "zero check of ") for each in (item, air)]
    pairs = [(one, other) for one, other in zip(*sides, strict=True) if one is not None and other is not None]
    if len(pairs) < FEWEST:
        return hot
    apart = _mean_difference(task, pairs, max(step(check.table, item), step(check.table, air)))
    column = f"temperature@{point}"
    at = math.fsum(one.x for one, _ in pairs) / len(pairs)
    slope = _slope(task, column)
    return tuple(None if cell is None else _less(cell, apart, cell.x - at, slope) for cell in hot)


def _less(cell: Uncertain, apart: Uncertain, above: float, slope: Uncertain) -> Uncertain:
    return deferred(cell.x - apart.x + above * slope.x, ((1.0, cell), (-1.0, apart), (above, slope)))


def _mean_difference(task: Task[Any], pairs: list[tuple[Uncertain, Uncertain]], digit: float) -> Uncertain:
    """Mean of item less air, its noise by the scatter of the pairs."""
    n = len(pairs)
    differences = [one - other for one, other in pairs]
    mean = total(differences) / float(n)
    fixed = task.ledger.without(mean, {"reading"})
    spread = own_spread([each.x for each in differences])
    key = (task.run.id, "zero check")
    deviation = spread.deviation if spread is not None else 0.0
    noise = scatter(
        key,
        "zero check",
        deviation / math.sqrt(n),
        "K",
        "shared",
        dof=n - 1,
        source=f"{n} pairs side by side",
    )
    fixed = fixed + task.ledger.input(noise)
    if deviation < digit:
        # Readings that fall on one step show only that: ± half a step stays.
        stays = rectangle((*key, "resolution"), "zero check, resolution", digit / 2, "K", "shared")
        fixed = fixed + task.ledger.input(stays)
    return fixed


def _slope(task: Task[Any], column: str) -> Uncertain:
    """What the probe's class leaves a K of distance from the temperature of the check: an error around 0."""
    found = class_slope(task.bench, task.run, column)
    if found is None:
        return task.ledger.exact(0.0)
    key, name, share = found
    entry = rectangle(key, f"{name}: slope after the zero check", share, "1", "shared", source="its class")
    return task.ledger.input(entry)
