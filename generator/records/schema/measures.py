"""What a method measures, a union by `kind`: a new scalar or count is data, a new kind is a class here."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from generator.records.nodes import Mapping, Scalar
from generator.records.schema.base import Record
from generator.records.schema.electrical import (
    ELECTRICAL,
    ElectricalBase,
    ElectricalMeasure,
    PowerMeasure,
)
from generator.records.schema.fields import FromOne, Id, Text, Words
from generator.records.schema.measure import DeclaredSpread, MeasureBase
from generator.records.schema.measured import Duration, Interval, QuantityName, Rate, Time, default_of
from generator.records.schema.told import nearest, problem
from generator.records.units import INTERVAL

HOTTEST = "hottest"
"""In place of a point: the hottest of all points that the method names."""


class Settled(Record):
    """When a run counts as settled."""

    change: Interval = Field(
        default_factory=default_of("2 K", "interval"), description="largest change over the window"
    )
    over: Duration = Field(default_factory=default_of("15 min", "time"), description="length of the window")
    to_come: Interval = Field(
        default_factory=default_of("1 K", "interval"), description="largest rise still to come"
    )


class HeatingMeasure(MeasureBase):
    """Rise above the air at a time mark, from a series of readings."""

    kind: Literal["heating"]
    at: Duration = Field(description="the time mark")
    within: Time = Field(
        default_factory=default_of("30 s", "time"), description="how far off the mark a reading may lie"
    )
    point: Id = Field(description="which point gives the figure, or `hottest`")
    settled: Settled = Field(default_factory=Settled, description="when a run counts as settled")
    worsening: Rate = Field(
        default_factory=default_of("2.5 % per hour", "rate"),
        description="growth of resistance above which a part is getting worse",
    )
    heating: FromOne = Field(1, description="which heating of a piece counts; the first where left out")
    spread: DeclaredSpread | None = Field(None, description="declared spread between pieces")


class ScalarMeasure(MeasureBase):
    """One quantity a run: a force, a resistance, a mass."""

    kind: Literal["scalar"]
    quantity: QuantityName = Field(description="what is measured: force, voltage, …")
    better: Words[Literal["higher", "lower"]] | None = Field(
        None, description="which way is better; left out where neither is"
    )
    reduce: Words[Literal["mean", "max", "min"]] | None = Field(
        None, description="how a run with a table of readings becomes one figure"
    )
    spread: DeclaredSpread | None = Field(None, description="declared spread between pieces")


class CountMeasure(MeasureBase):
    """So many of so many: openings, failures."""

    kind: Literal["count"]
    what: Text = Field(description="what is counted, as `openings after which the lid did not hold`")
    better: Words[Literal["higher", "lower"]] | None = Field("lower", description="which way is better")


class EnduranceMeasure(MeasureBase):
    """How many cycles a piece lasts; one that is whole when the test ends is a survivor."""

    kind: Literal["endurance"]
    cycles: Text = Field(description="what is done again and again, in the plural: openings")
    failure: Text = Field(description="what counts as broken, as `the lid no longer holds`")


class CheckMeasure(MeasureBase):
    """A question that a look answers: yes, no, could not tell."""

    kind: Literal["check"]
    question: Text = Field(description="the question, as a reader would ask it")
    good: Words[Literal["yes", "no"]] | None = Field(
        None, description="the answer one hopes for; left out where neither is better"
    )


AnyMeasure: TypeAlias = (
    HeatingMeasure | ScalarMeasure | ElectricalMeasure | CountMeasure | EnduranceMeasure | CheckMeasure
)
KINDS: tuple[str, ...] = ("heating", "scalar", *ELECTRICAL, "count", "endurance", "check")
"""The kinds of measure, in the order of `AnyMeasure`."""


def quantity_of(measure: AnyMeasure) -> str:
    """What the figure of a measure is: one of `units.QUANTITIES`; empty of what is counted and of a check."""
    if isinstance(measure, ScalarMeasure):
        return measure.quantity
    if isinstance(measure, ElectricalBase):
        return ELECTRICAL[measure.kind]
    return INTERVAL if isinstance(measure, HeatingMeasure) else ""


def typed_quantity(measure: AnyMeasure | None) -> str:
    """What a run may type as one value for a measure: one of `units.QUANTITIES`; empty where it may not.

    A power is worked out of drop and current, never typed.
    """
    if isinstance(measure, ScalarMeasure):
        return measure.quantity
    typed = isinstance(measure, ElectricalBase) and not isinstance(measure, PowerMeasure)
    return quantity_of(measure) if measure is not None and typed else ""


def _kind_known(node: Any) -> Any:
    """Tell of a kind that is missing or unknown, in words that name the others."""
    if not isinstance(node, Mapping):
        return node
    kind = node.get("kind")
    if kind is None:
        raise problem("missing: what kind of measure it is", accepted=KINDS, below="kind")
    if not isinstance(kind, Scalar) or kind not in KINDS:
        found = str(kind) if isinstance(kind, Scalar) else None
        near = nearest(found or "", KINDS)
        what = f"not a kind of measure that there is{near}"
        raise problem(what, found=found, accepted=KINDS, below="kind", place=kind.place)
    return node


Measure = Annotated[AnyMeasure, Field(discriminator="kind"), BeforeValidator(_kind_known)]
