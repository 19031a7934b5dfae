"""Times of a heating run: the mark that runs share, and the time at which a limit is reached.

Times are in s, rises in K.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.fit import HeatingFit


@dataclass(frozen=True)
class TimeTo:
    """When a rise reaches a limit.

    Attributes:
        time: s.
        by: Between two readings of the run, or by its fit past the last.
    """

    time: float
    by: Literal["readings", "fit"]


def time_to(
    times: Sequence[float], rises: Sequence[float], limit: float, fit: HeatingFit | None = None
) -> TimeTo | None:
    """First time at which the rise reaches a limit; None where it does not, or nothing says when.

    Args:
        times: s, ascending.
        rises: K.
        limit: K.
        fit: Asked past the last reading, and only where the lower 95 % limit of θ∞ exceeds the limit.
    """
    raise NotImplementedError


def shared_mark(
    mark: float, ends: Sequence[float], marks: Sequence[float], within: float = 0.0
) -> float | None:
    """The longest mark that all completed runs reach.

    Args:
        mark: The method's, s.
        ends: Time of the last reading of each completed run, s.
        marks: Times that may serve, s: those of the schedule.
        within: Time tolerance, s: a run that ends earlier by at most this reaches the mark.

    Returns:
        None where no mark is reached by all.
    """
    raise NotImplementedError
