"""The lead between the probe points: what a run knows of its resistance, best first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import conductors
from generator.analysis import electrical as formulas
from generator.analysis.uncertainty import Key, Uncertain, rectangle
from generator.evaluation.reduced import Lead
from generator.evaluation.worked_electrical import LeadBy, TakenOff

if TYPE_CHECKING:
    from generator.evaluation.kinds.task import Task
    from generator.records.conductor import Conductor
    from generator.records.quantity import Quantity
    from generator.records.schema.electrical import ElectricalMeasure, Leads

ROOM, ROOM_WITHIN = 20.0, 10.0
"""A lead whose temperature nobody read is so warm, and may be off by so much, °C and K; no source."""


@dataclass(frozen=True)
class OfMetre:
    """A metre of lead at 20 °C, alive: how it is known, Ω/m, and what says so."""

    by: LeadBy
    ohms: Uncertain
    source: str


def lead(
    task: Task[ElectricalMeasure], part: Uncertain | None, air: Uncertain | None
) -> tuple[Uncertain, TakenOff] | None:
    """Resistance of the lead as warm as it was, Ω, and how it came about; None where nothing is taken off.

    A control is the lead itself.

    Args:
        task: The run.
        part: How warm the part was, °C; None where not known.
        air: The air, °C; None where not known.
    """
    leads = task.measure.leads
    if isinstance(leads, str) or task.run.control:
        return None
    length = _length(task, leads)
    metre = _metre(task, leads)
    warmth = _warmth(task, part, air)
    ohms = formulas.warm(metre.ohms * length, warmth)
    over = task.given.lead.lengths if metre.by == "control" and task.given.lead is not None else ()
    told = TakenOff(metre.by, length.x, metre.ohms.x, warmth.x, ohms.x, metre.source, over)
    return ohms, told


def metre_of_control(task: Task[ElectricalMeasure], cold: Uncertain) -> Lead | None:
    """What a control says of a metre of its lead; None where the method takes none off.

    Args:
        task: The control's run.
        cold: What was read on it at 20 °C, Ω.
    """
    leads = task.measure.leads
    if isinstance(leads, str):
        return None
    length = length_of(task, leads)
    words = "length of lead between the probe points of a control"
    key = (task.run.id, "lead length of the control", length.text, leads.within.text)
    # What goes into the figures of others is common to them, though new in the control's own run.
    entry = rectangle(key, words, leads.within.si, "m", "shared", source="stated by the method")
    return Lead(cold / task.ledger.input(entry, length.si), length.si)


def length_of(task: Task[ElectricalMeasure], leads: Leads) -> Quantity:
    """How much lead lay between the probe points: what the run says, else the method."""
    return leads.length if task.run.lead is None else task.run.lead


def _length(task: Task[ElectricalMeasure], leads: Leads) -> Uncertain:
    """The probes are set anew in each run, and so is the error of the length."""
    length = length_of(task, leads)
    words = "length of lead between the probe points"
    key = (task.run.id, "lead length", length.text, leads.within.text)
    entry = rectangle(key, words, leads.within.si, "m", "run", source="stated by the method")
    return task.ledger.input(entry, length.si)


def _metre(task: Task[ElectricalMeasure], leads: Leads) -> OfMetre:
    of_control = task.given.lead
    # A control of another length says no more of a metre than the reel does, which was measured for it.
    as_long = of_control is not None and of_control.lengths == (length_of(task, leads).si,)
    if leads.control is not None and of_control is not None and (as_long or leads.per_metre is None):
        return OfMetre("control", of_control.metre, leads.control)
    key: Key = (task.method.id, "metre of lead")
    if leads.per_metre is not None and leads.per_metre_within is not None:
        stated = conductors.PerMetre(leads.per_metre.si, leads.per_metre_within.si, "measured on the reel")
        key = (*key, leads.per_metre.text, leads.per_metre_within.text)
        return OfMetre("reel", formulas.per_metre(task.ledger, key, stated), leads.per_metre.text)
    if leads.conductor is None:
        raise LeadNotKnown
    by, stated = of_conductor(leads.conductor)
    made = formulas.per_metre(task.ledger, (*key, leads.conductor.text), stated, assumed=by == "area")
    return OfMetre(by, made, leads.conductor.text)


class LeadNotKnown(Exception):
    """The control that a lead is known by was not measured, and nothing else says its resistance."""


def of_conductor(conductor: Conductor) -> tuple[LeadBy, conductors.PerMetre]:
    """Resistance of a metre by a conductor's name, and how good that is."""
    if conductor.gauge is not None:
        solid = conductor.make == "solid"
        return "gauge", conductors.of_gauge(conductor.gauge, "solid" if solid else "stranded")
    if not conductor.make:
        return "area", conductors.of_area_alone(conductor.area)
    return "class", conductors.of_named_class(conductor.area, conductor.make)


def _warmth(task: Task[ElectricalMeasure], part: Uncertain | None, air: Uncertain | None) -> Uncertain:
    if part is not None and air is not None:
        return formulas.between(task.ledger, (task.method.id, "lead warmth"), air, part)
    known = part if part is not None else air
    if known is not None:
        return known
    words, key = "temperature of the lead, which was not read", (task.method.id, "lead warmth", "not read")
    entry = rectangle(key, words, ROOM_WITHIN, "K", "shared", assumed=True, source="a room")
    return task.ledger.input(entry, ROOM)
