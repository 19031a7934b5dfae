"""The item follows air and current with its own time constant: what they were, as the item felt them.

The way round the circle of τ: fit once on the rise as read → τ₁; lag the air and the current by τ₁; fit again
→ τ; stop. Where no curve can be fitted, the control's τ stands in, then the one that the method declares.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from generator.analysis.fit import HeatingFit, NoFit, fit_heating
from generator.analysis.uncertainty import Uncertain, rectangle, scatter
from generator.evaluation.kinds.records import Cells, Record, TimeConstant
from generator.evaluation.kinds.task import NoFigure, Task

Rises = tuple[tuple[float, ...], tuple[float, ...]]
"""Times in s, and a rise in K at each."""


@dataclass(frozen=True)
class Heated:
    """What a run was read as, before any correction.

    Attributes:
        times: s, of every row.
        hot: °C at the point.
        air: The air as read.
        driven: The current as read.
    """

    times: tuple[float, ...]
    hot: Cells
    air: Record
    driven: Record
    _rises: dict[tuple[float, float, float], Rises] = field(default_factory=dict, repr=False, compare=False)

    def plain_rises(self, tau: float, set_current: float, exponent: float) -> Rises:
        """Times and rises in K, corrected for air and current as felt with τ; 0 corrects nothing."""
        asked = (tau, set_current, exponent)
        if asked not in self._rises:
            self._rises[asked] = self._corrected(*asked)
        return self._rises[asked]

    def _corrected(self, tau: float, set_current: float, exponent: float) -> Rises:
        found = [
            (time, cell.x)
            for time, cell in zip(self.times, self.hot, strict=True)
            if cell is not None and self.air.covers(time)
        ]
        times = tuple(time for time, _ in found)
        felt = self.air.plain_series(times, tau)
        risen = [hot - air for (_, hot), air in zip(found, felt, strict=True)]
        if tau > 0 and self.driven.times:
            factors = self._factors(times, tau, set_current, exponent)
            risen = [rise * factor for rise, factor in zip(risen, factors, strict=True)]
        return times, tuple(risen)

    def _factors(
        self, times: Sequence[float], tau: float, set_current: float, exponent: float
    ) -> list[float]:
        """To the set current, at each time; 1 before the current was read."""
        before = sum(time < self.driven.times[0] for time in times)
        currents = self.driven.rms_series(times[before:], tau)
        return [1.0] * before + [(set_current / current) ** exponent for current in currents]


def fit_twice(heated: Heated, noise: float | None, set_current: float, exponent: float) -> HeatingFit:
    """The run's own curve, by the way round the circle.

    Args:
        heated: The run.
        noise: Standard deviation of a reading of the rise, K; None takes it from the residuals.
        set_current: A.
        exponent: Of the rise over the current.

    Raises:
        NoFit: No curve can be fitted, the first time or the second.
    """
    first = fit_heating(*heated.plain_rises(0.0, set_current, exponent), noise)
    return fit_heating(*heated.plain_rises(first.tau, set_current, exponent), noise)


def time_constant(task: Task[Any], fit: HeatingFit | None) -> TimeConstant:
    """The time constant of a run.

    Args:
        task: The run.
        fit: Its own curve; None where there is none.

    Raises:
        NoFigure: There is none, so nothing can be corrected.
    """
    if fit is not None:
        u = fit.rate_u / fit.rate**2
        entry = scatter((task.run.id, "time constant"), "time constant", u, "s", "run")
        return TimeConstant(fit.tau, task.ledger.input(entry), "fit")
    of_control = task.given.control_tau
    if of_control is not None:
        key = (task.run.id, "time constant", "control")
        words = "the control's, since the item's own is not known"
        entry = rectangle(key, "time constant", of_control, "s", "run", source=words)
        return TimeConstant(of_control, task.ledger.input(entry), "control")
    declared = task.method.tau
    if declared is None:
        raise NoFigure("no-time-constant")
    key = (task.run.id, "time constant", "declared")
    entry = rectangle(key, "time constant", declared.within.si, "s", "run", source=declared.because)
    return TimeConstant(declared.value.si, task.ledger.input(entry), "declared")


def noise_of(task: Task[Any], rise: Uncertain) -> float | None:
    """Standard deviation in K of one reading of a rise, as its meters state it; None where they do not."""
    return task.ledger.noise(rise) or None


def curve(heated: Heated, noise: float | None, set_current: float, exponent: float) -> HeatingFit | None:
    """The run's own curve, or None where none can be fitted."""
    try:
        return fit_twice(heated, noise, set_current, exponent)
    except NoFit:
        return None
