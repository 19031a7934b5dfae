"""Curves of rise against time: of one run as it was read, and the mean of several pieces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.evaluation.findings import ItemFinding, PieceFinding, Reading, RunFinding


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
    return _trimmed([_place(reading, reading.time) for reading in run.readings])


def struck_of(run: RunFinding) -> tuple[Struck, ...]:
    """The excluded readings of one run whose rise is known."""
    return tuple(
        Struck(each.time / 60, each.rise) for each in run.readings if each.excluded and each.rise is not None
    )


def mean_curve(runs: Sequence[RunFinding], schedule: Sequence[float], within: float) -> Places:
    """The mean of several runs at each scheduled time.

    A time at which one of them has no reading is a gap: a mean over fewer pieces would jump. The half-width
    is the largest of those of the readings, since the meters' errors are mostly the same in all of them.

    Args:
        runs: The runs, one a piece.
        schedule: Times to read at, in s; empty to take the times of the first run.
        within: How far off a scheduled time a reading may lie, in s.

    Returns:
        A place or a gap for each time up to the last reading.
    """
    times = schedule or [each.time for run in runs[:1] for each in run.readings]
    return _trimmed([_mean([_reading_at(run, time, within) for run in runs], time) for time in times])


def _reading_at(run: RunFinding, time: float, within: float) -> Reading | None:
    near = [each for each in run.readings if abs(each.time - time) <= within]
    return min(near, key=lambda each: (abs(each.time - time), each.time), default=None)


def _mean(readings: Sequence[Reading | None], time: float) -> Place | None:
    places = [_place(each, time) if each else None for each in readings]
    known = [each for each in places if each]
    if not known or len(known) < len(places):
        return None
    half_widths = [each.half_width for each in known if each.half_width is not None]
    return Place(
        time / 60,
        math.fsum(each.rise for each in known) / len(known),
        max(half_widths) if len(half_widths) == len(known) else None,
    )


def _place(reading: Reading, time: float) -> Place | None:
    if reading.rise is None or reading.excluded or reading.bound:
        return None
    return Place(time / 60, reading.rise, reading.half_width)


def _trimmed(places: Sequence[Place | None]) -> Places:
    known = [index for index, place in enumerate(places) if place]
    return tuple(places[known[0] : known[-1] + 1]) if known else ()
