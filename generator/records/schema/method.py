"""`methods/<id>/<version>.yml`: a numbered procedure, frozen once a published edition uses it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag

from generator.records.schema.base import FileRecord, Record, node_kind
from generator.records.schema.fields import Above, FileName, FromOne, Id, RunName, Text, Words
from generator.records.schema.measured import (
    Duration,
    Interval,
    Leak,
    Length,
    Percent,
    RangeOrText,
    SetQuantity,
    Temperature,
    Times,
    WidthOrPercent,
)
from generator.records.schema.measures import AnyMeasure, Measure
from generator.records.schema.settings import ReferenceAmbient

Hazard = Literal["extra-low voltage", "mains", "overload", "mechanical", "chemical"]


class Toleranced(Record):
    """A condition that is a quantity with a tolerance."""

    value: SetQuantity = Field(description="what is set")
    within: WidthOrPercent = Field(description="how far off it may be, in percent or in the same unit")


ConditionSpec = Annotated[
    Annotated[Toleranced, Tag("mapping")] | Annotated[RangeOrText, Tag("scalar")],
    Discriminator(node_kind),
]
"""What a method asks of a condition: quantity ± within, a range, or exact text."""


class Point(Record):
    """A place where a temperature is read."""

    where: Text = Field(description="where on the part, so that another finds it")
    photo: FileName | None = Field(None, description="a photo that shows it")
    held_by: Text = Field(description="what holds the probe: cement, tape, clamp")
    wire: Length | None = Field(None, description="diameter of the probe's wire")
    reads_low_by_at_most: Leak = Field(
        description="how much the probe may lead away; no probe leads away nothing"
    )


class DeclaredTau(Record):
    """Time constant that stands in where neither item nor control gives one."""

    value: Duration = Field(description="the time constant")
    within: Duration = Field(description="half-width of what it may be")
    because: Text = Field(description="where it comes from")


class Exponent(Record):
    """How the rise goes with the current: rise ∝ current^value."""

    value: Above = Field(description="2 for heat by resistance alone")
    within: Above = Field(description="half-width of what it may be")
    because: Text | None = Field(None, description="where it comes from")


class Air(Record):
    """What the method takes for granted where the air was not read each time."""

    single_value_within: Interval | None = Field(
        None, description="how far the air may have been from a single value"
    )
    drift_within: Interval | None = Field(
        None, description="how far the air may have drifted since a first reading"
    )


class SlowPart(Record):
    """Share of the settled rise that a run of this length cannot see."""

    share: Percent = Field(description="the share, in percent of the rise")
    run: RunName = Field(description="the long run of the rig that shows it")


class Step(Record):
    """One step of the procedure; its id is its address on the page."""

    id: Id = Field(description="its id, kept for ever")
    text: Text = Field(description="what is done")


class Method(FileRecord):
    """A version of a method; the id is its folder's name, the version its file's."""

    title: Text = Field(description="the method in a line, for the page")
    purpose: Text | None = Field(None, description="what it is for")
    apparatus: Text | None = Field(None, description="what it needs")
    hazard: tuple[Words[Hazard], ...] = Field(min_length=1, description="what can hurt, one or more")
    protection: Text | None = Field(
        None, description="how the tester was protected; asked for where mains is a hazard"
    )
    cautions: tuple[Text, ...] = Field((), description="cautions beyond those of the hazards")
    changes: Text | None = Field(
        None, description="what changed since the version before, and whether results agree"
    )
    comparable_with: tuple[FromOne, ...] = Field(
        (), description="earlier versions whose results may stand beside these"
    )
    conditions: dict[Text, ConditionSpec] = Field(
        default_factory=dict, description="what must be so: quantity within a tolerance, range, or exact text"
    )
    schedule: Times | None = Field(None, description="when to read, as `0 2 5 10 20 30 45 60 min`")
    points: dict[Id, Point] = Field(default_factory=dict, description="where temperatures are read")
    stop_limit: Temperature | None = Field(None, description="temperature at which a run is stopped")
    measures: tuple[Measure, ...] = Field(min_length=1, description="what comes out, one or more")
    reference_ambient: ReferenceAmbient | None = Field(
        None, description="the air that temperatures are told for"
    )
    rule: Words[Literal["three outcomes", "four outcomes", "simple"]] = Field(
        "three outcomes", description="the rule of decision against a limit"
    )
    tau: DeclaredTau | None = Field(None, description="declared time constant")
    exponent: Exponent | None = Field(None, description="exponent of the correction to the set current")
    air: Air | None = Field(None, description="what is taken for granted of the air")
    slow_part: SlowPart | None = Field(None, description="from a long run of the rig")
    conditioning: Text | None = Field(
        None, description="what is done to each piece before its first run, as `one hour at 30 A, not read`"
    )
    steps: tuple[Step, ...] = Field((), description="the procedure, step by step")
    control: Id | None = Field(
        None, description="what is run first and last of a day without an item, as `unbroken-cable`"
    )
    cannot_show: tuple[Text, ...] = Field((), description="what the test cannot show")

    @property
    def id(self) -> str:
        """The id: the name of its folder."""
        return super().id.partition("/")[0]

    @property
    def version(self) -> int:
        """The version: the name of its file."""
        return int(super().id.partition("/")[2])

    def measure(self, measure_id: str) -> AnyMeasure | None:
        """The measure of that id, or None."""
        return next((each for each in self.measures if each.id == measure_id), None)
