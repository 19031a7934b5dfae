"""A run reduced to one uncertain number, alive: still made of the report's inputs, so that errors cancel."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.fit import HeatingFit
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.conditions import Departure
from generator.evaluation.conductance import Conductance
from generator.evaluation.ends import End
from generator.evaluation.values import Reading, Value
from generator.evaluation.why_not import WhyNot
from generator.evaluation.worked import Reduction, WorkedRise, WorkedSurface
from generator.evaluation.worked_electrical import WorkedElectrical


@dataclass(frozen=True)
class Point:
    """One reading of a series, alive.

    Attributes:
        time: s.
        number: Its figure.
    """

    time: float
    number: Uncertain


@dataclass(frozen=True)
class Lead:
    """A control that is the lead alone.

    Attributes:
        metre: Resistance of a metre at 20 °C, Ω/m, alive.
        length: How long it was, m.
    """

    metre: Uncertain
    length: float


@dataclass(frozen=True)
class Reduced:
    """What a kind of measure makes of a run.

    Attributes:
        number: The figure; None where there is none.
        why_not: Why there is none.
        readings: The reduced readings as plain numbers.
        points: The same, alive; empty for a kind without a series.
        resolution: Smallest step of the figure, in its unit; 0 where not known.
        mean_current: A; None where not read.
        correction: What the correction to the set current added; None without one.
        end: How it ended; None for a kind without a series.
        ambient: The air at the mark, or at the last reading of a run that did not reach it, °C.
        last: Of a run without a figure, its last reading, alive: of a rise, or where a meter's range ended.
            None without one.
        fit: Its own curve; None where none can be fitted.
        ramp: How the air went over the run, least squares, K/s; None with fewer than two readings of it.
        worked: How the figure was worked out; None without one.
        departures: Conditions that were outside the method's tolerances.
        whole: What the run comes to at its method's own mark, where it is compared at another.
        values: Its readings as plain numbers, for a kind without a series.
        by: How they became its figure; None without one.
        lead: Of a control between the probe points, what it has as a lead; None of another run.
        electrical: How a drop, a resistance or a power was worked out; None for another kind.
        seen: How an infra-red reading, at its mark or else its last, became a temperature; else None.
        settled: The rise that its curve settles at, K, alive and without the widening; None without one.
        conductance: Of a power, that over the rise which the same run settles at; None without one.
    """

    number: Uncertain | None
    why_not: WhyNot | None = None
    readings: tuple[Reading, ...] = ()
    points: tuple[Point, ...] = ()
    resolution: float = 0.0
    mean_current: float | None = None
    correction: float | None = None
    end: End | None = None
    ambient: float | None = None
    last: Uncertain | None = None
    fit: HeatingFit | None = None
    ramp: float | None = None
    worked: WorkedRise | None = None
    departures: tuple[Departure, ...] = ()
    whole: Reduced | None = None
    values: tuple[Value, ...] = ()
    by: Reduction | None = None
    lead: Lead | None = None
    electrical: WorkedElectrical | None = None
    seen: WorkedSurface | None = None
    settled: Uncertain | None = None
    conductance: Conductance | None = None
