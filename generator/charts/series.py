"""Curves of rise against time: of one run as it was read, and the mean of an item's pieces."""

from __future__ import annotations

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
    return _trimmed([_place(reading) for reading in run.readings])


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
