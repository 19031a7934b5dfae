"""How far one reading of a meter lies off another of the same thing, by what the meter states."""

from __future__ import annotations

import math


def reading_noise(resolution: float, repeatability: float) -> float:
    """Standard deviation of one reading, in the unit of both.

    Args:
        resolution: Smallest step of the indication: ± half of it, rectangular (GUM F.2.2.1).
        repeatability: Standard deviation of repeated indications.
    """
    return math.hypot(resolution / 2 / math.sqrt(3), repeatability)
