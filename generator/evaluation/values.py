"""Readings of a run, as plain facts."""

from __future__ import annotations

from dataclasses import dataclass

from generator.evaluation.sought import Sought, known


@dataclass(frozen=True)
class Reading:
    """One reading of a run, reduced.

    Attributes:
        time: Seconds since the current first reached its set value.
        temperature: As indicated, °C, or None where there is no reading.
        ambient: °C at that time, interpolated where the record leaves a gap; None without one.
        current: A, or None where not read.
        rise: Temperature less ambient, corrected to the set current, in K; None without one of its parts.
        reach: Half-width of the rise's 95 % interval, K, known or to be sought.
        excluded: The reviewer's reason where the reading is struck; else empty.
        bound: ">" or "<" where the temperature is a bound and no value; else empty.
        surface: Of an infra-red reading the temperature of the surface behind it, °C; else None.
    """

    time: float
    temperature: float | None
    ambient: float | None
    current: float | None
    rise: float | None
    reach: float | Sought[float] | None
    excluded: str = ""
    bound: str = ""
    surface: float | None = None

    @property
    def half_width(self) -> float | None:
        """Half-width of the rise's 95 % interval, K."""
        return known(self.reach)


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
