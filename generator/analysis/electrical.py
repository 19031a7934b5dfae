"""Resistance of an item during a run, and whether it worsens.

Drops are in V, currents in A, resistances in Ω, temperatures in °C, times in s, slopes in 1/h (0.025 is
2.5 % an hour).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.uncertainty import Key, Ledger, Uncertain

WARM_FROM = 1200.0
"""Resistance is watched from this time on, s."""

ALLOWANCE = 0.025
"""Worsening that a method allows unless it says otherwise, 1/h; no source."""


@dataclass(frozen=True)
class Electrical:
    """One reading of a run: drop, current and temperature, none of them missing.

    Attributes:
        time: s.
        drop: V.
        current: A.
        temperature: °C.
    """

    time: float
    drop: float
    current: float
    temperature: float


@dataclass(frozen=True)
class Noise:
    """Stated standard deviations of one reading.

    Attributes:
        drop: V.
        current: A.
        temperature: K.
    """

    drop: float
    current: float
    temperature: float


@dataclass(frozen=True)
class Coefficient:
    """Temperature coefficient of resistance at 20 °C, 1/K.

    Attributes:
        value: α.
        half_width: Rectangular.
        assumed: Whether it is the default for assemblies, which has no source.
    """

    value: float = 0.003
    half_width: float = 0.001
    assumed: bool = True


@dataclass(frozen=True)
class Trend:
    """Slope of ln R₂₀.

    Attributes:
        slope: 1/h.
        standard_uncertainty: From the stated noise and from α, 1/h.
        low: Lower one-sided 95 % limit, 1/h.
        allowance: What the method allows, 1/h.
        readings: How many it rests on.
    """

    slope: float
    standard_uncertainty: float
    low: float
    allowance: float
    readings: int

    @property
    def worsening(self) -> bool:
        """Whether the lower limit exceeds the allowance."""
        return self.low > self.allowance


def resistance(drop: Uncertain, current: Uncertain) -> Uncertain:
    """R = ΔV/I, Ω."""
    return drop / current


def temperature_coefficient(ledger: Ledger, key: Key, stated: Coefficient, source: str = "") -> Uncertain:
    """α as an input, 1/K."""
    raise NotImplementedError


def at_20(resistance: Uncertain, temperature: Uncertain, coefficient: Uncertain) -> Uncertain:
    """Resistance reduced to 20 °C, R/(1 + α(T − 20 °C)), Ω."""
    return resistance / (coefficient * (temperature - 20.0) + 1.0)


def trend(
    readings: Sequence[Electrical],
    noise: Noise,
    coefficient: Coefficient,
    allowance: float = ALLOWANCE,
    since: float = WARM_FROM,
) -> Trend | None:
    """Least-squares slope of ln R₂₀ over the readings from a time on; None with fewer than two of them."""
    raise NotImplementedError


def slope_uncertainty(
    schedule: Sequence[float], mark: float, relative_noise: float, since: float = WARM_FROM
) -> float:
    """Standard uncertainty in 1/h of the slope of ln R₂₀ that a schedule's readings give.

    Args:
        schedule: Times of the readings, s.
        mark: The last that counts, s.
        relative_noise: Standard deviation of ln R₂₀ of one reading.
        since: The first that counts, s.

    Returns:
        Infinite with fewer than two readings.
    """
    raise NotImplementedError


def relative_noise(reading: Electrical, noise: Noise, coefficient: Coefficient) -> float:
    """Standard deviation of ln R₂₀ of one reading."""
    raise NotImplementedError
