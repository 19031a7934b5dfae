"""Measures made of a drop and a current: drop, resistance, impedance, power."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, Literal, TypeAlias

from pydantic import Discriminator, Field, Tag

from generator.records.conductor import Conductor, parse_conductor
from generator.records.schema.base import Record, node_kind
from generator.records.schema.fields import TEXT, Id, Text, Words, parsed
from generator.records.schema.measure import DeclaredSpread, MeasureBase
from generator.records.schema.measured import (
    Coefficient,
    Duration,
    Length,
    PerLength,
    Time,
    Voltage,
    default_of,
)
from generator.records.schema.reads import Reads

Supply = Literal["dc", "ac in phase", "ac"]
"""What the current is, and which part of an alternating voltage was read."""

ConductorName = Annotated[Conductor, Reads("a conductor", parsed(parse_conductor), TEXT)]


class Leads(Record):
    """Conductor between the probe points that is not the part: its drop is taken off.

    Of several ways to know it, the first of these that a run has: controls of the same length, the reel as
    measured, controls of another length, the conductor's name.
    """

    length: Length = Field(description="how much of it lies between the probe points, both sides together")
    within: Length = Field(description="how far off that length may be in a run")
    control: Id | None = Field(None, description="name of the control, best measured over the same length")
    per_metre: PerLength | None = Field(None, description="resistance of a metre of the reel, measured")
    per_metre_within: PerLength | None = Field(None, description="how far off that may be")
    conductor: ConductorName | None = Field(
        None, description="what it is, as `4 mm2 class 5` or `12 AWG stranded`; by its area alone it is rough"
    )


class StatedCoefficient(Record):
    """Temperature coefficient of resistance at 20 °C."""

    value: Coefficient = Field(description="the coefficient, as `0.0035 /K`")
    within: Coefficient = Field(description="half-width of what it may be")
    because: Text = Field(description="where it comes from")


LeadsSpec = Annotated[
    Annotated[Words[Literal["none", "included"]], Tag("scalar")] | Annotated[Leads, Tag("mapping")],
    Discriminator(node_kind),
]
CoefficientSpec = Annotated[
    Annotated[Words[Literal["assembly", "copper"]], Tag("scalar")]
    | Annotated[StatedCoefficient, Tag("mapping")],
    Discriminator(node_kind),
]


class ElectricalBase(MeasureBase):
    """What all of them have."""

    supply: Words[Supply] = Field(
        description="`dc`; `ac in phase` where only the voltage in phase with the current was read; else `ac`"
    )
    leads: LeadsSpec = Field(
        description="conductor between the probe points, which is taken off; else `none`, or `included`"
    )
    at: Duration | None = Field(None, description="of readings over time, the time mark")
    within: Time = Field(
        default_factory=default_of("30 s", "time"), description="how far off the mark a reading may lie"
    )
    point: Id | None = Field(None, description="the point whose temperature is the part's")
    emf: Voltage | None = Field(
        None, description="how much thermal EMF may be in a drop that was not read with the current reversed"
    )
    better: Words[Literal["higher", "lower"]] = Field("lower", description="which way is better")
    spread: DeclaredSpread | None = Field(None, description="declared spread between pieces")


class DropMeasure(ElectricalBase):
    """Voltage lost across a part at the set current."""

    kind: Literal["drop"]


class ResistanceMeasure(ElectricalBase):
    """Resistance of a part: drop by current, or as a meter tells it."""

    kind: Literal["resistance"]
    coefficient: CoefficientSpec | None = Field(
        None,
        description="by which it is told for 20 °C: `assembly`, `copper`, or stated; left out, it is not",
    )


class ImpedanceMeasure(ElectricalBase):
    """Alternating voltage by current, whatever their phase: not a resistance."""

    kind: Literal["impedance"]


class PowerMeasure(ElectricalBase):
    """Heat that a part makes at the set current."""

    kind: Literal["power"]


ElectricalMeasure: TypeAlias = DropMeasure | ResistanceMeasure | ImpedanceMeasure | PowerMeasure

Mode = Literal["dc", "ac"]
"""What a range of a meter reads: direct or alternating."""

OF_A_MODE = frozenset({"voltage", "current"})
"""Quantities that are read as the one or the other."""


def mode_of(measures: Iterable[object]) -> Mode | None:
    """What drop and current of a method's runs are; None where no measure says, or they say unlike things."""
    said: set[Mode] = {
        "dc" if each.supply == "dc" else "ac" for each in measures if isinstance(each, ElectricalBase)
    }
    return said.pop() if len(said) == 1 else None


AT_THE_SET_CURRENT = frozenset({"drop", "power"})
"""Kinds whose figures are told at the set current: without one no two could be compared."""

ELECTRICAL: dict[str, str] = {
    "drop": "voltage",
    "resistance": "resistance",
    "impedance": "resistance",
    "power": "power",
}
"""What the figure of each kind is: one of `units.QUANTITIES`."""
