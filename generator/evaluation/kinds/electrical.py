"""Drop, resistance, impedance, power: what lies between the probe points, less the lead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import electrical as formulas
from generator.analysis.interval import error_of, half_width
from generator.analysis.uncertainty import Uncertain
from generator.analysis.worsening import Coefficient
from generator.evaluation.instruments import UNITS
from generator.evaluation.kinds.drops import Measured, OutOfRange, measured
from generator.evaluation.kinds.leads import LeadNotKnown, lead, metre_of_control
from generator.evaluation.kinds.stated import tolerance_of
from generator.evaluation.kinds.task import NoFigure, Task
from generator.evaluation.kinds.warmth import air, temperature
from generator.evaluation.reduced import Lead, Reduced
from generator.evaluation.values import Value
from generator.evaluation.worked_electrical import TakenOff, WorkedElectrical
from generator.records.schema.electrical import (
    AT_THE_SET_CURRENT,
    ELECTRICAL,
    ResistanceMeasure,
    StatedCoefficient,
)
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.schema.electrical import ElectricalMeasure


@dataclass(frozen=True)
class Part:
    """The part alone.

    Attributes:
        ohms: Ω, alive.
        lead: What was taken off; None where nothing was.
        lead_ohms: The same in Ω, alive.
        temperature: How warm it was, °C; None where not known.
    """

    ohms: Uncertain
    lead: TakenOff | None
    lead_ohms: Uncertain | None
    temperature: Uncertain | None


def unit_of(measure: ElectricalMeasure) -> str:
    """Unit of the figures of a measure."""
    return UNITS[ELECTRICAL[measure.kind]]


def reduce(task: Task[ElectricalMeasure]) -> Reduced:
    """Reduce a run to its drop at the set current, its resistance, its impedance or its power.

    Args:
        task: The run, its method, and what the control brings to it.

    Returns:
        V, Ω or W, the lead taken off as the method says; or why there is none.
    """
    try:
        _refuse(task)
        found = measured(task)
        _held(task, found)
        part = _part(task, found)
    except OutOfRange as out:
        return Reduced(None, out.why, last=_end(task, out.end))
    except NoFigure as none:
        return Reduced(None, none.why)
    except LeadNotKnown:
        return Reduced(None, "no-lead")
    return _figure(task, found, part)


def _refuse(task: Task[ElectricalMeasure]) -> None:
    stopped, at = task.run.stopped, task.measure.at
    if stopped is not None and (at is None or stopped.at.si < at.si):
        raise NoFigure("stopped" if stopped.cause == "item" else "not-finished")
    if task.run.readings is None and task.measure.id not in task.run.values:
        raise NoFigure("no-run")


def _held(task: Task[ElectricalMeasure], found: Measured) -> None:
    """Raise where a current that was used lies outside the method's tolerance."""
    asked = task.method.conditions.get("current")
    if not isinstance(asked, Toleranced):
        return
    back = [pair.back[1] for pair in found.pairs if pair.back is not None]
    currents = [*(pair.current for pair in found.pairs), *back]
    if any(abs(current - asked.value.si) > tolerance_of(asked) for current in currents):
        raise NoFigure("current-outside-tolerance")


def _part(task: Task[ElectricalMeasure], found: Measured) -> Part:
    warmth, around = temperature(task, found.rows), air(task, found.rows)
    taken = lead(task, warmth, around)
    if taken is None:
        return Part(found.ohms, None, None, warmth)
    return Part(found.ohms - taken[0], taken[1], taken[0], warmth)


def _end(task: Task[ElectricalMeasure], end: Measured | None) -> Uncertain | None:
    """The figure where the meter's range ends; None where it is not known."""
    if end is None:
        return None
    try:
        _held(task, end)
        return _figure(task, end, _part(task, end)).number
    except (NoFigure, LeadNotKnown):
        return None


