"""How the figures of a report's items moved over its editions; the stills' places among it.

A strip an item, all with one scale of figures and one of days: what matters is each item against itself.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.charts.control import near_ticks
from generator.charts.looks import Look
from generator.charts.scales import Scale, label_places, near_scale
from generator.charts.still import Tick, percent
from generator.charts.systems import units_of

APART = 0.09
"""Least distance of two editions across, as a part of the width: room for a mark and a number on a phone."""

EDGE = 0.05
"""Distance of the first and the last edition from the edges."""

TICKS = 5
"""The most ticks of a strip, which is low."""


@dataclass(frozen=True)
class Point:
    """A figure as an edition was the first to tell it.

    Attributes:
        edition: Number of the edition.
        value: The figure.
        half_width: Its ±; 0 without one.
        pieces: Pieces that it rests on.
        older: Whether the item has a newer stock since.
        corrected: Whether a later edition says that it was wrong.
    """

    edition: int
    value: float
    half_width: float
    pieces: int
    older: bool
    corrected: bool

    @property
    def filled(self) -> bool:
        """Whether it stands for several pieces, and nothing has taken its place."""
        return self.pieces > 1 and not self.older and not self.corrected


@dataclass(frozen=True)
class Strip:
    """An item.

    Attributes:
        item: Its id.
        name: Its name.
        look: Colour role and marker.
        points: Its figures, oldest first, one at least.
        told: The last edition that still tells the last of them.
    """

    item: str
    name: str
    look: Look
    points: tuple[Point, ...]
    told: int


@dataclass(frozen=True)
class RetestChart:
    """Figures over editions.

    Attributes:
        unit: Of the figures; `K` for a rise.
        days: Number of each edition to its day, as a count of days.
        strips: One an item that has a figure.
    """

    unit: str
    days: dict[int, int]
    strips: tuple[Strip, ...]


@dataclass(frozen=True)
class Mark:
    """A figure in percent across and down: its ± from top to bottom."""

    x: str
    y: str
    top: str
    bottom: str
    filled: bool


@dataclass(frozen=True)
class Step:
    """What leads from one figure to the next, or on to the last edition: a level line, or a correction."""

    x1: str
    y1: str
    x2: str
    y2: str


@dataclass(frozen=True)
class RetestStill:
    """Everything that the template draws of one item.

    Attributes:
        look: Colour role and marker.
        x_ticks: The editions, by number.
        y_ticks: Ticks of the figures.
        y_ticks_us: The same where figures are round in the US unit; empty where one unit serves everyone.
        marks: The figures.
        levels: How long each stood.
        corrections: From a figure that was wrong to the one that took its place.
    """

    look: Look
    x_ticks: tuple[Tick, ...]
    y_ticks: tuple[Tick, ...]
    y_ticks_us: tuple[Tick, ...]
    marks: tuple[Mark, ...]
    levels: tuple[Step, ...]
    corrections: tuple[Step, ...]


def retest_stills(chart: RetestChart) -> tuple[RetestStill, ...]:
    """Place the drawings, one a strip.

    Args:
        chart: Two editions at least.
    """
    across = _across(chart.days)
    points = [point for strip in chart.strips for point in strip.points]
    ends = [each.value + sign * each.half_width for each in points for sign in (-1, 1)]
    scale = near_scale(ends, TICKS) if ends else Scale(0.0, 1.0, ())
    metric, us = units_of(chart.unit)
    ticks = tuple(Tick(percent(place), str(number)) for number, place in across.items())
    down = (near_ticks(scale, metric, TICKS), near_ticks(scale, us, TICKS) if us is not None else ())
    return tuple(_still(strip, across, scale, ticks, down) for strip in chart.strips)


def _across(days: dict[int, int]) -> dict[int, float]:
    """How far across each edition stands: by its day, but never on another one."""
    first, last = min(days.values()), max(days.values())
    span = max(last - first, 1)
    wanted = [EDGE + (1 - 2 * EDGE) * (day - first) / span for day in days.values()]
    return dict(zip(days, label_places(wanted, APART, EDGE, 1 - EDGE), strict=True))


def _still(
    strip: Strip,
    across: dict[int, float],
    scale: Scale,
    ticks: tuple[Tick, ...],
    down: tuple[tuple[Tick, ...], tuple[Tick, ...]],
) -> RetestStill:
    levels, corrections = [], []
    for number, point in enumerate(strip.points):
        y = percent(1 - scale.part(point.value))
        after = strip.points[number + 1] if number + 1 < len(strip.points) else None
        until = across[after.edition if after is not None else strip.told]
        if after is not None and point.corrected:
            there = percent(1 - scale.part(after.value))
            corrections.append(Step(percent(across[point.edition]), y, percent(until), there))
        else:
            levels.append(Step(percent(across[point.edition]), y, percent(until), y))
    marks = tuple(_mark(each, across[each.edition], scale) for each in strip.points)
    return RetestStill(strip.look, ticks, *down, marks, tuple(levels), tuple(corrections))


def _mark(point: Point, across: float, scale: Scale) -> Mark:
    top, bottom = point.value + point.half_width, point.value - point.half_width
    middle, upper, lower = (percent(1 - scale.part(each)) for each in (point.value, top, bottom))
    return Mark(percent(across), middle, upper, lower, point.filled)
