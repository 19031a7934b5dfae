"""The unit that the figures of a measure are written in: data are in SI, readers get mΩ, mm, grams."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.analysis.interval import Estimate
from generator.charts.numerals import NO_BREAK
from generator.evaluation.findings import MeasureFinding
from generator.pages.format import Both, Plus, Span, narrow, plus
from generator.records.units import UNITS

STEPS: dict[str, tuple[str, ...]] = {
    "V": ("µV", "mV", "V", "kV"),
    "A": ("µA", "mA", "A", "kA"),
    "Ω": ("µΩ", "mΩ", "Ω", "kΩ", "MΩ", "GΩ"),
    "Ω/m": ("mΩ/m", "Ω/m"),
    "W": ("mW", "W", "kW"),
    "Hz": ("Hz", "kHz"),
    "s": ("ms", "s"),
    "N": ("mN", "N", "kN"),
    "N·m": ("mN·m", "N·m"),
    "kg": ("mg", "g", "kg"),
    "m": ("µm", "mm", "m"),
    "m²": ("mm²", "m²"),
    "m³": ("ml", "l", "m³"),
    "rad": ("°",),
    "1": ("ppm", "%"),
    "1/K": ("%/K",),
    "1/s": ("% per hour",),
    "K/s": ("K/h", "K/min"),
}
"""Units that stand for one of SI, by its symbol, smallest first."""


@dataclass(frozen=True)
class Shown:
    """How the figures of one measure are written.

    Attributes:
        unit: The unit's symbol; `K` for a rise, which the pages tell as °C and °F.
        factor: What a figure in the measure's own unit is multiplied by.
    """

    unit: str
    factor: float = 1.0

    def figure(self, found: Estimate | None) -> Plus | None:
        """A figure with the ± of its own interval; None without one."""
        return None if found is None else self.plus(found.value, found.half_width)

    def plus(self, value: float, half_width: float) -> Plus:
        """A figure with its ±.

        Args:
            value: In the measure's own unit.
            half_width: In the same, above zero.
        """
        return plus(value * self.factor, half_width * self.factor, self.unit)

    def span(self, low: float, high: float) -> Span:
        """From one figure to another, to two digits of half their distance.

        Args:
            low: In the measure's own unit.
            high: In the same, above `low`.
        """
        first, last = (self.plus(each, (high - low) / 2) for each in (low, high))
        metric, us = (f"{last.value}{NO_BREAK}{last.unit}", f"{last.value_us}{NO_BREAK}{last.unit_us}")
        return Span(first.value, metric, first.value_us, us if last.unit_us else "")

    def limit(self, value: float, mean: float) -> Both:
        """A limit of figures, to two digits of its distance from their mean.

        Args:
            value: In the measure's own unit.
            mean: In the same, another.
        """
        told = self.plus(value, abs(value - mean))
        us = f"{told.value_us}{NO_BREAK}{told.unit_us}" if told.unit_us else ""
        return Both(f"{told.value}{NO_BREAK}{told.unit}", us)

    def gap(self, value: float, half_width: float) -> Plus:
        """A difference of two figures with its ±; of temperatures it has no offset in °F."""
        return plus(value * self.factor, half_width * self.factor, self._error_unit)

    def size(self, value: float) -> Both:
        """A spread or another size that is known roughly."""
        return narrow(value * self.factor, self._error_unit)

    @property
    def _error_unit(self) -> str:
        return "K" if self.unit == "°C" else self.unit


def shown(measure: MeasureFinding) -> Shown:
    """The unit for a measure: the largest of its steps in which its largest figure is 1 or more."""
    return shown_in(measure.unit, _values(measure))


def shown_in(unit: str, values: Iterable[float]) -> Shown:
    """The same for figures that stand together.

    Args:
        unit: That they are in, of SI.
        values: The figures.
    """
    steps = STEPS.get(unit, ())
    if not steps:
        return Shown(unit)
    largest = max(map(abs, values), default=0.0)
    fitting = [step for step in steps if largest * _factor(step) >= 1.0]
    found = fitting[-1] if fitting else steps[0]
    return Shown(found, _factor(found))


def _values(measure: MeasureFinding) -> list[float]:
    found = [each.figure for each in (*measure.items, *measure.controls)]
    found += [piece.figure for each in measure.items for piece in each.pieces]
    held = (piece.value for item in measure.items for said in item.limits for piece in said.pieces)
    return [*(each.value for each in found if each is not None), *(each for each in held if each is not None)]


def _factor(symbol: str) -> float:
    unit = next(each for each in UNITS if each.symbol == symbol)
    return unit.over / unit.times