def _figure(task: Task[ElectricalMeasure], found: Measured, part: Part) -> Reduced:
    stated, coefficient = coefficient_of(task.measure), None
    if stated is not None:
        alpha, source = stated
        key = ("temperature coefficient", task.method.id, f"{alpha.value} ± {alpha.half_width}", source)
        coefficient = formulas.temperature_coefficient(task.ledger, key, alpha, source)
    if coefficient is not None and part.temperature is None:
        return Reduced(None, "no-temperature")
    figure = _told(task, part, part.ohms, coefficient)
    return Reduced(
        figure,
        resolution=found.step * (figure.x / part.ohms.x if part.ohms.x else 1.0),
        values=_values(task, found, part, coefficient),
        mean_current=found.current,
        ambient=part.temperature.x if part.temperature is not None else None,
        lead=_as_lead(task, found, part),
        electrical=_worked(task, found, part, coefficient, figure),
    )


def _told(
    task: Task[ElectricalMeasure], part: Part, ohms: Uncertain, coefficient: Uncertain | None
) -> Uncertain:
    """A resistance as the measure tells it: at 20 °C, or as a drop or a power at the set current."""
    if coefficient is not None and part.temperature is not None:
        return formulas.at_20(ohms, part.temperature, coefficient)
    if task.measure.kind == "drop":
        return ohms * _set_current(task)
    return formulas.power(ohms, _set_current(task)) if task.measure.kind == "power" else ohms


def _set_current(task: Task[ElectricalMeasure]) -> float:
    """The method's set current where the figure is told at it, A; else 1, which changes nothing."""
    condition = task.method.conditions.get("current")
    told_at = task.measure.kind in AT_THE_SET_CURRENT and isinstance(condition, Toleranced)
    return condition.value.si if told_at and isinstance(condition, Toleranced) else 1.0


def coefficient_of(measure: ElectricalMeasure) -> tuple[Coefficient, str] | None:
    """α by the method and where it is from; None where a figure is told as warm as the part was."""
    if not isinstance(measure, ResistanceMeasure) or measure.coefficient is None:
        return None
    stated = measure.coefficient
    if isinstance(stated, StatedCoefficient):
        return Coefficient(stated.value.si, stated.within.si, assumed=False), stated.because
    return (formulas.OF_COPPER, "IEC 60028") if stated == "copper" else (Coefficient(), "no source")


def _as_lead(task: Task[ElectricalMeasure], found: Measured, part: Part) -> Lead | None:
    """Of a control, what it has as a lead; None of a piece."""
    if not task.run.control:
        return None
    cold = found.ohms if part.temperature is None else formulas.cool(found.ohms, part.temperature)
    key = (task.run.id, task.measure.id, "lead")
    return metre_of_control(task, formulas.brought(task.ledger, key, cold, "Ω"))


def _values(
    task: Task[ElectricalMeasure], found: Measured, part: Part, coefficient: Uncertain | None
) -> tuple[Value, ...]:
    """What each reading that was used comes to, behind its own row; of a value, the figure itself."""

    def value(ohms: Uncertain) -> Value:
        told = _told(task, part, ohms - (part.lead_ohms or 0.0), coefficient)
        return Value(told.x, half_width(error_of(task.ledger, told)))

    if task.run.readings is None or not found.each:
        return (value(found.ohms),)
    of = {row: value(ohms) for row, ohms in found.each}
    table = task.run.readings
    return tuple(of.get(row) or Value(None, None, table.excluded.get(row, "")) for row in range(table.rows))


def _worked(
    task: Task[ElectricalMeasure],
    found: Measured,
    part: Part,
    coefficient: Uncertain | None,
    figure: Uncertain,
) -> WorkedElectrical:
    measure, stated = task.measure, coefficient_of(task.measure)
    told_at = measure.kind in AT_THE_SET_CURRENT
    return WorkedElectrical(
        kind=measure.kind,
        supply=measure.supply,
        time=found.time,
        pairs=found.pairs,
        between=found.ohms.x,
        lead=part.lead,
        included=measure.leads == "included",
        ohms=part.ohms.x,
        temperature=part.temperature.x if part.temperature is not None else None,
        coefficient=coefficient.x if coefficient is not None else None,
        within=stated[0].half_width if stated is not None else None,
        assumed=stated is not None and stated[0].assumed,
        current=found.current,
        set_current=_set_current(task) if told_at else None,
        emf_allowed=measure.emf.si if measure.emf is not None else None,
        figure=figure.x,
    )
