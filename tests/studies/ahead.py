"""How often what is told of pieces not yet tested holds: where the next one lies, and the limit of most.

Judged twice, as `coverage` has it: on values of the simulator's bench, and on values made by drawing the
components of the budget directly.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.stats import norm

from generator.analysis.future import MOST, most_pieces, next_piece
from generator.analysis.interval import error_of
from generator.analysis.linear import combined_uncertainty
from tests.simulator.heat import Array
from tests.simulator.meters import generator
from tests.studies import plant, reduced
from tests.studies.coverage import ITEMS, RISE, Template

COUNTS = (2, 3, 5, 10)


@dataclass(frozen=True)
class Row:
    """One cell of the table.

    Attributes:
        ratio: Standard uncertainty of all shared errors over the standard deviation between pieces.
        count: n, pieces of each item.
    """

    ratio: float
    count: int


@dataclass(frozen=True)
class Held:
    """How many of the cases held; None where nothing is told from so few pieces.

    Attributes:
        cases: Of each.
        next: Cases in which a further piece lay where it was told to, by the simulator.
        next_drawn: The same with the components drawn directly.
        most: Cases in which 90 % of all pieces lie below the limit.
        most_drawn: The same with the components drawn directly.
    """

    cases: int
    next: int | None
    next_drawn: int | None
    most: int | None
    most_drawn: int | None


def study(seed: int, row: Row, cases: int) -> Held:
    """Simulate, draw, judge.

    Args:
        seed: Of everything.
        row: Ratio and number of pieces.
        cases: How many of each. What is told of is true at the mark, at the set current in still air.
    """
    exponent = (plant.exponent(RISE), reduced.MEASURED)
    template = Template(1.0, ITEMS, row.count, exponent)
    fixed = template.ledger.without(template.pieces[0][0], {"run", "reading"})
    spread = combined_uncertainty(fixed) / row.ratio
    draw = generator(seed, "ahead", f"{row.ratio:g}", str(row.count))
    ohms, deviation = plant.resistance_for(RISE), spread * plant.ohms_per_kelvin(RISE)
    shape = (cases, ITEMS, row.count)
    readings = plant.heated(draw, draw.normal(ohms, deviation, shape))
    found = reduced.rises(readings, 1.0, exponent[0]).reshape(shape)
    further = plant.true_rises(draw.normal(ohms, deviation, cases))
    # The hotter, the more resistance: the limit of the one is the limit of the other.
    limit = float(plant.true_rises(np.array([ohms + norm.ppf(MOST) * deviation]))[0])
    told = _judged(template, found, further, limit, "simulated")
    by_budget = template.drawn(draw, cases, spread)
    further = draw.normal(RISE, spread, cases)
    drawn = _judged(template, by_budget, further, RISE + float(norm.ppf(MOST)) * spread, "drawn")
    return Held(cases, told[0], drawn[0], told[1], drawn[1])


def _judged(
    template: Template, values: Array, further: Array, limit: float, name: str
) -> tuple[int | None, int | None]:
    """Of the first item: how many next pieces and how many limits hold."""
    following: list[bool] = []
    most: list[bool] = []
    for case, (each, true) in enumerate(zip(values, further.tolist(), strict=True)):
        figure = template.figures(each, f"{name}-{case}").figures[0]
        assert figure.spread is not None
        of = (figure.number.x, error_of(template.ledger, figure.number), figure.spread, figure.pieces)
        if (piece := next_piece(*of)) is not None:
            following.append(piece.low <= true <= piece.high)
        if (told := most_pieces(*of, "below")) is not None:
            most.append(told.limit >= limit)
    return sum(following) if following else None, sum(most) if most else None
