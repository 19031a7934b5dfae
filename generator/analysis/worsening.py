"""Whether an item worsens: the slope of the logarithm of its resistance at 20 °C, in plain numbers.

Drops are in V, currents in A, temperatures in °C, times in s, slopes in 1/h (0.025 is 2.5 % an hour).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.line import Z95, slope_weights

HOUR = 3600.0
"""Seconds."""

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


def trend(
    readings: Sequence[Electrical],
    noise: Noise,
    coefficient: Coefficient,
    *,
    allowance: float = ALLOWANCE,
    since: float = WARM_FROM,
) -> Trend | None:
    """Least-squares slope of ln R₂₀ = ln(ΔV/I) − ln(1 + α(T − 20 °C)).

    The noise of the readings is independent; α is one input, and counts as far as the temperature drifts.

    Args:
        readings: Those that have all three, in any order.
        noise: Of each.
        coefficient: α.
        allowance: What the method allows, 1/h.
        since: The first time that counts, s.

    Returns:
        None with fewer than two readings that count.

    Raises:
        ValueError: A resistance, or 1 + α(T − 20 °C), is not above zero.
    """
    warm = [each for each in readings if each.time >= since]
    weights = slope_weights([each.time / HOUR for each in warm])
    if weights is None:
        return None
    weighed = tuple(zip(weights, warm, strict=True))
    slope = math.fsum(weight * _log_resistance(each, coefficient) for weight, each in weighed)
    by_noise = [weight * relative_noise(each, noise, coefficient) for weight, each in weighed]
    by_alpha = math.fsum(
        weight * (each.temperature - 20) / _warmth(each, coefficient) for weight, each in weighed
    )
    u = math.hypot(*by_noise, by_alpha * coefficient.half_width / math.sqrt(3))
    return Trend(slope, u, slope - Z95 * u, allowance, len(warm))


def relative_noise(reading: Electrical, noise: Noise, coefficient: Coefficient) -> float:
    """Standard deviation of ln R₂₀ of one reading."""
    return math.hypot(
        noise.drop / reading.drop,
        noise.current / reading.current,
        coefficient.value * noise.temperature / _warmth(reading, coefficient),
    )


def slope_uncertainty(
    schedule: Sequence[float], mark: float, noise: float, *, since: float = WARM_FROM
) -> float:
    """Standard uncertainty in 1/h of the slope of ln R₂₀ that a schedule's readings give by their noise.

    Args:
        schedule: Times of the readings, s.
        mark: The last that counts, s.
        noise: Standard deviation of ln R₂₀ of one reading, from `relative_noise`.
        since: The first that counts, s.

    Returns:
        Infinite with fewer than two readings.
    """
    weights = slope_weights([time / HOUR for time in schedule if since <= time <= mark])
    return math.inf if weights is None else math.hypot(*weights) * noise


def _warmth(reading: Electrical, coefficient: Coefficient) -> float:
    warmth = 1 + coefficient.value * (reading.temperature - 20)
    if not warmth > 0:
        raise ValueError(f"no resistance at {reading.temperature} °C with {coefficient.value} /K")
    return warmth


def _log_resistance(reading: Electrical, coefficient: Coefficient) -> float:
    ratio = reading.drop / reading.current if reading.current else 0.0
    if not ratio > 0:
        raise ValueError(f"no resistance from {reading.drop} V and {reading.current} A")
    return math.log(ratio) - math.log(_warmth(reading, coefficient))
