"""The temperature of a surface from what an infra-red meter shows.

Temperatures are in °C, emissivities are shares from 0 to 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.analysis.radiation import THERMAL, Band, NoTemperature, radiance, slope, temperature_of

ZERO = 273.15
"""0 °C in K."""

Mirrors = Literal["set", "own-temperature", "none"]


@dataclass(frozen=True)
class Settings:
    """How the meter turned what it saw into an indication.

    Attributes:
        emissivity: Emissivity set in it, above 0 to 1.
        mirrors: Where it takes the temperature of what the surface mirrors from: set by hand, its own, or
            nowhere (it then leaves the mirrored part out).
        reflected: That temperature as the meter took it, °C; not asked for with "none".
        band: Wavelengths that it sees.
    """

    emissivity: float
    mirrors: Mirrors
    reflected: float = 20.0
    band: Band = THERMAL

    def __post_init__(self) -> None:
        if not 0 < self.emissivity <= 1:
            raise ValueError(f"an emissivity of {self.emissivity} is none")


@dataclass(frozen=True)
class Surface:
    """A surface's temperature, and how it moves with what it was made from.

    Attributes:
        temperature: °C.
        per_indication: ∂T/∂T_indicated, K/K.
        per_emissivity: ∂T/∂ε, K per unit.
        per_reflected: ∂T/∂T_reflected, K/K.
        per_reckoned: ∂T/∂T of what the meter took for reflected, K/K; 0 for one that takes nothing.
        signal: Radiance that made the indication, W/(m²·sr).
        own: Radiance of a black body at the surface's temperature, W/(m²·sr).
    """

    temperature: float
    per_indication: float
    per_emissivity: float
    per_reflected: float
    per_reckoned: float
    signal: float
    own: float


def signal(indicated: float, settings: Settings) -> float:
    """Radiance in W/(m²·sr) that made a meter show an indication in °C.

    S = ε_set·L(T_ind) + (1 − ε_set)·L(T_refl,set); a meter that knows of no mirrored part: ε_set·L(T_ind).
    """
    own = settings.emissivity * radiance(indicated + ZERO, settings.band)
    if settings.mirrors == "none":
        return own
    return own + (1 - settings.emissivity) * radiance(settings.reflected + ZERO, settings.band)


def surface(indicated: float, settings: Settings, emissivity: float, reflected: float) -> Surface:
    """The surface temperature T that solves L(T) = (S − (1 − ε)·L(T_refl))/ε.

    L is the radiance of a black body over the meter's band; the measuring equation is that of ISO 18434-1,
    annex A (from memory), within the band in place of the whole spectrum.

    Args:
        indicated: What the meter showed, °C.
        settings: How it was set.
        emissivity: Of the surface, above 0 to 1.
        reflected: Temperature of what the surface mirrors, °C.

    Raises:
        ValueError: The emissivity is none.
        NoTemperature: What the surface mirrors is brighter than all that the meter saw.
    """
    if not 0 < emissivity <= 1:
        raise ValueError(f"an emissivity of {emissivity} is none")
    band = settings.band
    mirrored = radiance(reflected + ZERO, band)
    seen = signal(indicated, settings)
    own = (seen - (1 - emissivity) * mirrored) / emissivity
    try:
        kelvin = temperature_of(own, band)
    except NoTemperature as none:
        raise NoTemperature(
            f"{indicated:g} °C shown, emissivity {emissivity:g}, mirrors {reflected:g} °C: no such surface"
        ) from none
    steep = slope(kelvin, band)
    reckons = 0.0 if settings.mirrors == "none" else 1 - settings.emissivity
    return Surface(
        temperature=kelvin - ZERO,
        per_indication=settings.emissivity * slope(indicated + ZERO, band) / (emissivity * steep),
        per_emissivity=(mirrored - own) / (emissivity * steep),
        per_reflected=-(1 - emissivity) * slope(reflected + ZERO, band) / (emissivity * steep),
        per_reckoned=reckons * slope(settings.reflected + ZERO, band) / (emissivity * steep),
        signal=seen,
        own=own,
    )
