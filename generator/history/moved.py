"""What moved between two editions, or between an edition and what is computed now."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.analysis.rounding import Rounded, rounded
from generator.history.figures import Figure, as_printed

TOLERANCE = 1e-6
"""Part of the ± by which a figure may differ from its published digits, on another processor, and not have
moved; our choice."""


EDGE = 1e-8
"""Part of a figure by which the nine digits that are kept of it may lead to another last printed digit."""


@dataclass(frozen=True)
class Moved:
    """An item by a measure that is told otherwise than before.

    Attributes:
        item: Id of the item.
        measure: Id of the measure.
        was: Its figure then; None where there was none.
        now: Its figure now; None where it is no longer told.
    """

    item: str
    measure: str
    was: Figure | None
    now: Figure | None

    @property
    def figure(self) -> bool:
        """Whether the figure itself is another, as printed."""
        return _of(self.was, "printed") != _of(self.now, "printed")

    @property
    def gap(self) -> tuple[float, float] | None:
        """Of a retest: now less then, with its half-width at 95 %; None where one of the two has no ±.

        The half-widths are joined as of independent errors (JCGM 100, 5.1.2). What one meter brought to both
        would cancel between two calibrations and is not taken to: the ± is rather too wide.
        """
        if self.was is None or self.now is None or self.was.unit != self.now.unit:
            return None
        if self.was.unrounded is None or self.now.unrounded is None:
            return None
        (then, width_then), (now, width_now) = self.was.unrounded, self.now.unrounded
        width = math.hypot(width_then, width_now)
        return (now - then, width) if width > 0 else None

    @property
    def difference(self) -> Rounded | None:
        """The gap as printed in the figures' own unit."""
        gap = self.gap
        return rounded(*gap) if gap is not None else None

    @property
    def outside(self) -> bool | None:
        """Of a correction: whether the figure left the interval that was published; None without one."""
        if self.was is None or self.now is None or self.was.unit != self.now.unit:
            return None
        if self.was.unrounded is None or self.now.unrounded is None or self.was.unrounded[1] <= 0:
            return None
        (then, width), (now, _) = self.was.unrounded, self.now.unrounded
        return abs(now - then) > width

    @property
    def outcome(self) -> bool:
        """Whether what is said of it is another."""
        return _of(self.was, "outcome") != _of(self.now, "outcome")

    @property
    def place(self) -> bool:
        """Whether it stands elsewhere among the items."""
        return _of(self.was, "place") != _of(self.now, "place")

    @property
    def ends(self) -> bool:
        """Whether its runs ended otherwise."""
        return _of(self.was, "ends") != _of(self.now, "ends")


def _of(figure: Figure | None, name: str) -> object:
    return getattr(figure, name) if figure is not None else None


def moved(was: Iterable[Figure], now: Iterable[Figure]) -> tuple[Moved, ...]:
    """What is told otherwise, as printed: in the order of now, then what is no longer told."""
    before = {(each.item, each.measure): each for each in was}
    after = {(each.item, each.measure): each for each in now}
    keys = dict.fromkeys((*after, *before))
    every = (Moved(*key, before.get(key), after.get(key)) for key in keys)
    return tuple(each for each in every if _otherwise(each))


def _otherwise(each: Moved) -> bool:
    if each.was is None or each.now is None:
        return True
    same = each.figure or each.outcome or each.place or each.ends
    return same or (each.was.pieces, each.was.stock) != (each.now.pieces, each.now.stock)


@dataclass(frozen=True)
class Drift:
    """A published figure that is not what is computed now.

    Attributes:
        was: As published.
        now: As computed; None where nothing is.
        by: How far the figure moved, in its unit; None where one of the two has none.
        width_by: How far its ± moved.
        printed: Whether it would be printed otherwise.
    """

    was: Figure
    now: Figure | None
    by: float | None
    width_by: float | None
    printed: bool


def drifts(published: Sequence[Figure], computed: Sequence[Figure]) -> tuple[Drift, ...]:
    """Every published figure that is computed otherwise now, in the order of publishing."""
    now = {(each.item, each.measure): each for each in computed}
    every = (_drift(each, now.get((each.item, each.measure))) for each in published)
    return tuple(each for each in every if each is not None)


def _drift(was: Figure, now: Figure | None) -> Drift | None:
    if now is None:
        return Drift(was, None, None, None, printed=True)
    said = (was.counted, was.outcome, was.place, was.ends, was.pieces, was.stock, was.unit)
    otherwise = said != (now.counted, now.outcome, now.place, now.ends, now.pieces, now.stock, now.unit)
    if was.unrounded is None or now.unrounded is None:
        gone = (was.unrounded is None) != (now.unrounded is None)
        return Drift(was, now, None, None, printed=True) if gone or otherwise else None
    (value, width), (value_now, width_now) = was.unrounded, now.unrounded
    by, width_by = value_now - value, width_now - width
    # Nine digits are kept, so a figure far larger than its ± moves by that much and has not moved.
    least = TOLERANCE * abs(width) + 1e-8 * abs(value)
    still = abs(by) <= least and abs(width_by) <= least
    otherwise = otherwise or not _is_printed_so(was, value, width)
    if still and not otherwise:
        return None
    return Drift(was, now, by, width_by, printed=otherwise or (not still and was.printed != now.printed))


def _is_printed_so(figure: Figure, value: float, width: float) -> bool:
    """Whether the published digits are those of the figure before rounding, a hair up or down."""
    hairs = (1 - EDGE, 1.0, 1 + EDGE)
    near = (as_printed(value * one, width * other) for one in hairs for other in hairs)
    return (figure.value, figure.uncertainty) in near
