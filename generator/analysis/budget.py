"""The uncertainty budget of one figure, as rows to print."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.analysis.uncertainty import Component, Distribution, Scope, combined, effective_dof


@dataclass(frozen=True)
class Row:
    """One line of a budget: one input, or several of the same label and kind.

    Attributes:
        label: Plain words.
        value: Estimate of the input, in `unit`, 0 for an error; the mean of several.
        unit: Unit of the input.
        distribution: Its shape.
        standard_uncertainty: Of the input, in `unit`; for several inputs the root mean square of theirs.
        dof: Degrees of freedom; for several inputs their effective ones.
        sensitivity: ∂y/∂x; for several inputs the root of the sum of squares, which gives the contribution.
        contribution: |sensitivity| × standard uncertainty, in the figure's unit.
        share: Share of the figure's variance in percent.
        scope: How far the error reaches.
        assumed: Whether it rests on a printed default.
        source: Where the input's figure comes from.
        count: Number of inputs in the row.
    """

    label: str
    value: float
    unit: str
    distribution: Distribution
    standard_uncertainty: float
    dof: float
    sensitivity: float
    contribution: float
    share: float
    scope: Scope
    assumed: bool
    source: str
    count: int


@dataclass(frozen=True)
class Budget:
    """All rows, largest share first.

    Attributes:
        rows: The lines; their shares add up to 100 %.
        standard_uncertainty: Combined, in `unit`.
        dof: Effective degrees of freedom.
        unit: The figure's unit.
    """

    rows: tuple[Row, ...]
    standard_uncertainty: float
    dof: float
    unit: str


def budget(components: Iterable[Component], unit: str) -> Budget:
    """Gather components into rows: inputs of one label, shape, unit, reach and source are one row.

    Args:
        components: From the ledger.
        unit: The figure's unit.
    """
    found = tuple(components)
    total = combined(found)
    groups: dict[tuple[object, ...], list[Component]] = {}
    of_input: dict[int, list[Component]] = {}
    for part in found:
        entry = part.input
        group = of_input.get(id(entry))
        if group is None:
            kind = (entry.label, entry.distribution, entry.unit, entry.scope, entry.assumed, entry.source)
            group = of_input[id(entry)] = groups.setdefault(kind, [])
        group.append(part)
    rows = (_row(group, total) for group in groups.values())
    ordered = sorted(rows, key=lambda row: (-float(f"{row.contribution:.9g}"), row.label))
    return Budget(tuple(ordered), total, effective_dof(found), unit)


def _row(group: Sequence[Component], total: float) -> Row:
    first, single = group[0], len(group) == 1
    entry = first.input
    u = entry.standard_uncertainty if single else _root_mean_square(group)
    contribution = abs(first.contribution) if single else combined(group)
    return Row(
        label=entry.label,
        value=first.estimate if single else math.fsum(part.estimate for part in group) / len(group),
        unit=entry.unit,
        distribution=entry.distribution,
        standard_uncertainty=u,
        dof=entry.dof if single else effective_dof(group),
        sensitivity=first.sensitivity if single else contribution / u,
        contribution=contribution,
        share=100 * (contribution / total) ** 2,
        scope=entry.scope,
        assumed=entry.assumed,
        source=entry.source,
        count=len(group),
    )


def _root_mean_square(group: Sequence[Component]) -> float:
    return math.sqrt(math.fsum(part.input.standard_uncertainty**2 for part in group) / len(group))
