"""Channels of a run over time, as read and as felt by an item of one time constant."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from generator.analysis import heating as formulas
from generator.analysis.current import rms_series
from generator.analysis.lag import lag_series, lag_weights, wandering
from generator.analysis.line import slope_weights
from generator.analysis.linear import deferred
from generator.analysis.uncertainty import Key, Ledger, Uncertain, weighted
from generator.evaluation.worked import TauOrigin

Cells = tuple[Uncertain | None, ...]
"""A column as uncertain numbers, None where there is no reading that counts."""

STEP = 0.01
"""Relative step of τ for the derivative of what is lagged by it."""


@dataclass(frozen=True)
class TimeConstant:
    """The time constant that a run's air and current are lagged by.

    Attributes:
        value: s.
        off: What it is off by, s: an uncertain number around 0.
        origin: From the run's own curve, a control's, or declared by the method.
    """

    value: float
    off: Uncertain
    origin: TauOrigin

    def carried(self, at: Uncertain, of: Callable[[float], float]) -> Uncertain:
        """Something lagged by it, with its uncertainty, by a central difference.

        Args:
            at: The thing lagged by `value`.
            of: The same as a plain number of τ in s.
        """
        step = STEP * self.value
        slope = (of(self.value + step) - of(self.value - step)) / (2 * step)
        return deferred(at.x, ((1.0, at), (slope, self.off)))


@dataclass(frozen=True)
class Record:
    """A channel that was read at some times and lies on straight lines between.

    Attributes:
        times: s, ascending.
        values: One a time.
    """

    times: tuple[float, ...]
    values: tuple[Uncertain, ...]

    @cached_property
    def plain(self) -> tuple[float, ...]:
        """The values as plain numbers."""
        return tuple(value.x for value in self.values)

    @classmethod
    def of(cls, times: Sequence[float], cells: Cells) -> Record:
        """The readings that there are."""
        known = [(time, cell) for time, cell in zip(times, cells, strict=True) if cell is not None]
        return cls(tuple(time for time, _ in known), tuple(cell for _, cell in known))

    @classmethod
    def constant(cls, times: Sequence[float], value: Uncertain) -> Record:
        """One value throughout."""
        return cls((times[0], times[-1]), (value, value)) if len(times) > 1 else cls((times[0],), (value,))

    def at(self, time: float) -> Uncertain:
        """The record itself, at a time that it covers."""
        if time in self.times:
            return self.values[self.times.index(time)]
        return weighted(lag_weights(self.times, 0.0, time), self.values)

    def wandering(self, ledger: Ledger, key: Key, until: float) -> Uncertain:
        """Of the air: what its going up and down leaves in a rise at a time, an error of the run in K."""
        read = [(at, value.x) for at, value in zip(self.times, self.values, strict=True) if at <= until]
        key = (*key, f"{until:g} s")
        return wandering(ledger, key, [at for at, _ in read], [value for _, value in read])

    def covers(self, time: float) -> bool:
        """Whether a time lies within the record, which is never extended."""
        return bool(self.times) and self.times[0] <= time <= self.times[-1]

    def lagged(self, time: float, tau: TimeConstant) -> Uncertain:
        """The record as felt with τ, at a time that it covers."""
        weights = lag_weights(self.times, tau.value, time)
        pairs = list(zip(weights, self.values, strict=True))
        at = deferred(math.fsum([weight * value.x for weight, value in pairs]), pairs)
        return tau.carried(at, lambda each: self.plain_series((time,), each)[0])

    def plain_series(self, at: Sequence[float], tau: float) -> tuple[float, ...]:
        """The record as felt with τ, as plain numbers, at ascending times that it covers."""
        return lag_series(self.times, self.plain, tau, at)

    def rms_series(self, at: Sequence[float], tau: float) -> tuple[float, ...]:
        """Of a current: the steady ones that have warmed the item as far, at ascending times."""
        return rms_series(self.times, self.plain, at, tau)

    @property
    def ramp(self) -> float | None:
        """Slope of its least-squares line, in its unit a second; None with fewer than two times."""
        weights = slope_weights(self.times)
        if weights is None:
            return None
        return math.fsum(weight * value.x for weight, value in zip(weights, self.values, strict=True))

    def rms(self, time: float, tau: TimeConstant) -> Uncertain:
        """Of a current: the steady one that has warmed the item as far, at a time."""
        at = formulas.rms_current(self.times, self.values, time, tau.value)
        return tau.carried(at, lambda each: self.rms_series((time,), each)[0])
