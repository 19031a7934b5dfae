"""Controls of one day: their mean, and what they differ by where they do not agree."""

from __future__ import annotations

from collections.abc import Sequence

from generator.analysis.interval import error_of, half_width
from generator.analysis.uncertainty import Key, Ledger, Uncertain, rectangle


def mean_of_day(ledger: Ledger, of_day: Sequence[Uncertain], key: Key, unit: str) -> tuple[Uncertain, float]:
    """Mean of first and last control of a day, and half of what they differ by too much.

    They must agree within the interval of their difference; where they do not, that half is a rectangular
    part of the mean, the rig's.

    Args:
        ledger: The report's inputs.
        of_day: Figures of the day's controls in order, at least one.
        key: Identity of that part.
        unit: Of the figures.
    """
    first, last = of_day[0], of_day[-1]
    if len(of_day) == 1:
        return first, 0.0
    mean, apart = (first + last) / 2.0, last - first
    if abs(apart.x) <= half_width(error_of(ledger, apart)):
        return mean, 0.0
    half = abs(apart.x) / 2
    return mean + ledger.input(rectangle(key, "controls of the day differ", half, unit, "shared")), half
