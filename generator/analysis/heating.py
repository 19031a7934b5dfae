"""Heating runs: rise over ambient, the correction to the set current, the reading at the time mark.

Times are in s since the current first reached its set value, temperatures in °C, rises in K, currents in A.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.analysis.current import rms_current
from generator.analysis.fit import Fit, NoFit, fit_rise
from generator.analysis.linear import deferred, linear
from generator.analysis.uncertainty import Key, Ledger, Uncertain, rectangle, weighted

__all__ = [
    "AtMark",
    "Fit",
    "NoFit",
    "NoReadingAtMark",
    "at_mark",
    "at_set_current",
    "current_exponent",
    "filled",
    "fit_rise",
    "interpolated",
    "reads_low",
    "rises",
    "rms_current",
]


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
        slope: K/s, signed: the steeper of the two adjoining segments; of a lone reading rise/mark.
    """

    rise: Uncertain
    index: int
    time: float
    slope: float


def interpolated(
    times: Sequence[float], points: Sequence[tuple[float, Uncertain]]
) -> tuple[Uncertain | None, ...]:
    """Values at some times on the straight lines between points, as for ambient read at start and end.

    Args:
        times: s.
        points: Time in s, ascending, and value.

    Returns:
        One a time; None before the first point and after the last, since nothing is extended.
    """
    return tuple(_between(time, points) for time in times)


def filled(times: Sequence[float], cells: Sequence[Uncertain | None]) -> tuple[Uncertain | None, ...]:
    """A channel at every reading: a missing cell lies on the line between its two neighbours.

    Args:
        times: s, ascending.
        cells: Readings; None where there is none.

    Returns:
        One a time; None where a missing cell has no neighbour on one side.
    """
    return interpolated(
        times, [(time, cell) for time, cell in zip(times, cells, strict=True) if cell is not None]
    )


def rises(
    temperatures: Sequence[Uncertain | None], ambient: Sequence[Uncertain | None]
) -> tuple[Uncertain | None, ...]:
    """Rise θ = T − T_amb in K at each reading; None where one of the two is missing."""
    return tuple(
        None if hot is None or cool is None else deferred(hot.x - cool.x, ((1.0, hot), (-1.0, cool)))
        for hot, cool in zip(temperatures, ambient, strict=True)
    )


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
    share = set_current / current.x
    value = rise.x * share**exponent.x
    # Derivatives by rise, current and exponent, in one step: three would each join all errors again.
    return linear(
        value,
        (
            (share**exponent.x, rise),
            (-exponent.x * value / current.x, current),
            (value * math.log(share), exponent),
        ),
    )


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
    slope = _slope([(each, number.x) for _, each, number in known], place, mark)
    clock = rectangle((*key, "clock"), "time of the reading", abs(slope) * within, "K", "run")
    risen_at = deferred(rise.x, ((1.0, rise), (1.0, ledger.input(clock))))
    return AtMark(risen_at, index, time, slope)


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


def _between(time: float, points: Sequence[tuple[float, Uncertain]]) -> Uncertain | None:
    before = [each for each in points if each[0] <= time]
    after = [each for each in points if each[0] >= time]
    if not before or not after:
        return None
    (t0, first), (t1, second) = before[-1], after[0]
    if t1 == t0:
        return first
    share = (time - t0) / (t1 - t0)
    return weighted((1 - share, share), (first, second))


def _slope(points: Sequence[tuple[float, float]], place: int, mark: float) -> float:
    around = points[max(0, place - 1) : place + 2]
    if len(around) == 1:
        # A curve that starts at nothing and bends downwards is nowhere steeper at t than its chord.
        return around[0][1] / mark
    return max(((y1 - y0) / (t1 - t0) for (t0, y0), (t1, y1) in pairwise(around)), key=abs)
