"""Metric units and US units: which of one system stands for which of the other.

Temperatures and differences of them have rules of their own where they are printed. Conductors are called by
a size of either system, which the nearest size of the other does not equal (`gauge_near`).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from generator.records.units import UNITS, Gauge, Unit

GAUGES = range(-3, 41)
"""Sizes that AWG has: 4/0 is −3, 1/0 is 0 (ASTM B258)."""

_US = {
    "N": "lbf",
    "mN": "lbf",
    "kN": "lbf",
    "kgf": "lbf",
    "gf": "lbf",
    "N·m": "lbf·in",
    "N·cm": "lbf·in",
    "mN·m": "lbf·in",
    "kgf·cm": "lbf·in",
    "mm": "in",
    "cm": "in",
    "m": "ft",
    "cm²": "in²",
    "l": "in³",
    "ml": "in³",
    "cm³": "in³",
    "dm³": "in³",
    "g": "oz",
    "kg": "lb",
    "K/h": "°F/h",
}
_METRIC = {
    "lbf": "N",
    "lbf·in": "N·m",
    "lbf·ft": "N·m",
    "in": "mm",
    "ft": "m",
    "in²": "cm²",
    "in³": "cm³",
    "oz": "g",
    "lb": "kg",
    "°F/h": "K/h",
}


@dataclass(frozen=True)
class InBoth:
    """A unit of each system for one quantity; one of them is the unit asked for."""

    metric: Unit
    us: Unit

    def factor(self, unit: str) -> float:
        """What one step of `unit`, the symbol of either, is worth in the other."""
        own, other = (self.metric, self.us) if unit == self.metric.symbol else (self.us, self.metric)
        return own.factor / other.factor


@cache
def in_both(symbol: str) -> InBoth | None:
    """A unit and the one that stands for it in the other system.

    Args:
        symbol: The unit as printed.

    Returns:
        None where the unit is the same to everyone (A, Ω, min), has no common counterpart, or is one of
        temperature.
    """
    if symbol in _US:
        return InBoth(_unit(symbol), _unit(_US[symbol]))
    if symbol in _METRIC:
        return InBoth(_unit(_METRIC[symbol]), _unit(symbol))
    return None


def gauge_near(area: float) -> int | None:
    """The gauge whose conductor is nearest in its diameter's steps; None outside of the gauges there are.

    Source: ASTM B258, by the formula of `units.Gauge`.

    Args:
        area: m², above zero.
    """
    nearest = round(_gauge().from_si(area))
    return nearest if nearest in GAUGES else None


def gauge_name(gauge: float) -> str:
    """A gauge as it is written: `12`, and `2/0` for −1."""
    whole = round(gauge)
    return f"{whole}" if whole > 0 else f"{1 - whole}/0"


def _gauge() -> Gauge:
    return next(each for each in UNITS if isinstance(each, Gauge))


def _unit(symbol: str) -> Unit:
    return next(each for each in UNITS if each.symbol == symbol)
