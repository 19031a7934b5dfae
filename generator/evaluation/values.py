"""Readings of a measure that has no series in time, as plain facts."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Value:
    """One reading of a measure that has no series in time.

    Attributes:
        value: In the figure's unit; the end of the range where it is a bound; None where there is no reading.
        half_width: Half-width of its 95 % interval; None for a bound and for a struck reading.
        excluded: The reviewer's reason where the reading is struck; else empty.
        bound: ">" or "<" where it is a bound and no value; else empty.
    """

    value: float | None
    half_width: float | None
    excluded: str = ""
    bound: str = ""
