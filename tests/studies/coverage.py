"""How often the 95 % intervals hold the truth: rise at the mark, mean of pieces, difference of two items.

Each combination is judged twice by the same functions: on values of the simulator's bench, and on values made
by drawing the components of the budget directly. The first must agree with the second.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from generator.analysis.comparison import difference
from generator.analysis.interval import estimate
from generator.analysis.linear import combined_uncertainty
from generator.analysis.specimens import Figure, Spread, components, figure, pooled_spread, spread_for
from generator.analysis.uncertainty import Component, Key, Ledger, Uncertain
from tests.simulator.heat import Array
from tests.simulator.meters import generator
from tests.studies import plant, reduced

ITEMS = 2
RISE = 50.0
"""Of both items, K."""

RATIOS = (0.25, 1.0, 4.0)
COUNTS = (2, 3, 5)


@dataclass(frozen=True)
class Combination:
    """One cell of the table.

    Attributes:
        ratio: Standard uncertainty of all shared errors over the standard deviation between pieces.
        count: n, pieces of each item.
        scale: Of the meters' stated accuracy.
        measured: Whether the method measured the exponent of the current, or has the default.
        sets: Of meters of one class: one reads all pieces, or each item is read by its own.
    """

    ratio: float
    count: int
    scale: float = 1.0
    measured: bool = True
    sets: int = 1

    @property
    def exponent(self) -> tuple[float, float]:
        """Of the rise over the current, and its half-width."""
        return (plant.exponent(RISE), reduced.MEASURED) if self.measured else reduced.DEFAULT


@dataclass(frozen=True)
class Held:
    """How many of the cases held the truth.

    Attributes:
        cases: Of each.
        mean: By the simulator: figure of the first item.
        mean_drawn: By the components drawn directly.
        difference: By the simulator: first less second.
        difference_drawn: By the components drawn directly.
        rectangle: Largest share of a variance that one rectangle has, in mean and difference.
    """

    cases: int
    mean: int
    mean_drawn: int
    difference: int
    difference_drawn: int
    rectangle: tuple[float, float]


@dataclass(frozen=True)
class Judged:
    """Figures of the items of one case, and the spread pooled over them."""

    figures: list[Figure]
    pooled: Spread | None


@dataclass(frozen=True)
class Told:
    """What figures are of.

    Attributes:
        value: What the components drawn directly are errors of.
        unit: Of the figures.
        resolution: Smallest step of a run.
    """

    value: float
    unit: str
    resolution: float


class Budgets:
    """Budgets of the pieces' figures, to which each case brings its values."""

    def __init__(self, told: Told) -> None:
        self.told = told
        self.ledger = Ledger()
        self.pieces: list[list[Uncertain]] = []

    def figures(self, values: Array, case: str, declared: Spread | None = None) -> Judged:
        """The items' figures in one case; values have the shape (items, pieces)."""
        rows = values.tolist()
        pooled = pooled_spread(rows)
        made = [
            figure(
                self.ledger,
                (case, str(item)),
                [reduced.valued(number, each) for number, each in zip(self.pieces[item], row, strict=True)],
                spread_for(row, pooled, declared),
                unit=self.told.unit,
                resolution=self.told.resolution,
            )
            for item, row in enumerate(rows)
        ]
        return Judged(made, pooled)

    def drawn(self, draw: np.random.Generator, cases: int, spread: float) -> Array:
        """Values of pieces, errors drawn from the components of their budgets; (cases, items, pieces)."""
        errors: dict[Key, Array] = {}
        values = np.empty((cases, len(self.pieces), len(self.pieces[0])))
        for item, row in enumerate(self.pieces):
            for piece, number in enumerate(row):
                total = self.told.value + draw.normal(0.0, spread, cases)
                for part in self.ledger.components(number):
                    if part.input.key not in errors:
                        errors[part.input.key] = _errors(draw, part, cases)
                    total += part.sensitivity * errors[part.input.key]
                values[:, item, piece] = total
        return values


