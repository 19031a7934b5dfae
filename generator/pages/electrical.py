"""How figures of a drop, a resistance, an impedance or a power are to be read, and how a method has them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from generator.evaluation.findings import MeasureFinding
from generator.evaluation.kinds.electrical import coefficient_of
from generator.evaluation.kinds.leads import of_conductor
from generator.evaluation.worked_electrical import LeadBy, TakenOff
from generator.pages import addresses
from generator.pages.format import (
    Both,
    Span,
    amperes,
    as_printed,
    celsius_span,
    condition,
    minutes,
    quantity,
    significant,
)
from generator.records.quantity import parse_quantity
from generator.records.schema.electrical import (
    AT_THE_SET_CURRENT,
    ElectricalBase,
    ElectricalMeasure,
    Leads,
)
from generator.records.schema.method import Method, Toleranced

MILLI = 1e3


@dataclass(frozen=True)
class LeadView:
    """A lead that is taken off: how its resistance is known, how long it is, and its name.

    `scaled` says whether its controls were of another length.
    """

    by: LeadBy
    length: Both
    name: Both
    scaled: bool = False


@dataclass(frozen=True)
class ElectricalView:
    """How figures of one measure are to be read.

    Attributes:
        kind: drop, resistance, impedance or power.
        supply: dc, ac in phase or ac.
        leads: What was taken off, each way once; none where nothing was.
        included: Whether a lead that is not known is in the figure.
        runs: Runs that have a figure.
        reversed: Runs of these in which each drop was read both ways.
        read: Runs of these in which a meter told the resistance itself.
        emf: The largest thermal EMF that went out so, in mV; empty without.
        emf_allowed: What may be in the others, in mV; empty where the method does not say.
        coefficient: By which they are told for 20 °C, 1/K; empty where they are not.
        off: How far off that may be, 1/K; empty where it is taken as known.
        assumed: Whether that is the default for assemblies.
        warm: How warm the parts were; None where not known.
        current: The set current that they are told at; empty for a kind that is told at none.
        at: The time mark that they were read at; empty without one.
    """

    kind: str
    supply: str
    leads: tuple[LeadView, ...]
    included: bool
    runs: int
    reversed: int
    read: int
    emf: str
    emf_allowed: str
    coefficient: str
    off: str
    assumed: bool
    warm: Span | None
    current: str
    at: str = ""


@dataclass(frozen=True)
class ElectricalRule:
    """How a version of a method measures one.

    Attributes:
        anchor: Of the measure on the page.
        name: Its name.
        view: The same as beside figures, without what only runs tell.
        at: The time mark; empty without.
        within: How far off it a reading may lie; empty without a mark.
        point: The point whose temperature is the part's; empty without.
        off: How far off the length of lead may be; None without one.
    """

    anchor: Markup
    name: str
    view: ElectricalView
    at: str
    within: str
    point: str
    off: Both | None


def electrical_view(measure: MeasureFinding, names: Mapping[str, str]) -> ElectricalView | None:
    """How the figures of a measure are to be read; None for another kind, and where no run has a figure."""
    pieces = (piece for item in measure.items for piece in item.pieces)
    runs = [run.electrical for piece in pieces for run in piece.runs if run.electrical and run.figure]
    if not runs:
        return None
    first = runs[0]
    warm = [run.temperature for run in runs if run.temperature is not None]
    emfs = [abs(run.emf) for run in runs if run.emf is not None]
    return ElectricalView(
        first.kind,
        first.supply,
        _leads((run.lead for run in runs), names),
        any(run.included for run in runs),
        len(runs),
        sum(run.reversed for run in runs),
        sum(not run.pairs for run in runs),
        significant(max(emfs) * MILLI, 2) if emfs else "",
        _milli(first.emf_allowed),
        _per_kelvin(first.coefficient),
        _per_kelvin(first.within),
        first.assumed,
        celsius_span(min(warm), max(warm)) if warm else None,
        amperes(first.set_current),
        minutes(measure.own_mark) if measure.own_mark is not None else "",
    )


def electrical_rules(method: Method) -> tuple[ElectricalRule, ...]:
    """How a method measures each of its own."""
    asked = method.conditions.get("current")
    current = asked.value.si if isinstance(asked, Toleranced) else None
    measures = (each for each in method.measures if isinstance(each, ElectricalBase))
    return tuple(_rule(each, current) for each in measures)


def _rule(measure: ElectricalMeasure, current: float | None) -> ElectricalRule:
    leads = measure.leads if isinstance(measure.leads, Leads) else None
    alpha, _ = coefficient_of(measure) or (None, "")
    view = ElectricalView(
        measure.kind,
        measure.supply,
        tuple(_ways(leads)) if leads is not None else (),
        measure.leads == "included",
        0,
        0,
        0,
        "",
        _milli(measure.emf.si if measure.emf is not None else None),
        _per_kelvin(alpha.value if alpha else None),
        _per_kelvin(alpha.half_width if alpha else None),
        alpha is not None and alpha.assumed,
        None,
        amperes(current) if measure.kind in AT_THE_SET_CURRENT else "",
        minutes(measure.at.si) if measure.at is not None else "",
    )
    return ElectricalRule(
        addresses.anchor(f"_measure-{measure.id}"),
        measure.name or measure.id,
        view,
        minutes(measure.at.si) if measure.at is not None else "",
        quantity(measure.within).metric if measure.at is not None else "",
        measure.point or "",
        quantity(leads.within) if leads is not None else None,
    )


def _leads(taken: Iterable[TakenOff | None], names: Mapping[str, str]) -> tuple[LeadView, ...]:
    found = (
        LeadView(each.by, _length(each.length), _name(each, names), bool(each.over) and not each.same_length)
        for each in taken
        if each is not None
    )
    return tuple(dict.fromkeys(found))


def _name(lead: TakenOff, names: Mapping[str, str]) -> Both:
    if lead.by == "control":
        return Both(names.get(lead.source, lead.source))
    return Both(as_printed(lead.source)) if lead.by == "reel" else condition(lead.source)


def _ways(leads: Leads) -> Iterable[LeadView]:
    """Every way that a method knows its lead by, best first."""
    length = quantity(leads.length)
    if leads.control is not None:
        yield LeadView("control", length, Both(leads.control.replace("-", " ")))
    if leads.per_metre is not None:
        yield LeadView("reel", length, Both(as_printed(leads.per_metre.text)))
    if leads.conductor is not None:
        yield LeadView(of_conductor(leads.conductor)[0], length, condition(leads.conductor.text))


def _per_kelvin(value: float | None) -> str:
    """In 1/K; empty for none."""
    return significant(value, 3) if value else ""


def _length(metres: float) -> Both:
    return quantity(parse_quantity(f"{significant(metres * MILLI, 4)} mm", "length"))


def _milli(volts: float | None) -> str:
    return "" if volts is None else significant(volts * MILLI, 2)
