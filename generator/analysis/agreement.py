"""Whether two instruments agree on one thing within what they state."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Agreement:
    """Two results of one quantity, each with its expanded uncertainty.

    Attributes:
        number: E_n, the difference over the uncertainty of the difference; its sign is the difference's.
    """

    number: float

    @property
    def agree(self) -> bool:
        """Whether the difference is no larger than both uncertainties allow, |E_n| ≤ 1."""
        return abs(self.number) <= 1


def normalized_error(first: float, u_first: float, second: float, u_second: float) -> Agreement:
    """E_n = (x₁ − x₂)/√(U₁² + U₂²) (ISO 13528:2022, 9.7; ISO/IEC 17043, B.4).

    Args:
        first: A result.
        u_first: Its expanded uncertainty at 95 %, in the same unit.
        second: The other.
        u_second: Its expanded uncertainty; the two share no error.

    Raises:
        ValueError: An uncertainty below zero, or both zero.
    """
    if min(u_first, u_second) < 0 or u_first == u_second == 0:
        raise ValueError("E_n needs the uncertainty of both results")
    return Agreement((first - second) / math.hypot(u_first, u_second))
