"""Heat over settled rise, as plain facts: what a part gave off for each kelvin above the air."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

NoConductance = Literal["no-power", "no-settled-rise"]
"""Why there is none: the run has no figure of its heat, or no settled rise that may be told."""


@dataclass(frozen=True)
class Conductance:
    """Power over settled rise of one run, both at its set current.

    A property of one run: settled rises are neither averaged nor ranked, and so is nothing made of them.

    Attributes:
        measure: Id of the measure of heating.
        why_not: Why there is none; None where there is one, and all below are then known.
        value: W/K.
        low: Lower end of its 95 % interval, widened by what the run cannot see of a slow part, W/K.
        high: Upper end, W/K.
        power: W, as read.
        rise: The settled rise, K.
        rise_low: Lower end of its 95 % interval, K.
        rise_high: Upper end, widened, K.
        to_come: What was still to come when the heat was read, K.
        coefficient: By which the part makes more heat as it warms, 1/K.
    """

    measure: str
    why_not: NoConductance | None = None
    value: float = 0.0
    low: float = 0.0
    high: float = 0.0
    power: float = 0.0
    rise: float = 0.0
    rise_low: float = 0.0
    rise_high: float = 0.0
    to_come: float = 0.0
    coefficient: float = 0.0