class Template(Budgets):
    """Budgets of rises at the mark."""

    def __init__(
        self, scale: float, items: int, count: int, exponent: tuple[float, float], sets: int = 1
    ) -> None:
        super().__init__(Told(RISE, "K", plant.STEP_K))
        specs = reduced.Specs.at(scale, exponent)
        draw = generator(0, "template")
        typical = plant.heated(draw, np.full((1, 1, 1), plant.resistance_for(RISE)), scale=0.0)
        read = (typical.body[0], typical.air[0], typical.current[0])
        for item in range(items):
            row, meters = [], replace(specs, named=str(item % sets))
            for piece in range(count):
                name = f"{item}-{piece}"
                heated = reduced.run(self.ledger, meters, read, name)
                number = reduced.reduce(self.ledger, meters, heated, name, str(item)).rise
                row.append(reduced.gathered(self.ledger, number, name))
            self.pieces.append(row)


def _errors(draw: np.random.Generator, part: Component, cases: int) -> Array:
    u = part.input.standard_uncertainty
    if part.input.distribution == "rectangular":
        return draw.uniform(-1.0, 1.0, cases) * part.input.half_width
    return (
        draw.normal(0.0, u, cases) if np.isinf(part.input.dof) else u * draw.standard_t(part.input.dof, cases)
    )


def study(seed: int, combination: Combination, cases: int) -> Held:
    """Simulate, draw, judge.

    Args:
        seed: Of everything.
        combination: Ratio and number of pieces.
        cases: How many of each. The truth is the mean of all pieces ever made.
    """
    scale, n = combination.scale, combination.count
    template = Template(scale, ITEMS, n, combination.exponent, combination.sets)
    shared = template.ledger.without(template.pieces[0][0], {"run", "reading"})
    spread = combined_uncertainty(shared) / combination.ratio
    named = (f"{combination.ratio:g} {combination.scale:g}", str(n))
    draw = generator(seed, "coverage" if combination.sets == 1 else "meters of their own", *named)
    ohms = plant.resistance_for(RISE)
    deviation = spread * plant.ohms_per_kelvin(RISE)
    shape = (cases, ITEMS, n)
    readings = plant.heated(draw, draw.normal(ohms, deviation, shape), scale=scale, sets=combination.sets)
    found = reduced.rises(readings, scale, combination.exponent[0]).reshape(shape)
    true = np.full((cases, ITEMS), plant.mean_rise(ohms, deviation))
    pieces_drawn = template.drawn(draw, cases, spread)
    mean, apart, share = judged(template, found, true, "simulated")
    mean_drawn, apart_drawn, _ = judged(template, pieces_drawn, np.full((cases, ITEMS), RISE), "drawn")
    return Held(cases, mean, mean_drawn, apart, apart_drawn, share)


def judged(
    template: Budgets, values: Array, truths: Array, name: str
) -> tuple[int, int, tuple[float, float]]:
    """How many means and differences hold the truth, and the largest rectangle's mean share of each."""
    means, apart = 0, 0
    largest = np.zeros(2)
    for case, (each, truth) in enumerate(zip(values, truths.tolist(), strict=True)):
        case_of = template.figures(each, f"{name}-{case}")
        first, second = case_of.figures
        parts = components(template.ledger, first)
        told = estimate(first.number.x, parts, template.told.unit)
        between = difference(template.ledger, first, second, case_of.pooled)
        means += told.low <= truth[0] <= told.high
        apart += between.estimate.low <= truth[0] - truth[1] <= between.estimate.high
        largest += (_rectangle(parts), _rectangle(between.components))
    share = largest / len(values)
    return means, apart, (float(share[0]), float(share[1]))


def _rectangle(parts: tuple[Component, ...]) -> float:
    whole = sum(part.contribution**2 for part in parts)
    return max(
        (part.contribution**2 / whole for part in parts if part.input.distribution == "rectangular"),
        default=0.0,
    )
