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
        inverse: (JᵀWJ)⁻¹; zeros for a start that is not free.
        sensitivities: (JᵀWJ)⁻¹JᵀW: ∂parameter/∂value at each reading, a row a parameter.
        residuals: Value less curve.
        square: Σw·r².
    """

    parameters: Row
    inverse: tuple[Row, ...]
    sensitivities: tuple[Row, ...]
    residuals: Row
    square: float


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
        hints: Rates to look at besides the grid's.

    Raises:
        NoFit: See `Reason`.
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
    parameters = 3 if free else 2
    # A curve from zero is not told anything by a reading at time 0.
    telling = {time for time in times if free or time != 0}
    if len(telling) < parameters:
        raise NoFit("too-few-readings")
    if not all(map(math.isfinite, (*times, *values))):
        raise NoFit("not-finite")
    if min(times) < 0:
        raise NoFit("before-the-start")
    if not any(values):
        raise NoFit("no-minimum")


def _solution(curve: Curve, data: Data, first: float, scale: tuple[float, float, float]) -> Solution:
    """From the curve in units of its scale (last time, largest value, heaviest weight) to the units given."""
    span, size, heaviest = scale
    if curve.rate * first > 700:
        raise NoFit("no-minimum")
    settled = curve.offset + curve.height
    start = settled - curve.height * math.exp(curve.rate * first) if data.free else 0.0
    left = [math.exp(-curve.rate * (time + first)) for time in data.times]
    jacobian = [
        [-math.expm1(-curve.rate * (time + first)) for time in data.times],
        [(settled - start) * (time + first) * fade for time, fade in zip(data.times, left, strict=True)],
    ]
    units = [size, size, 1 / span]
    inverse, by_value = _linearised([left, *jacobian] if data.free else jacobian, data.weights)
    if not data.free:
        inverse = [[0.0] * 3, *([0.0, *row] for row in inverse)]
        by_value = [[0.0] * len(left), *by_value]
    return Solution(
        parameters=(start * size, settled * size, curve.rate / span),
        inverse=tuple(
            tuple(each * (u / size) * (v / size) / heaviest for each, v in zip(row, units, strict=True))
            for row, u in zip(inverse, units, strict=True)
        ),
        sensitivities=tuple(
            tuple(each * (u / size) for each in row) for row, u in zip(by_value, units, strict=True)
        ),
        residuals=tuple(each * size for each in curve.residuals),
        square=curve.square * size * size * heaviest,
    )


def _linearised(columns: list[list[float]], weights: Row) -> tuple[list[list[float]], list[list[float]]]:
    """(JᵀWJ)⁻¹ and (JᵀWJ)⁻¹JᵀW by Cholesky's factors, J given by its two or three columns."""
    heavy = [list(map(mul, weights, column)) for column in columns]
    count = len(columns)
    lower = [[0.0] * count for _ in columns]
    for i in range(count):
        for j in range(i + 1):
            inner = math.fsum(map(mul, heavy[i], columns[j]))
            rest = math.fsum([inner, *(-lower[i][k] * lower[j][k] for k in range(j))])
            if i == j and rest <= 0:
                raise NoFit("no-minimum")
            lower[i][j] = math.sqrt(rest) if i == j else rest / lower[j][j]
    identity = [[float(i == j) for j in range(count)] for i in range(count)]
    # Rows of L⁻¹, by substitution downwards.
    turned: list[list[float]] = []
    for i in range(count):
        done = [math.fsum(-lower[i][k] * turned[k][j] for k in range(i)) for j in range(count)]
        turned.append([(identity[i][j] + done[j]) / lower[i][i] for j in range(count)])
    inverse = [
        [math.fsum(turned[k][i] * turned[k][j] for k in range(count)) for j in range(count)]
        for i in range(count)
    ]
    by_value = [[math.fsum(map(mul, row, place)) for place in zip(*heavy, strict=True)] for row in inverse]
    return inverse, by_value
