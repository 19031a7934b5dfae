"""What "How sure?" is given: every pair, where the spread comes from, and the budget of each figure."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.analysis.budget import Budget, Row
from generator.analysis.rounding import rounded
from generator.charts.numerals import true_minus
from generator.evaluation.findings import ItemFinding, MeasureFinding, PairFinding, SpreadOrigin
from generator.pages.format import (
    Both,
    Day,
    Plus,
    as_printed,
    day,
    narrow_difference,
    percent,
    plus,
    significant,
)
from generator.records.schema.instrument import Instrument

_CALIBRATED = "calibrated "
"""So begins the source of a figure that a calibration stands behind; an ISO date follows."""
_PROBE = "probe "
"""So begins the name of a probe in a budget; every other sensor's with the id of its meter."""


@dataclass(frozen=True)
class PairRow:
    """One pair: the cooler by figure, the other, the gap, and what may be said of it.

    Attributes:
        cooler: Name of the item with the smaller figure.
        other: Name of the other.
        gap: The difference with the pair's own ±.
        said: `shown`, `none found`, or `pieces only` where a side has one piece and its spread is not known.
    """

    cooler: str
    other: str
    gap: Plus
    said: str


@dataclass(frozen=True)
class SpreadRow:
    """Where the spread of one item comes from.

    Attributes:
        name: The item.
        n: Its pieces.
        origin: pooled, own, declared or none.
        deviation: Standard deviation; None where the origin is none.
        dof: Degrees of freedom, as text.
        declared_from: Where a declared one comes from.
    """

    name: str
    n: int
    origin: SpreadOrigin
    deviation: Both | None
    dof: str
    declared_from: str


@dataclass(frozen=True)
class BudgetRow:
    """One source of error in print; with the day of its calibration, where it has one."""

    label: str
    value: str
    unit: str
    distribution: str
    deviation: str
    sensitivity: str
    share: str
    assumed: bool
    source: str
    calibrated: Day | None


@dataclass(frozen=True)
class BudgetView:
    """How one figure's ± is made up.

    Attributes:
        id: Id of the item.
        name: Its name.
        n: Pieces that the figure rests on.
        plus: The figure, in K where it is a rise.
        deviation: Combined standard uncertainty.
        factor: Coverage factor.
        dof: Effective degrees of freedom; empty where infinite.
        unit: The figure's unit.
        rows: Largest share first.
        dearest: Label of the assumption that costs most; empty without an assumption.
    """

    id: str
    name: str
    n: int
    plus: Plus
    deviation: str
    factor: str
    dof: str
    unit: str
    rows: tuple[BudgetRow, ...]
    dearest: str


@dataclass(frozen=True)
class SureView:
    """Everything that `fragments/pairs.html.jinja` and its neighbours are given.

    Attributes:
        pairs: Every pair.
        compared: How many of them speak of the products, and are held together.
        spreads: Where each item's spread comes from.
        budgets: How each figure's ± is made up.
    """

    pairs: tuple[PairRow, ...]
    compared: int
    spreads: tuple[SpreadRow, ...]
    budgets: tuple[BudgetView, ...]


@dataclass(frozen=True)
class Probes:
    """Probes of one tolerance: their ids, and the tolerance as stated."""

    ids: tuple[str, ...]
    tolerance: str


@dataclass(frozen=True)
class Errors:
    """What the ± of a report's figures holds.

    Attributes:
        meters: Names of the meters.
        probes: The probes.
        others: Every other source by the first words of its label, each once.
    """

    meters: tuple[str, ...]
    probes: tuple[Probes, ...]
    others: tuple[str, ...]


def sure_view(measure: MeasureFinding, names: Mapping[str, str]) -> SureView:
    """From one measure's findings to what is printed of their certainty."""
    budgets = [
        budget_view(item, item.budget, names[item.item])
        for item in measure.items
        if item.budget is not None and item.figure is not None
    ]
    return SureView(
        tuple(_pair(pair, names, measure.unit) for pair in measure.pairs),
        sum(pair.known for pair in measure.pairs),
        tuple(_spread(item, names[item.item]) for item in measure.items if item.figure is not None),
        tuple(budgets),
    )


def errors_in(measures: Iterable[MeasureFinding], instruments: Mapping[str, Instrument]) -> Errors:
    """Every source of error in the budgets, each once; those of a meter or probe by its name alone."""
    budgets = [item.budget for measure in measures for item in measure.items if item.budget]
    labels = [row.label.partition(": ") for budget in budgets for row in budget.rows]
    sensors = sorted({sensor for sensor, colon, _ in labels if colon})
    meters = [re.split("[ ,]", each)[0] for each in sensors if not each.startswith(_PROBE)]
    probes: dict[str, list[str]] = {}
    for each in sensors:
        if each.startswith(_PROBE):
            name, _, tolerance = each.removeprefix(_PROBE).partition(", ")
            probes.setdefault(as_printed(tolerance), []).append(name)
    return Errors(
        tuple(dict.fromkeys(instruments[each].name for each in meters)),
        tuple(Probes(tuple(ids), tolerance) for tolerance, ids in probes.items()),
        tuple(dict.fromkeys(label.partition(", ")[0] for label, colon, _ in labels if not colon)),
    )


def _pair(pair: PairFinding, names: Mapping[str, str], unit: str) -> PairRow:
    said = "pieces only" if not pair.known else "shown" if pair.shown else "none found"
    gap = plus(pair.difference.value, pair.half_width, unit)
    return PairRow(names[pair.first], names[pair.second], gap, said)


def _spread(item: ItemFinding, name: str) -> SpreadRow:
    spread = item.spread
    known = spread.origin != "none"
    return SpreadRow(
        name,
        item.n,
        spread.origin,
        narrow_difference(spread.deviation) if known else None,
        dof_text(spread.dof) if known else "",
        spread.declared_from,
    )


def budget_view(item: ItemFinding, budget: Budget, name: str) -> BudgetView:
    """The budget of an item's figure; the item has one."""
    found = item.figure
    if found is None:
        raise ValueError(f"{item.item} has no figure")
    assumed = [row.label for row in budget.rows if row.assumed]
    return BudgetView(
        item.item,
        name,
        item.n,
        in_own_unit(found.value, found.half_width, found.unit),
        significant(found.standard_uncertainty),
        f"{found.coverage_factor:.2f}",
        dof_text(found.dof),
        found.unit,
        budget_rows(budget),
        assumed[0] if assumed else "",
    )


def budget_rows(budget: Budget | None) -> tuple[BudgetRow, ...]:
    """The rows of a budget in print, largest share first; none without one."""
    return () if budget is None else tuple(_row(row) for row in budget.rows)


def in_own_unit(value: float, half_width: float, unit: str) -> Plus:
    """A figure in its own unit: K for a rise, as in budgets and data."""
    own = rounded(value, half_width)
    return Plus(true_minus(own.value_text), own.uncertainty_text, unit=unit)


def dof_text(dof: float) -> str:
    """Degrees of freedom, cut and not rounded (GUM G.4.1, note 1); empty where infinite."""
    return "" if math.isinf(dof) else f"{math.floor(dof + 1e-9)}"


def _row(row: Row) -> BudgetRow:
    return BudgetRow(
        row.label,
        significant(row.value, 4),
        "" if row.unit == "1" else row.unit,
        row.distribution,
        significant(row.standard_uncertainty),
        significant(row.sensitivity),
        percent(row.share),
        row.assumed,
        row.source,
        day(row.source.removeprefix(_CALIBRATED)) if row.source.startswith(_CALIBRATED) else None,
    )
