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
class WorkedSurface:
    """From what an infra-red meter showed to the surface behind it.

    Attributes:
        indicated: What it showed, °C.
        emissivity_set: Emissivity set in it.
        reckoned: Mirrored temperature that it reckoned with, °C; None where it reckons with none.
        band: Shortest and longest wavelength that it sees, m.
        signal: Radiance that made it show that, within its band, W/(m²·sr).
        surface: The surface, as the record has it.
        emissivity: Of the surface.
        reflected: Temperature of what it mirrors, °C.
        own: Radiance of a black body as hot as the surface, W/(m²·sr).
        black: Those of black bodies at what it showed, at what it reckoned with and at what is mirrored.
        temperature: Of the surface, °C.
        magnified: K of the surface for a K of the indication.
    """

    indicated: float
    emissivity_set: float
    reckoned: float | None
    band: tuple[float, float]
    signal: float
    surface: str
    emissivity: float
    reflected: float
    own: float
    black: tuple[float, float, float]
    temperature: float
    magnified: float


@dataclass(frozen=True)
class WorkedRise:
    """The rise of one run at a time mark, from readings to figure.

    Attributes:
        mark: s.
        time: Time of the reading that was used, s; the mark itself between two readings.
        by: Where the rise at the mark comes from.
        point: The point that it is of.
        temperature: As indicated, °C; by an infra-red meter that of the surface.
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
