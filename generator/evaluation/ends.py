"""How a heating run ended, as plain facts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

State = Literal["settled", "still-rising", "too-few", "disturbed", "worsening"]
"""What the end of a run says; worsening is told by the resistance alone."""


@dataclass(frozen=True)
class Between:
    """A size with its one-sided 95 % limits.

    Attributes:
        value: The size.
        low: Lower limit.
        high: Upper limit.
    """

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class SettledRise:
    """The settled rise of a run's fitted curve.

    Attributes:
        value: K.
        low: Lower end of its 95 % interval, K.
        high: Upper end, widened by the slow part that a run of this length cannot see, K.
        tau: Time constant, s.
        start: Where the curve starts, K.
        why_not: Why it may not be printed; None where it may.
        unseen: The widening that is in `high`, K.
    """

    value: float
    low: float
    high: float
    tau: float
    start: float
    why_not: str | None
    unseen: float = 0.0


@dataclass(frozen=True)
class End:
    """How a heating run ended.

    Attributes:
        state: What it says.
        change: Change over the method's window, K; None with fewer than two readings in it.
        remaining: Rise still to come, K; None without a fitted curve.
        settled: The settled rise of the curve; None without one.
        slope: Slope of the logarithm of the resistance at 20 °C, 1/h; None without drops.
        allowance: The slope that the method allows, 1/h.
        over: The method's window, that the change is over, s.
    """

    state: State
    change: Between | None
    remaining: Between | None
    settled: SettledRise | None
    slope: Between | None
    allowance: float
    over: float
