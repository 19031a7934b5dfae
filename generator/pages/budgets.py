"""What the budget of a figure is given: how its ± is made up, and which assumption costs most."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.analysis.budget import Budget, Row
from generator.analysis.rounding import rounded
from generator.charts.numerals import true_minus
from generator.evaluation.findings import ItemFinding
from generator.pages.format import Day, Plus, day, percent, significant

_CALIBRATED = "calibrated "
"""So begins the source of a figure that a calibration stands behind; an ISO date follows."""
_NEW_IN_RUN = ", new in each run"
"""So ends the label of the part of an error that a run does not share with others."""

MOST = 1000
"""Of more degrees of freedom no count is told: Student's t differs by a thousandth from the normal there."""
MANY = "more than 1,000"


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
class Dearest:
    """The assumption that costs a figure most: what is taken for granted, and its share in percent."""

    what: str
    share: str


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
        dearest: The assumption that costs most; None without an assumption.
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
    dearest: Dearest | None


def budget_view(item: ItemFinding, budget: Budget, name: str) -> BudgetView:
    """The budget of an item's figure; the item has one."""
    found = item.figure
    if found is None:
        raise ValueError(f"{item.item} has no figure")
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
        dearest(budget),
    )


def budget_rows(budget: Budget | None) -> tuple[BudgetRow, ...]:
    """The rows of a budget in print, largest share first; none without one."""
    return () if budget is None else tuple(_row(row) for row in budget.rows)


def dearest(budget: Budget) -> Dearest | None:
    """The assumption that costs most: one that several inputs rest on has the shares of them all."""
    shares: dict[str, float] = {}
    for row in budget.rows:
        if row.assumed:
            what = assumption(row.label)
            shares[what] = shares.get(what, 0.0) + row.share
    if not shares:
        return None
    most = max(shares, key=lambda what: shares[what])
    return Dearest(most, percent(shares[most]))


def assumption(label: str) -> str:
    """What is taken for granted in an input, whichever meter or probe it is of."""
    if label.endswith(_NEW_IN_RUN):
        return _NEW_IN_RUN.strip(", ")
    return label.partition(": ")[2] or label


def in_own_unit(value: float, half_width: float, unit: str) -> Plus:
    """A figure in its own unit: K for a rise, as in budgets and data."""
    own = rounded(value, half_width)
    return Plus(true_minus(own.value_text), own.uncertainty_text, unit=unit)


def dof_text(dof: float) -> str:
    """Degrees of freedom, cut and not rounded (GUM G.4.1, note 1); empty where infinite."""
    if math.isinf(dof):
        return ""
    return MANY if dof > MOST else f"{math.floor(dof + 1e-9)}"


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
