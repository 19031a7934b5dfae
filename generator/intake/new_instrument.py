"""A meter begun: one range, its channels and probes."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.intake.begun import Begun, begun
from generator.records.quantity import parse_quantity
from generator.records.units import INTERVAL, TEMPERATURE

ELECTRICAL = frozenset({"current", "voltage", "resistance", "power"})
"""Quantities of which a meter's range says whether it is for direct or for alternating current."""

_ONE_INPUT = "input"


@dataclass(frozen=True)
class NewInstrument:
    """What a person said of a meter; texts as typed, empty where nothing was said.

    Attributes:
        id: Its id.
        name: What it is.
        model: Its model.
        quantity: What it reads.
        from_: Lower end of the range.
        to: Upper end.
        accuracy: As the handbook prints it.
        resolution: Step of the last digit.
        repeatability: Standard deviation of repeated readings.
        valid_at: Air at which the accuracy holds.
        mode: `dc` or `ac`, for electrical ranges.
        named: Its channels; none for a meter with one input.
        tolerance: Of its probes; empty where the accuracy holds it, and needed with channels.
        calibrated: `never`, or the day of the last calibration.
        calibrated_by: Who calibrated it.
    """

    id: str
    name: str
    model: str
    quantity: str
    from_: str
    to: str
    accuracy: str
    resolution: str
    repeatability: str
    valid_at: str
    mode: str
    named: tuple[str, ...]
    tolerance: str
    calibrated: str
    calibrated_by: str

    @property
    def top(self) -> str:
        """The number at the upper end."""
        return f"{parse_quantity(self.to, self.quantity).value:g}"

    @property
    def step(self) -> str:
        """The step of the last digit in plain signs."""
        width = INTERVAL if self.quantity == TEMPERATURE else self.quantity
        found = parse_quantity(self.resolution, width)
        return f"{found.value:g} {found.unit.typed}"

    @property
    def channels(self) -> tuple[str, ...]:
        """Its channels; of a meter with one input that one. None where no probe is plugged in."""
        return (self.named or (_ONE_INPUT,)) if self.tolerance else ()

    @property
    def inputs(self) -> tuple[str, ...]:
        """The probe that is plugged into each channel."""
        return tuple(f"p{number}" for number, _ in enumerate(self.channels, 1))


def new_instrument(root: Path, meter: NewInstrument) -> Begun:
    """Begin the record of a meter."""
    return begun(root, f"instruments/{meter.id}.yml", "instrument.yml.jinja", meter=meter)
