"""Where an axis ends, where its ticks stand, and where labels go so that none covers another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

MINUTE_STEPS = (1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0, 120.0, 180.0, 240.0, 360.0, 720.0)
"""Steps that a clock has; beyond them whole days of minutes."""

SMALLEST = 1e-9
"""Values that span less than this are drawn as one."""


@dataclass(frozen=True)
class Scale:
    """A linear scale.

    Attributes:
        low: Value at its start.
        high: Value at its end, above `low`.
        ticks: Values of its ticks, ascending, all within it.
    """

    low: float
    high: float
    ticks: tuple[float, ...]

    def part(self, value: float) -> float:
        """How far along the scale a value lies: 0 at its start, 1 at its end, beyond them outside."""
        return (value - self.low) / (self.high - self.low)


def value_scale(values: Sequence[float], at_most: int = 6) -> Scale:
    """A scale that holds zero and all values, with ticks in steps of 1, 2 or 5 times a power of ten.

    Args:
        values: What it must hold, in any unit; may be empty.
        at_most: The most ticks wanted, at least 2.

    Returns:
        The scale; it ends at zero or a little beyond the outermost value.
    """
    low = min((*values, 0.0))
    high = max((*values, 0.0))
    if high - low < SMALLEST:
        high = 1.0
    high += 0.03 * (high - low) if high > 0 else 0.0
    return Scale(low, high, ticks(low, high, _step(high - low, at_most)))


def near_scale(values: Sequence[float], at_most: int = 6) -> Scale:
    """A scale that holds all values and a little beyond them, with ticks as `value_scale` has, zero or not.

    For figures of which only the differences matter.

    Args:
        values: What it must hold, in any unit; at least one.
        at_most: The most ticks wanted, at least 2.
    """
    low, high = min(values), max(values)
    room = 0.05 * (high - low) if high - low >= SMALLEST else 0.5
    low, high = low - room, high + room
    return Scale(low, high, ticks(low, high, _step(high - low, at_most)))


def minute_scale(longest: float, at_most: int = 7) -> Scale:
    """A scale from zero to the longest time, in minutes, with ticks in steps that a clock has."""
    high = longest if longest > 0 else 1.0
    fitting = (step for step in MINUTE_STEPS if high / step < at_most)
    step = next(fitting, 1440.0 * math.ceil(high / 1440.0 / (at_most - 1)))
    return Scale(0.0, high, ticks(0.0, high, step))


def ticks(low: float, high: float, step: float) -> tuple[float, ...]:
    """Every multiple of `step` from `low` to `high`; the tick at zero is exactly zero."""
    slack = 1e-9 * (high - low) / step
    first = math.ceil(low / step - slack)
    last = math.floor(high / step + slack)
    return tuple(number * step for number in range(first, last + 1))


def minor_ticks(scale: Scale) -> tuple[float, ...]:
    """Ticks between a scale's own, which part each step of 1 or 5 in five and each step of 2 in four."""
    if len(scale.ticks) < 2:
        return ()
    step = scale.ticks[1] - scale.ticks[0]
    power = 10.0 ** math.floor(math.log10(step) + 1e-9)
    parts = 4 if round(step / power) == 2 else 5
    finer = ticks(scale.low, scale.high, step / parts)
    return tuple(tick for tick in finer if all(abs(tick - own) > step / 100 for own in scale.ticks))


def _step(span: float, at_most: int) -> float:
    """The smallest step of 1, 2 or 5 times a power of ten that makes no more than `at_most` ticks."""
    power = 10.0 ** math.floor(math.log10(span / at_most))
    return next(factor * power for factor in (1, 2, 5, 10, 20) if span / (factor * power) <= at_most - 1)


def label_places(
    wanted: Sequence[float], gap: float, low: float, high: float, lines: Sequence[int] = ()
) -> tuple[float, ...]:
    """Places for labels on a line: in the order wanted, none nearer than `gap`, moved as little as can be.

    Least squares under the order (isotonic regression by pooling neighbours; R. E. Barlow and others,
    Statistical Inference under Order Restrictions, 1972, quoted from memory).

    Args:
        wanted: Where each label would stand alone, in any unit of length.
        gap: Smallest distance between two of them; shrinks evenly where the line is too short for all.
        low: Start of the line.
        high: End of the line.
        lines: How many lines of text each label has, which keep the distance too; one each where not given.

    Returns:
        A place for each label, in the order of `wanted`.
    """
    if not wanted:
        return ()
    order = sorted(range(len(wanted)), key=lambda index: (wanted[index], index))
    before_it = [0, *accumulate(lines[index] if lines else 1 for index in order)]
    last = before_it[-1] - 1
    gap = min(gap, (high - low) / max(last, 1))
    blocks: list[tuple[float, int]] = []
    for rank, index in enumerate(order):
        mean, count = wanted[index] - before_it[rank] * gap, 1
        while blocks and blocks[-1][0] >= mean:
            other, many = blocks.pop()
            mean, count = (other * many + mean * count) / (many + count), many + count
        blocks.append((mean, count))
    level = [mean for mean, count in blocks for _ in range(count)]
    room = high - last * gap
    placed = [min(max(place, low), room) + before_it[rank] * gap for rank, place in enumerate(level)]
    by_index = dict(zip(order, placed, strict=True))
    return tuple(by_index[index] for index in range(len(wanted)))
