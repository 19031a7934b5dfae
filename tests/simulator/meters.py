"""Meters that err as real ones do: offset and gain kept since calibration, a part new in each run.

The parts are drawn here as a meter might have them, not as the evaluation supposes: how much of the stated
accuracy is new in each run differs from meter to meter, and a probe errs by an offset and a slope.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tests.simulator.heat import Array

PLANCK, LIGHT, BOLTZMANN = 6.62607015e-34, 299792458.0, 1.380649e-23
"""h in J·s, c in m/s, k in J/K: exact in the SI of 2019 (BIPM, SI brochure, 9th edition)."""


def generator(seed: int, *names: str) -> np.random.Generator:
    """A generator for one purpose, the same whatever else was drawn before."""
    return np.random.default_rng([seed, *(zlib.crc32(name.encode()) for name in names)])


@dataclass(frozen=True)
class Accuracy:
    """What a maker states for a range.

    Attributes:
        share: Share of the reading, 0.01 for 1 %.
        fixed: In the unit of the reading.
        resolution: Last digit, in the unit of the reading.
        noise: Standard deviation from one reading to the next before rounding, in the unit of the reading.
    """

    share: float
    fixed: float
    resolution: float
    noise: float

    def half_width(self, value: float) -> float:
        """How far a reading of this value may be off, in its unit."""
        return self.share * abs(value) + self.fixed


@dataclass(frozen=True)
class Error:
    """A straight line that is added to what is measured.

    Attributes:
        offset: In the unit of the reading.
        gain: Share of the difference from `about`.
        about: Where the gain does nothing, in the unit of the reading.
    """

    offset: float
    gain: float
    about: float = 0.0

    def at(self, value: Array) -> Array:
        """The error at each value, in its unit."""
        return np.asarray(self.offset + self.gain * (value - self.about))


@dataclass(frozen=True)
class Meter:
    """One channel of one instrument since its last calibration.

    Attributes:
        accuracy: As stated.
        kept: The error that it keeps in every run.
        private: Share of the stated accuracy that is drawn anew for each run.
    """

    accuracy: Accuracy
    kept: Error
    private: float

    @classmethod
    def drawn(cls, accuracy: Accuracy, seed: int, *name: str) -> Meter:
        """One of those that keep to the stated accuracy; `name` tells instrument, channel and calibration."""
        draw = generator(seed, *name)
        private = draw.uniform(0.1, 0.3)
        offset, gain = draw.uniform(-1.0, 1.0, 2) * (1.0 - private)
        return cls(accuracy, Error(offset * accuracy.fixed, gain * accuracy.share), private)

    def in_run(self, draw: np.random.Generator) -> Error:
        """Its whole error in one run: the kept one and one that is new."""
        offset, gain = draw.uniform(-1.0, 1.0, 2) * self.private
        new = Error(offset * self.accuracy.fixed, gain * self.accuracy.share)
        return Error(self.kept.offset + new.offset, self.kept.gain + new.gain)

    def reads(self, true: Array, error: Error, draw: np.random.Generator) -> Array:
        """What it shows, rounded to its last digit."""
        shaken = true + error.at(true) + draw.normal(0.0, self.accuracy.noise, true.shape)
        return rounded(shaken, self.accuracy.resolution)


def rounded(values: Array, resolution: float) -> Array:
    """Values to the nearest last digit."""
    return np.asarray(np.round(values / resolution) * resolution)


PROBE_OFFSET, PROBE_SLOPE = 1.1, 0.004
"""Limits of a type K probe's offset, K, and slope about 20 °C.

Together they stay inside the tolerance of class 1 (IEC 60584-1: the greater of 1.5 K and 0.004 of the
temperature; from memory) from 0 to 120 °C.
"""


def probe(seed: int, name: str) -> Error:
    """The error of one type K class 1 probe; it keeps it whatever channel it hangs on."""
    offset, slope = generator(seed, "probe", name).uniform(-1.0, 1.0, 2)
    return Error(offset * PROBE_OFFSET, slope * PROBE_SLOPE, 20.0)


@dataclass(frozen=True)
class Conduction:
    """How far a probe cemented to a body reads low, because its wire carries heat off.

    Attributes:
        common: Of this way of holding, K at a rise of 50 K.
        own: Of this item's body, K at a rise of 50 K.
    """

    common: float
    own: float

    def low(self, rise: Array) -> Array:
        """What the probe loses at each rise, K; never more than the method's 1.5 K."""
        return np.asarray(np.clip((self.common + self.own) * rise / 50.0, 0.0, 1.5))


@dataclass(frozen=True)
class Optics:
    """How an infra-red camera was set, and what it looks at.

    Attributes:
        emissivity_set: Emissivity set in it.
        reflected_set: Mirrored temperature that it reckons with, °C; None for one that reckons with none.
        emissivity: Of the surface.
        reflected: Temperature of what the surface mirrors, °C.
        band: Shortest and longest wavelength that it sees, µm.
    """

    emissivity_set: float = 0.95
    reflected_set: float | None = 20.0
    emissivity: float = 0.95
    reflected: float = 20.0
    band: tuple[float, float] = (7.5, 14.0)


def indication(
    surface: Array, optics: Optics, emissivity: Array | None = None, reflected: Array | None = None
) -> Array:
    """What a faultless infra-red camera shows of a surface, °C.

    Args:
        surface: True temperatures, °C.
        optics: How it was set.
        emissivity: Of each surface, in place of that of `optics`.
        reflected: What each mirrors, °C, in place of that of `optics`.
    """
    grid, radiances = _radiances(optics.band)
    own = optics.emissivity if emissivity is None else emissivity
    around = optics.reflected if reflected is None else reflected
    seen = own * np.interp(surface, grid, radiances) + (1.0 - own) * np.interp(around, grid, radiances)
    if optics.reflected_set is not None:
        reckoned = np.interp(optics.reflected_set, grid, radiances)
        seen = seen - (1.0 - optics.emissivity_set) * reckoned
    return np.asarray(np.interp(seen / optics.emissivity_set, radiances, grid))


@lru_cache(maxsize=4)
def _radiances(band: tuple[float, float]) -> tuple[Array, Array]:
    """Temperatures in °C, and W/(m²·sr) of a black body within a band: Planck's law by quadrature."""
    nodes, weights = np.polynomial.legendre.leggauss(60)
    low, high = (1e-6 * end for end in band)
    wave = (low + high) / 2.0 + (high - low) / 2.0 * nodes
    grid = np.arange(-80.0, 400.0, 0.05)
    exponent = PLANCK * LIGHT / (wave * BOLTZMANN * (grid[:, np.newaxis] + 273.15))
    spectral = 2.0 * PLANCK * LIGHT**2 / wave**5 / np.expm1(exponent)
    return grid, np.asarray(spectral @ weights * (high - low) / 2.0)
