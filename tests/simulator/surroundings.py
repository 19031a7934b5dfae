"""What does not hold still while a piece heats: the supply, the room, and the moment of each reading."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.simulator.heat import STEP, Array
from tests.simulator.meters import Error

DRIFT = 0.02
"""Largest drift of the supply, share of its current an hour."""

TRIM_AT = 0.35
"""The current is trimmed when the meter shows it off by so much, A."""


@dataclass(frozen=True)
class Supply:
    """The current through the whole run.

    Attributes:
        current: A, on the time grid.
        trims: Minutes at which it was set again.
    """

    current: Array
    trims: tuple[int, ...]


def supply(
    draw: np.random.Generator, times: Array, set_to: float, error: Error, minutes: tuple[int, ...]
) -> Supply:
    """A supply that creeps, set by what the meter shows.

    Args:
        draw: For the rate and the ripple of this run.
        times: The grid, s.
        set_to: What the meter is to show, A.
        error: Of the meter in this run; the true current is off by it.
        minutes: When the meter is read, and so may be answered by a trim.

    Returns:
        The true current, and when it was trimmed.
    """
    rate = draw.uniform(-DRIFT, DRIFT)
    phase = draw.uniform(0.0, 2.0 * np.pi)
    hours = times / 3600.0
    creep = 1.0 + rate * hours + 0.0008 * np.sin(2.0 * np.pi * hours / 0.35 + phase)
    true_at_set = set_to - float(error.at(np.array(set_to)))
    current = true_at_set * creep / creep[0]
    trims: list[int] = []
    for minute in minutes[1:-1]:
        at = int(minute * 60 / STEP)
        if abs(current[at] - true_at_set) >= TRIM_AT:
            # The trim follows the reading, so the point that was read keeps its value.
            current[at + 1 :] *= true_at_set / current[at]
            trims.append(minute)
    return Supply(current, tuple(trims))


def room(draw: np.random.Generator, times: Array, start: float, ramp: float) -> Array:
    """Temperature of the air round the box, °C.

    Args:
        draw: For the slow wandering of this run.
        times: The grid, s.
        start: At switching on, °C.
        ramp: K an hour.
    """
    hours = times / 3600.0
    phase, period = draw.uniform(0.0, 2.0 * np.pi), draw.uniform(0.4, 0.9)
    wander = 0.15 * (np.sin(2.0 * np.pi * hours / period + phase) - np.sin(phase))
    return np.asarray(start + ramp * hours + wander)


def lagged(values: Array, seconds: float) -> Array:
    """What a probe with this time constant follows on the grid, started at the first value."""
    keep = float(np.exp(-STEP / seconds))
    out = np.empty_like(values)
    out[0] = values[0]
    for at in range(1, len(values)):
        out[at] = keep * out[at - 1] + (1.0 - keep) * values[at]
    return out


def moments(draw: np.random.Generator, minutes: tuple[int, ...], times: Array) -> Array:
    """When each reading was really taken, s: within some seconds of its minute, never before the start."""
    off = np.clip(draw.normal(0.0, 4.0, len(minutes)), -12.0, 12.0)
    return np.clip(np.array(minutes) * 60.0 + off, 0.0, times[-1])
