"""Curves of rise against time: of one run as it was read, and the mean of an item's pieces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.evaluation.findings import ItemFinding, PieceFinding, RunFinding
from generator.evaluation.values import Reading


@dataclass(frozen=True)
class Place:
    """A point of a curve.

    Attributes:
        minutes: Time since the set current was reached.
        rise: Temperature less ambient, K.
        half_width: Half-width of its 95 % interval, K; None where not known.
    """

    minutes: float
    rise: float
    half_width: float | None


Places = tuple[Place | None, ...]
"""A curve; None where a reading is missing, so that the line breaks there."""


@dataclass(frozen=True)
class Struck:
    """A reading that the reviewer excluded: shown, and part of no line.

    Attributes:
        minutes: Its time.
        rise: Its rise, K.
    """

    minutes: float
    rise: float


@dataclass(frozen=True)
class Fitted:
    """The curve through a run's readings, start + (settled - start)·(1 - e^(-t/tau)), as far as they reach.

    Attributes:
        start: Rise at its start, K.
        settled: The rise that it settles at, K.
        tau: Time constant, minutes.
        first: Time of the first reading, minutes.
        last: Time of the last reading, minutes.
    """

    start: float
    settled: float
    tau: float
    first: float
    last: float

    def at(self, minutes: float) -> float:
        """The rise at a time, K."""
        return self.start - (self.settled - self.start) * math.expm1(-minutes / self.tau)

    def places(self, parts: int = 16) -> Places:
        """Points that straight lines join to it, none further off than 1/(2·parts²) of its own height.

        A chord is off by an eighth of the second derivative times its length squared: lengths that grow as
        e^(t/2τ) spread that evenly.
        """
        ends = [math.exp(-each / (2 * self.tau)) for each in (self.first, self.last)]
        steps = [ends[0] + (ends[1] - ends[0]) * part / parts for part in range(1, parts)]
        times = [self.first, *(-2 * self.tau * math.log(step) for step in steps), self.last]
        return tuple(Place(each, self.at(each), None) for each in times)


def counted(item: ItemFinding) -> tuple[tuple[PieceFinding, RunFinding], ...]:
    """The pieces of the item's newest stock, each with the run that its figure comes from.

    A piece without a figure goes with its first run that has readings; one without any is left out.
    """
    chosen = []
    for piece in item.pieces:
        runs = [run for run in piece.runs if run.readings]
        if runs and piece.stock == item.stock:
            chosen.append((piece, next((run for run in runs if run.figure), runs[0])))
    return tuple(chosen)


def curve_of(run: RunFinding) -> Places:
    """The readings of one run in order of time."""
    return _trimmed([_place(reading) for reading in run.readings])


def fitted_of(run: RunFinding) -> Fitted | None:
    """The curve of one run, where it may be printed."""
    settled = run.end.settled if run.end is not None else None
    times = [place.minutes for place in curve_of(run) if place]
    if settled is None or settled.why_not is not None or not times or times[0] == times[-1]:
        return None
    return Fitted(settled.start, settled.value, settled.tau / 60, times[0], times[-1])


def struck_of(run: RunFinding) -> tuple[Struck, ...]:
    """The excluded readings of one run whose rise is known."""
    return tuple(
        Struck(each.time / 60, each.rise) for each in run.readings if each.excluded and each.rise is not None
    )


def mean_curve(item: ItemFinding, schedule: Sequence[float], within: float) -> Places:
    """The mean curve of an item or a control, broken where a scheduled reading is missing.

    A time at which one of its pieces was not read has no mean: over fewer pieces it would jump.

    Args:
        item: What was found.
        schedule: Times to read at, in s; empty to leave no gaps.
        within: How far off a scheduled time a reading may lie, in s.

    Returns:
        Its points with their bands, and a gap for each scheduled time that has none.
    """
    points = [(each.time, Place(each.time / 60, each.rise, each.half_width)) for each in item.curve]
    missing = [
        (time, None) for time in schedule if not any(abs(each.time - time) <= within for each in item.curve)
    ]
    return _trimmed([place for _, place in sorted([*points, *missing], key=lambda each: each[0])])


def _place(reading: Reading) -> Place | None:
    if reading.rise is None or reading.excluded or reading.bound:
        return None
    return Place(reading.time / 60, reading.rise, reading.half_width)


def _trimmed(places: Sequence[Place | None]) -> Places:
    known = [index for index, place in enumerate(places) if place]
    return tuple(places[known[0] : known[-1] + 1]) if known else ()
