"""The rate of an exponential approach, a + b·(1 − e^(−k·t)) with a free or zero, by least squares.

For a rate k the best a and b follow at once, and the sum of squares is a function S(k) of the rate alone
(variable projection; G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10 (1973) 413–432). Its minimum is a
root of dS/dk = −2b·Σw·r·t·e^(−kt), r the residuals. S may have several minima, or fall towards k = 0 (a
straight line) or k = ∞ (a step): a grid of rates finds every turn, and the lowest minimum is the answer only
where neither end lies lower.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import expm1
from operator import mul, sub
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

PER_DECADE = 6
"""Rates of the grid in each decade."""

SLOWEST = 1e-4
"""Slowest rate of the grid times the last time: there the curve is a straight line to 1 in 20,000."""

FASTEST = 30.0
"""Fastest rate of the grid times the first time after 0: there the curve is a step to 1 in 10¹³."""

Reason = Literal["too-few-readings", "not-finite", "before-the-start", "no-minimum"]
"""Why there is no fit: fewer readings (at unlike times) than parameters, a number that is not finite, a time
below zero, or no minimum at a finite positive rate."""

Row = tuple[float, ...]
"""One number a reading or a parameter."""

Numbers = NDArray[np.float64]


class NoFit(Exception):
    """There is no least-squares curve.

    Attributes:
        reason: Why.
    """

    def __init__(self, reason: Reason) -> None:
        self.reason: Reason = reason
        super().__init__(reason)


@dataclass(frozen=True)
class Data:
    """Readings, in units in which times and values are of order 1.

    Attributes:
        times: At least one above 0, none below; where a is free, one of them is 0.
        values: One a time.
        weights: Of the squares.
        free: Whether a is free.
    """

    times: Row
    values: Row
    weights: Row
    free: bool

    @cached_property
    def level(self) -> float:
        """Weighted mean of the values where a is free; else 0."""
        return self.mean(self.values)

    @cached_property
    def above(self) -> Row:
        """Values less their level."""
        return tuple(y - self.level for y in self.values)

    @cached_property
    def moments(self) -> Row:
        """Weight × time."""
        return tuple(map(mul, self.weights, self.times))

    @cached_property
    def weight(self) -> float:
        """Sum of the weights."""
        return math.fsum(self.weights)

    def mean(self, numbers: Sequence[float]) -> float:
        """Weighted mean where a is free, which takes it out; else 0."""
        return math.fsum(map(mul, self.weights, numbers)) / self.weight if self.free else 0.0

    def square(self, residuals: Sequence[float]) -> float:
        """Weighted sum of squares."""
        return math.fsum(map(mul, self.weights, map(mul, residuals, residuals)))


@dataclass(frozen=True)
class Curve:
    """The best curve at one rate.

    Attributes:
        rate: k.
        offset: a, 0 where it is not free.
        height: b.
        residuals: Value less curve.
        square: S.
    """

    rate: float
    offset: float
    height: float
    residuals: Row
    square: float


def least_squares(data: Data, hints: Iterable[float] = ()) -> Curve:
    """The best of all curves.

    Args:
        data: At least as many readings at unlike times as the curve has parameters.
        hints: Rates to look at besides the grid's.

    Raises:
        NoFit: There is no minimum at a finite positive rate.
    """
    turns = _turns(data, hints)
    if not turns:
        raise NoFit("no-minimum")
    best = min((_curve(data, _root(data, *turn)) for turn in turns), key=lambda each: each.square)
    if best.square >= min(_line(data), _step(data)):
        raise NoFit("no-minimum")
    return best


def _fall(data: Data, rate: float) -> float:
    """−dS/dk/2 at a rate."""
    shape = [-expm1(-rate * time) for time in data.times]
    height, residuals, _ = _projected(data, shape)
    left = [1 - g for g in shape]
    return height * math.fsum(map(mul, map(mul, data.moments, residuals), left))


def _projected(data: Data, shape: Sequence[float]) -> tuple[float, list[float], float]:
    """Height and residuals of the least-squares line of the values over a shape, and the shape's mean."""
    middle = data.mean(shape)
    off = [g - middle for g in shape]
    heavy = list(map(mul, data.weights, off))
    below = math.fsum(map(mul, heavy, off))
    height = math.fsum(map(mul, heavy, data.above)) / below if below > 0 else 0.0
    return height, list(map(sub, data.above, [height * g for g in off])), middle


def _curve(data: Data, rate: float) -> Curve:
    height, residuals, middle = _projected(data, [-math.expm1(-rate * time) for time in data.times])
    return Curve(rate, data.level - height * middle, height, tuple(residuals), data.square(residuals))


def _line(data: Data) -> float:
    """S as k goes to 0: a straight line, through zero unless a is free."""
    return data.square(_projected(data, data.times)[1])


def _step(data: Data) -> float:
    """S as k goes to infinity: a step at time 0."""
    return data.square(_projected(data, [float(time > 0) for time in data.times])[1])


@dataclass(frozen=True)
class Grid:
    """What the rates to look at make of the times alone: it is the same for all runs of one schedule.

    Attributes:
        rates: Ascending.
        heavy: Weight × (shape − its mean), a row a rate.
        square: Σ weight × (shape − its mean)².
        late: Weight × time × (1 − shape), a row a rate.
        pull: Σ late × (shape − its mean).
    """

    rates: Row
    heavy: Numbers
    square: Numbers
    late: Numbers
    pull: Numbers


@lru_cache(maxsize=64)
def _grid(times: Row, weights: Row, hints: Row, *, free: bool) -> Grid:
    low = SLOWEST / max(times)
    high = FASTEST / min(time for time in times if time > 0)
    count = math.ceil(PER_DECADE * math.log10(high / low))
    step = math.log(high / low) / count
    rates = {low * math.exp(step * place) for place in range(count + 1)}
    ordered = tuple(sorted(rates.union(rate for rate in hints if low < rate < high)))
    at, heavy = np.array(times), np.array(weights)
    shape = -np.expm1(np.multiply.outer(ordered, -at))
    off = shape - (shape @ heavy / heavy.sum())[:, None] if free else shape
    late = (1 - shape) * (heavy * at)
    return Grid(ordered, off * heavy, np.square(off) @ heavy, late, (late * off).sum(axis=1))


def _turns(data: Data, hints: Iterable[float]) -> list[tuple[float, float]]:
    """Neighbouring rates between which S turns from falling to rising.

    Sums of arrays are quick and depend on the processor in their last digit; they choose where to look, and
    no figure is taken from them.
    """
    grid = _grid(data.times, data.weights, tuple(hints), free=data.free)
    above = np.array(data.above)
    height = (grid.heavy @ above) / grid.square
    falls = (grid.late @ above - height * grid.pull) * height > 0
    turns = np.flatnonzero(falls[:-1] & ~falls[1:]).tolist()
    return [(grid.rates[place], grid.rates[place + 1]) for place in turns]


def _root(data: Data, low: float, high: float) -> float:
    """The rate at which S turns, to the last digits."""
    try:
        return float(brentq(lambda rate: _fall(data, rate), low, high, xtol=1e-300, rtol=1e-13))
    except ValueError:
        # The turn lies so near an end that the other sums put it just outside.
        return low if _fall(data, low) <= 0 else high
