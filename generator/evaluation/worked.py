"""How a run's figure was worked out, number by number, so that a reader can do it again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

By = Literal["reading", "fit", "line"]
"""Where the rise at the mark comes from: a reading, or between two the curve's shape or a straight line."""

TauOrigin = Literal["fit", "control", "declared"]


Reduction = Literal["value", "mean", "max", "min"]
"""How a run without a series became one figure: its one value, or its readings."""


@dataclass(frozen=True)
class WorkedRise:
    """The rise of one run at a time mark, from readings to figure.

    Attributes:
        mark: s.
        time: Time of the reading that was used, s; the mark itself between two readings.
        by: Where the rise at the mark comes from.
        point: The point that it is of.
        temperature: As indicated, °C.
        offset: What the zero check took from it, K; None without one.
        air: The air at that time as read, °C.
        air_felt: The air as the item felt it, lagged by τ, °C.
        tau: Time constant that air and current are lagged by, s.
        tau_from: Whose it is.
        rise: Temperature less offset and air as felt, K.
        probe: What is added for the heat that the probe draws off, K.
        current: The steady current that has warmed the item as far, A.
        set_current: A.
        exponent: Of the rise over the current.
        figure: At the set current, K.
    """

    mark: float
    time: float
    by: By
    point: str
    temperature: float
    offset: float | None
    air: float
    air_felt: float
    tau: float
    tau_from: TauOrigin
    rise: float
    probe: float
    current: float
    set_current: float
    exponent: float
    figure: float
