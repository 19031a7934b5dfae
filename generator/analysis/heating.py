"""Heating runs: rise over ambient, the correction to the set current, the reading at the time mark.

Times are in s since the current first reached its set value, temperatures in °C, rises in K, currents in A.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.analysis.uncertainty import Key, Ledger, Uncertain, rectangle


class NoReadingAtMark(Exception):
    """No reading lies within the time tolerance of the mark.

    Attributes:
        mark: Time mark, s.
        within: Time tolerance, s.
        nearest: Time of the nearest reading, s; None where there is none.
    """

    def __init__(self, mark: float, within: float, nearest: float | None) -> None:
        self.mark = mark
        self.within = within
        self.nearest = nearest
        super().__init__(f"no reading within {within:g} s of {mark:g} s; the nearest is at {nearest} s")


@dataclass(frozen=True)
class AtMark:
    """The rise at a time mark.

    Attributes:
        rise: K, with the error of the clock as a component.
        index: Number of the reading used, from 0.
        time: Its time, s.
        slope: K/s, the steeper of the two adjoining segments, signed.
    """

    rise: Uncertain
    index: int
    time: float
    slope: float


def filled(times: Sequence[float], cells: Sequence[Uncertain | None]) -> tuple[Uncertain | None, ...]:
    """A channel at every reading: a missing cell lies on the line between its two neighbours.

    Args:
        times: s, ascending.
        cells: Readings; None where there is none.

    Returns:
        One a time; None where a cell has no neighbour on one side, since nothing is extended.
    """
    known = [(time, cell) for time, cell in zip(times, cells, strict=True) if cell is not None]
    return tuple(
        cell if cell is not None else _between(time, known) for time, cell in zip(times, cells, strict=True)
    )


def rises(
    temperatures: Sequence[Uncertain | None], ambient: Sequence[Uncertain | None]
) -> tuple[Uncertain | None, ...]:
    """Rise θ = T − T_amb in K at each reading; None where one of the two is missing."""
    return tuple(
        None if hot is None or cool is None else hot - cool
        for hot, cool in zip(temperatures, ambient, strict=True)
    )


def rms_current(
    times: Sequence[float], currents: Sequence[Uncertain], until: float, tau: float = math.inf
) -> Uncertain:
    """Lag-weighted root mean square of a piecewise linear current up to a time.

    √(∫I²·e^(−(t−s)/τ) ds / ∫e^(−(t−s)/τ) ds) over the record from its first reading to t: the steady
    current that has warmed an item of time constant τ as far. With τ infinite it is the plain one.

    Args:
        times: s, ascending, at least one.
        currents: A, one a time.
        until: t in s; after the last reading the record ends there.
        tau: Time constant in s.

    Raises:
        ValueError: The record is empty or begins after `until`.
    """
    if not times or until < times[0]:
        raise ValueError(f"no current recorded up to {until:g} s")
    points = _record_until(list(zip(times, currents, strict=True)), until)
    end, last = points[-1]
    if len(points) == 1:
        return last
    above: Uncertain | None = None
    below = 0.0
    for (t0, i0), (t1, i1) in pairwise(points):
        m0, m1, m2 = _moments((t1 - t0) / tau)
        # y = (t1 − s)/(t1 − t0): I is y·I0 + (1 − y)·I1 and the weight falls by e^(−λy) from t1 backwards.
        scale = (t1 - t0) * math.exp(-(end - t1) / tau)
        part = (i0 * i0 * m2 + i0 * i1 * (2 * (m1 - m2)) + i1 * i1 * (m0 - 2 * m1 + m2)) * scale
        above = part if above is None else above + part
        below += m0 * scale
    assert above is not None  # noqa: S101
    return (above / below) ** 0.5


def current_exponent(
    ledger: Ledger,
    key: Key,
    value: float = 2.0,
    half_width: float = 0.4,
    *,
    assumed: bool = True,
    source: str = "",
) -> Uncertain:
    """Exponent n of the rise over the current; 2 ± 0.4 rectangular unless the method measured it.

    n is 2 where all the heat is I²R at a fixed resistance and the loss is in proportion to the rise.
    """
    entry = rectangle(
        key, "exponent of the current", half_width, "1", "shared", assumed=assumed, source=source
    )
    return ledger.input(entry, value)


def at_set_current(rise: Uncertain, current: Uncertain, set_current: float, exponent: Uncertain) -> Uncertain:
    """Rise corrected to the set current, θ·(I_set/I)^n; the set current is a convention and exact."""
    return rise * (set_current / current) ** exponent


def at_mark(
    ledger: Ledger,
    times: Sequence[float],
    risen: Sequence[Uncertain | None],
    mark: float,
    *,
    within: float,
    key: Key,
) -> AtMark:
    """The reading at a time mark.

    A reading within the tolerance is used as it is; the error of the clock is rectangular, of half-width
    slope × tolerance, new in each run.

    Args:
        ledger: Where the input is made.
        times: s, ascending.
        risen: Rise in K at each; None where there is none.
        mark: Time mark, s, above 0.
        within: Time tolerance, s.
        key: Identity of the run and the measure.

    Raises:
        NoReadingAtMark: No reading lies within the tolerance.
    """
    known = [
        (index, time, rise)
        for index, (time, rise) in enumerate(zip(times, risen, strict=True))
        if rise is not None
    ]
    if not known:
        raise NoReadingAtMark(mark, within, None)
    place = min(range(len(known)), key=lambda each: abs(known[each][1] - mark))
    index, time, rise = known[place]
    if abs(time - mark) > within:
        raise NoReadingAtMark(mark, within, time)
    slope = _slope([(each, number.x) for _, each, number in known], place)
    clock = rectangle((*key, "clock"), "time of the reading", abs(slope) * within, "K", "run")
    return AtMark(rise + ledger.input(clock), index, time, slope)


def reads_low(ledger: Ledger, at_most: float, place: Key, item: str) -> Uncertain:
    """Correction in K for a probe that draws heat off and so reads low by 0 to `at_most`.

    Half of it is added, ± the other half, rectangular: √(1 − 0.25²) of that half-width common to all that is
    probed in this way, 0.25 of it new for each item and never for each run, since it does not average away.

    Args:
        ledger: Where the inputs are made.
        at_most: K.
        place: Identity of method, point, way of holding and wire.
        item: Id of the item.
    """
    half = at_most / 2
    label = "probe draws heat off"
    common = rectangle(
        (*place, "reads low"), f"{label}, common", half * math.sqrt(1 - 0.25**2), "K", "shared"
    )
    own = rectangle(
        (*place, "reads low", item), f"{label}, new for each item", half * 0.25, "K", "shared", assumed=True
    )
    return ledger.input(common, half) + ledger.input(own)


def _between(time: float, known: Sequence[tuple[float, Uncertain]]) -> Uncertain | None:
    before = [each for each in known if each[0] <= time]
    after = [each for each in known if each[0] >= time]
    if not before or not after:
        return None
    (t0, first), (t1, second) = before[-1], after[0]
    if t1 == t0:
        return first
    share = (time - t0) / (t1 - t0)
    return first * (1 - share) + second * share


def _record_until(points: Sequence[tuple[float, Uncertain]], until: float) -> list[tuple[float, Uncertain]]:
    kept = [each for each in points if each[0] <= until]
    if kept[-1][0] < until < points[-1][0]:
        at_end = _between(until, points)
        if at_end is not None:
            kept.append((until, at_end))
    return kept


def _moments(decay: float) -> tuple[float, float, float]:
    """∫ y^k e^(−λy) dy over 0 to 1 for k = 0, 1, 2 and λ ≥ 0."""
    if decay < 1:
        # The closed forms cancel for small λ; this series is their expansion.
        return tuple(
            math.fsum((-decay) ** j / (math.factorial(j) * (k + j + 1)) for j in range(20)) for k in range(3)
        )  # type: ignore[return-value]
    fade = math.exp(-decay)
    return (
        -math.expm1(-decay) / decay,
        (1 - fade * (1 + decay)) / decay**2,
        (2 - fade * (decay**2 + 2 * decay + 2)) / decay**3,
    )


def _slope(points: Sequence[tuple[float, float]], place: int) -> float:
    segments = [
        (y1 - y0) / (t1 - t0)
        for (t0, y0), (t1, y1) in pairwise(points)
        if points[place] in ((t0, y0), (t1, y1)) and t1 > t0
    ]
    if not segments:
        # A curve that bends downwards from nothing is nowhere steeper at t than its chord.
        time, rise = points[place]
        return rise / time
    return max(segments, key=abs)
