"""The two systems of units that a drawing is told in."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN
from generator.charts.scales import Scale, value_scale
from generator.records.systems import in_both


@dataclass(frozen=True)
class Unit:
    """A unit that figures are told in.

    Attributes:
        symbol: As printed; `°C` and `°F` for a rise.
        factor: What one of the figures' own unit is worth in it.
    """

    symbol: str
    factor: float


def units_of(unit: str) -> tuple[Unit, Unit | None]:
    """The metric and the US unit for figures in `unit`; the second is None where one serves everyone.

    Args:
        unit: Of the figures; `K` is taken for a rise, told in °C and in °F without offset.
    """
    if unit == "K":
        return Unit("°C", 1.0), Unit("°F", FAHRENHEIT_PER_KELVIN)
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
    ticks = value_scale([scale.low * unit.factor, scale.high * unit.factor]).ticks
    placed = (tick / unit.factor for tick in ticks)
    return Scale(scale.low, scale.high, tuple(tick for tick in placed if scale.low <= tick <= scale.high))
