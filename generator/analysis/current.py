"""The current that has warmed an item, from a record of it: lag-weighted root mean square.

Times are in s, currents in A. Between its readings the record is a straight line.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from operator import le, lt
from typing import overload

from generator.analysis.linear import deferred
from generator.analysis.uncertainty import Uncertain


@overload
def rms_current(
    times: Sequence[float], currents: Sequence[float], until: float, tau: float = math.inf
) -> float: ...


@overload
def rms_current(
    times: Sequence[float], currents: Sequence[Uncertain], until: float, tau: float = math.inf
) -> Uncertain: ...


def rms_current(
    times: Sequence[float], currents: Sequence[Uncertain | float], until: float, tau: float = math.inf
) -> Uncertain | float:
    """Lag-weighted root mean square of a piecewise linear current up to a time.

    √(∫I²·e^(−(t−s)/τ) ds / ∫e^(−(t−s)/τ) ds) over the record from its first reading to t: the steady
    current that has warmed an item of time constant τ as far. With τ infinite it is the plain one.

    Args:
        times: s, ascending, at least one.
        currents: A, one a time, all plain or all uncertain.
        until: t in s; after the last reading the record ends there.
        tau: Time constant in s.

    Raises:
        ValueError: The record is empty, begins after `until` or is not in order of time, or τ is not above 0.
    """
    _refuse(times, (until,), tau)
    numbers = [current for current in currents if not isinstance(current, (int, float))]
    values = [current if isinstance(current, (int, float)) else current.x for current in currents]
    square, pulls = _mean_square(times, values, min(until, times[-1]), tau)
    root = math.sqrt(square)
    if not numbers:
        return root
    terms = [(pull / root, current) for pull, current in zip(pulls, numbers, strict=True) if pull]
    return deferred(root, terms)


def rms_series(
    times: Sequence[float], currents: Sequence[float], at: Sequence[float], tau: float = math.inf
) -> tuple[float, ...]:
    """The same of plain numbers at many times, in one pass.

    Args:
        times: s, ascending, at least one.
        currents: A, one a time.
        at: Times in s, ascending, none before the record; after its last reading it ends there.
        tau: Time constant in s.

    Raises:
        ValueError: As `rms_current`; or `at` is not ascending.
    """
    _refuse(times, at, tau)
    found: list[float] = []
    above, below, place = 0.0, 0.0, 0
    for time in at:
        end = min(time, times[-1])
        while place + 1 < len(times) and times[place + 1] <= end:
            above, below = _further(above, below, _segment(times, currents, place, times[place + 1], tau))
            place += 1
        if end == times[0]:
            found.append(abs(currents[0]))
            continue
        square, weight = above, below
        if end > times[place]:
            square, weight = _further(above, below, _segment(times, currents, place, end, tau))
        found.append(math.sqrt(square / weight))
    return tuple(found)


Segment = tuple[float, float, float, float, float, float, float]
"""Current at both ends; half the derivatives of ∫I²·weight by them; ∫weight; fade of what was before; share
of the way to the next reading. At the end of the segment the weight is 1."""


def _segment(
    times: Sequence[float], currents: Sequence[float], place: int, end: float, tau: float
) -> Segment:
    """The straight line of current from a reading to a time not after the next."""
    length = end - times[place]
    share = length / (times[place + 1] - times[place])
    i0 = currents[place]
    i1 = i0 * (1 - share) + currents[place + 1] * share
    m0, m1, m2 = moments(length / tau)
    # With y = (t1 − s)/(t1 − t0) the current is y·I0 + (1 − y)·I1, and its weight falls by e^(−λy).
    cross = m1 - m2
    at0, at1 = length * (i0 * m2 + i1 * cross), length * (i0 * cross + i1 * (m0 - 2 * m1 + m2))
    return i0, i1, at0, at1, length * m0, math.exp(-length / tau), share


def _further(above: float, below: float, segment: Segment) -> tuple[float, float]:
    """∫I²·weight and ∫weight up to the end of a segment, from those up to its beginning."""
    i0, i1, at0, at1, weight, fade, _ = segment
    return above * fade + i0 * at0 + i1 * at1, below * fade + weight


def _mean_square(
    times: Sequence[float], values: Sequence[float], end: float, tau: float
) -> tuple[float, list[float]]:
    """Mean square up to a time within the record, and half its derivative by each reading."""
    if end == times[0]:
        return values[0] ** 2, [values[0], *[0.0] * (len(values) - 1)]
    above, below = [], []
    pulls = [0.0] * len(values)
    for place, (t0, t1) in enumerate(pairwise(times)):
        if t0 >= end:
            break
        until = min(t1, end)
        i0, i1, at0, at1, weight, _, share = _segment(times, values, place, until, tau)
        fade = math.exp(-(end - until) / tau)
        above.append(fade * (i0 * at0 + i1 * at1))
        below.append(fade * weight)
        pulls[place] += fade * (at0 + at1 * (1 - share))
        pulls[place + 1] += fade * at1 * share
    whole = math.fsum(below)
    return math.fsum(above) / whole, [pull / whole for pull in pulls]


def _refuse(times: Sequence[float], at: Sequence[float], tau: float) -> None:
    for time in at:
        if not times or time < times[0]:
            raise ValueError(f"no current recorded up to {time:g} s")
    if not all(map(lt, times, times[1:])) or not tau > 0:
        raise ValueError("the times of the current are not ascending, or τ is not above 0")
    if not all(map(le, at, at[1:])):
        raise ValueError("the times asked for are not ascending")


def moments(decay: float) -> tuple[float, float, float]:
    """∫ y^k·e^(−λy) dy over 0 to 1, for k = 0, 1, 2 and λ ≥ 0."""
    if decay < 0.1:
        # The closed forms cancel for small λ; this is their expansion, smallest terms first.
        m0, m1, m2 = 0.0, 0.0, 0.0
        for c0, c1, c2 in EXPANSION:
            m0, m1, m2 = c0 - decay * m0, c1 - decay * m1, c2 - decay * m2
        return m0, m1, m2
    fade = math.exp(-decay)
    m0 = -math.expm1(-decay) / decay
    m1 = (m0 - fade) / decay
    return m0, m1, (2 * m1 - fade) / decay


EXPANSION = tuple(
    (1 / math.factorial(j) / (j + 1), 1 / math.factorial(j) / (j + 2), 1 / math.factorial(j) / (j + 3))
    for j in range(10, -1, -1)
)
"""1/(j!·(k + j + 1)) for k = 0, 1, 2, from j = 10 down: Σ(−λ)^j of it is the k-th moment."""
