"""The item follows air and current with its own time constant: what they were, as the item felt them.

The way round the circle of τ: fit once on the rise as read → τ₁; lag the air and the current by τ₁; fit again
→ τ; stop. Where no curve can be fitted, the control's τ stands in, then the one that the method declares.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from generator.analysis.fit import HeatingFit, NoFit, fit_heating
from generator.analysis.uncertainty import Uncertain, combined, rectangle, scatter
from generator.evaluation.kinds.records import Cells, Record, TimeConstant
from generator.evaluation.kinds.task import NoFigure, Task


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

    def plain_rises(
        self, tau: float, set_current: float, exponent: float
    ) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Times and rises in K, corrected for air and current as felt with τ; 0 corrects nothing."""
        found = [
            (time, cell.x - self.air.plainly_lagged(time, tau))
            for time, cell in zip(self.times, self.hot, strict=True)
            if cell is not None and self.air.covers(time)
        ]
        if tau > 0 and self.driven.times:
            found = [(time, rise * self._factor(time, tau, set_current, exponent)) for time, rise in found]
        return tuple(time for time, _ in found), tuple(rise for _, rise in found)

    def _factor(self, time: float, tau: float, set_current: float, exponent: float) -> float:
        if time < self.driven.times[0]:
            return 1.0
        return float((set_current / self.driven.plain_rms(time, tau)) ** exponent)


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
    within = [part for part in task.ledger.components(rise) if part.input.scope == "reading"]
    return combined(within) or None


def curve(heated: Heated, noise: float | None, set_current: float, exponent: float) -> HeatingFit | None:
    """The run's own curve, or None where none can be fitted."""
    try:
        return fit_twice(heated, noise, set_current, exponent)
    except NoFit:
        return None
