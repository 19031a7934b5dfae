"""The two systems of units that a drawing is told in."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN
from generator.charts.scales import Scale, value_scale
from generator.records.systems import in_both

FREEZING_F = 32.0


@dataclass(frozen=True)
class Unit:
    """A unit that figures are told in.

    Attributes:
        symbol: As printed; `°C` and `°F` for a rise.
        factor: What one of the figures' own unit is worth in it.
        offset: What is added then; other than 0 for a temperature in °F alone.
    """

    symbol: str
    factor: float
    offset: float = 0.0

    def of(self, value: float) -> float:
        """A figure in this unit."""
        return value * self.factor + self.offset


def units_of(unit: str) -> tuple[Unit, Unit | None]:
    """The metric and the US unit for figures in `unit`; the second is None where one serves everyone.

    Args:
        unit: Of the figures; `K` is taken for a rise, told in °C and in °F without offset, `°C` for a
            temperature.
    """
    if unit == "K":
        return Unit("°C", 1.0), Unit("°F", FAHRENHEIT_PER_KELVIN)
    if unit == "°C":
        return Unit("°C", 1.0), Unit("°F", FAHRENHEIT_PER_KELVIN, FREEZING_F)
    both = in_both(unit)
    if both is None:
        return Unit(unit, 1.0), None
    metric, us = both.metric.symbol, both.us.symbol
    other = both.factor(unit)
    return Unit(metric, 1.0 if unit == metric else other), Unit(us, 1.0 if unit == us else other)


def ticked(scale: Scale, unit: Unit) -> Scale:
    """The same scale with its ticks where figures are round in another unit."""
    if unit.factor == 1.0:
        return scale
    ticks = value_scale([unit.of(scale.low), unit.of(scale.high)]).ticks
    placed = ((tick - unit.offset) / unit.factor for tick in ticks)
    return Scale(scale.low, scale.high, tuple(tick for tick in placed if scale.low <= tick <= scale.high))
