"""Least squares of an exponential approach, with what linearised least squares say about its uncertainty."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from operator import mul

from generator.analysis.projection import Curve, Data, NoFit, Row, least_squares


@dataclass(frozen=True)
class Solution:
    """The least-squares answer; its parameters are start θ₀, settled θ∞ = θ₀ + b and rate k, in this order.

    Attributes:
        parameters: θ₀ (0 where it is not free), θ∞, k.
        inverse: (JᵀWJ)⁻¹, 3 × 3; zeros for a start that is not free.
        residuals: Value less curve.
        square: Σw·r².
        heavy: JᵀW, 3 rows; zeros for a start that is not free.
    """

    parameters: Row
    inverse: tuple[Row, ...]
    residuals: Row
    square: float
    heavy: tuple[Row, ...]

    def sensitivities(self) -> tuple[Row, ...]:
        """∂parameter/∂value at each reading, (JᵀWJ)⁻¹JᵀW, a row a parameter."""
        return tuple(self.sensitivity(parameter) for parameter in range(3))

    def sensitivity(self, parameter: int) -> Row:
        """The row of one parameter."""
        row = self.inverse[parameter]
        return tuple(math.fsum(map(mul, row, place)) for place in zip(*self.heavy, strict=True))


def solve(
    times: Sequence[float],
    values: Sequence[float],
    weights: Sequence[float],
    *,
    free: bool,
    hints: Iterable[float] = (),
) -> Solution:
    """The curve of least squares, in the units given.

    Args:
        times: Not below zero, in any order.
        values: One a time.
        weights: Of the squares, above zero, one a time.
        free: Whether the start θ₀ is free; else the curve begins at zero.
        hints: Rates to look at besides those that are looked at anyway.

    Raises:
        NoFit: See `projection.Reason`.
    """
    _refuse(times, values, free=free)
    span, size, heaviest = max(times), max(map(abs, values)), max(weights)
    # A free start is solved for at the first reading, so that a late one does not cost digits.
    first = min(times) if free else 0.0
    data = Data(
        tuple((time - first) / span for time in times),
        tuple(value / size for value in values),
        tuple(weight / heaviest for weight in weights),
        free,
    )
    curve = least_squares(data, [rate * span for rate in hints])
    return _solution(curve, data, first / span, (span, size, heaviest))


def _refuse(times: Sequence[float], values: Sequence[float], *, free: bool) -> None:
    # A curve from zero is told nothing by a reading at time 0.
    telling = {time for time in times if free or time != 0}
    if len(telling) < (3 if free else 2):
        raise NoFit("too-few-readings")
    if not all(map(math.isfinite, (*times, *values))):
        raise NoFit("not-finite")
    if min(times) < 0:
        raise NoFit("before-the-start")
    if not any(values):
        raise NoFit("no-minimum")


def _solution(curve: Curve, data: Data, first: float, scale: tuple[float, float, float]) -> Solution:
    """From units of the last time, the largest value and the heaviest weight to the units given."""
    span, size, heaviest = scale
    if curve.rate * first > 700:
        raise NoFit("no-minimum")
    settled = curve.offset + curve.height
    start = settled - curve.height * math.exp(curve.rate * first) if data.free else 0.0
    times = [time + first for time in data.times]
    left = [math.exp(-curve.rate * time) for time in times]
    columns = [
        left,
        [-math.expm1(-curve.rate * time) for time in times],
        [(settled - start) * time * fade for time, fade in zip(times, left, strict=True)],
    ]
    heavy = [list(map(mul, data.weights, column)) for column in columns]
    inverse = _inverse(columns, heavy, 0 if data.free else 1)
    if not data.free:
        heavy[0] = [0.0] * len(times)
    units = (1.0, 1.0, 1 / (span * size))
    return Solution(
        parameters=(start * size, settled * size, curve.rate / span),
        inverse=tuple(
            tuple(each * u * v / heaviest for each, v in zip(row, units, strict=True))
            for row, u in zip(inverse, units, strict=True)
        ),
        residuals=tuple(each * size for each in curve.residuals),
        square=curve.square * size * size * heaviest,
        heavy=tuple(tuple(each * heaviest / u for each in row) for row, u in zip(heavy, units, strict=True)),
    )


def _inverse(columns: list[list[float]], heavy: list[list[float]], since: int) -> list[list[float]]:
    """(JᵀWJ)⁻¹ by Cholesky's factors over the columns from one on; zeros for those before it."""
    lower = [[0.0] * 3 for _ in range(3)]
    # Rows of L⁻¹, by substitution downwards.
    turned = [[0.0] * 3 for _ in range(3)]
    for i in range(since, 3):
        for j in range(since, i + 1):
            known = [-lower[i][k] * lower[j][k] for k in range(since, j)]
            rest = math.fsum([*map(mul, heavy[i], columns[j]), *known])
            if i == j and rest <= 0:
                raise NoFit("no-minimum")
            lower[i][j] = math.sqrt(rest) if i == j else rest / lower[j][j]
        for j in range(since, i + 1):
            known = [-lower[i][k] * turned[k][j] for k in range(j, i)]
            turned[i][j] = math.fsum([float(i == j), *known]) / lower[i][i]
    return [[math.fsum(row[i] * row[j] for row in turned) for j in range(3)] for i in range(3)]
