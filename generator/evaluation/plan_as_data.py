"""A plan as plain data for other programs: the shape that `provebook plan --json` prints."""

from __future__ import annotations

import math

from generator.analysis.multiple import LEVEL
from generator.analysis.planning import POWER
from generator.analysis.specimens import Spread
from generator.evaluation.as_data import FORMAT
from generator.evaluation.costs import Cost, Price
from generator.evaluation.expected import Recorded
from generator.evaluation.planned import Plan
from generator.evaluation.prices_as_data import money_as_data


def plan_as_data(plan: Plan) -> dict[str, object]:
    """A plan as lists, mappings, text and numbers; figures are not rounded."""
    asked = plan.asked
    rows = zip(plan.rows, plan.costs, strict=True)
    return {
        "format": FORMAT,
        "method": plan.method.id,
        "version": plan.method.version,
        "measure": plan.measure.id,
        "unit": plan.unit,
        "items": list(asked.names),
        "pairs": plan.pairs,
        "level_together": LEVEL,
        "level_first": plan.level,
        "power": POWER,
        "spread": {**_spread(plan.spread), "origin": plan.origin},
        "declared": None if plan.declared is None else _spread(plan.declared),
        "recorded": _recorded(plan.recorded),
        "rows": [
            {"pieces": row.pieces, "gap_seen": row.gap, "degrees_of_freedom": _dof(row.dof), **_cost(cost)}
            for row, cost in rows
        ],
        "gap_asked": asked.gap or None,
        "pieces_enough": plan.enough,
        "pieces": plan.pieces,
        "prices": [_price(each) for each in plan.prices],
        "seed": asked.seed,
        "days": [[{"item": run.item, "piece": run.piece or None} for run in day] for day in plan.days],
        "warnings": [{"what": each.what, "value": each.value, "other": each.other} for each in plan.warned],
    }


def _recorded(own: Recorded) -> dict[str, object]:
    none = {"standard_deviation": None, "degrees_of_freedom": None}
    return {
        **(none if own.spread is None else _spread(own.spread)),
        "items": own.items,
        "pieces": own.pieces,
        "reports": list(own.reports),
        "versions": list(own.versions),
        "runs": own.runs,
        "without_figure": own.lost,
    }


def _spread(spread: Spread) -> dict[str, object]:
    return {"standard_deviation": spread.deviation, "degrees_of_freedom": _dof(spread.dof)}


def _dof(dof: float) -> float | None:
    return None if math.isinf(dof) else dof


def _cost(cost: Cost) -> dict[str, object]:
    return {"cost": [money_as_data(each) for each in cost.sums], "without_price": list(cost.without)}


def _price(price: Price) -> dict[str, object]:
    bought = price.purchase
    return {
        "item": price.item,
        "each": money_as_data(bought.each),
        "pack": bought.pack,
        "date": bought.day.isoformat() if bought.day else None,
        "seller": bought.seller or None,
        "recorded": price.recorded,
    }
