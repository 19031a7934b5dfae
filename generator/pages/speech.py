"""Figures as they are spoken: rounded where that changes nothing that is said of them, else with their ±."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.charts.bars import Bars
from generator.charts.rows import Bar
from generator.charts.systems import Unit, units_of
from generator.pages.alone import whole
from generator.pages.format import Plus, figure

SMALLEST = 10.0
"""Below this a whole number is too coarse to speak of."""


@dataclass(frozen=True)
class Speech:
    """Figures in a sentence.

    Attributes:
        about: Whether they are rounded to whole numbers.
        figures: One, two, or the ends of a range, the lower one first.
        span: Whether they are the ends of a range.
    """

    about: bool
    figures: tuple[Plus, ...]
    span: bool


def spoken(told: Sequence[Bar], bars: Bars) -> Speech | None:
    """The figures of some rows as they are spoken.

    Args:
        told: Rows with figures, at least one.
        bars: All rows and limits of the measure.

    Returns:
        Whole numbers where they keep every order that is shown and every side of a limit, in both systems of
        units; else the figures as printed, of two rows at most. None for more.
    """
    found = sorted((row for row in told if row.figure is not None), key=_value)
    if _rounds(found, bars):
        said = dict.fromkeys(whole(_value(row), bars.unit) for row in found)
        ends = tuple(said) if len(said) <= 2 else (next(iter(said)), [*said][-1])
        return Speech(True, ends, len(said) > 2)
    if len(found) > 2:
        return None
    return Speech(False, tuple(figure(row.figure) for row in found if row.figure is not None), False)


def _rounds(told: Sequence[Bar], bars: Bars) -> bool:
    units = [unit for unit in units_of(bars.unit) if unit]
    if any(abs(_value(row)) < SMALLEST for row in told):
        return False
    others = [row for row in bars.rows if row.figure is not None]
    return all(
        _keeps(_value(row), _value(other), unit)
        for unit in units
        for row in told
        for other in others
        if other.item != row.item and other.item not in row.alike
    ) and all(
        _keeps(_value(row), post.at, unit, exact=True)
        for unit in units
        for row in told
        for post in bars.posts
    )


def _keeps(value: float, other: float, unit: Unit, *, exact: bool = False) -> bool:
    """Whether a rounded value lies on the same side of another, which is rounded too or a limit as it is."""
    own, beside = round(unit.of(value)), unit.of(other) if exact else round(unit.of(other))
    return (own > beside) == (value > other) and (own < beside) == (value < other)


def _value(row: Bar) -> float:
    assert row.figure is not None  # noqa: S101
    return row.figure.value
