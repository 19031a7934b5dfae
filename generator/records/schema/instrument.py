"""`instruments/<id>.yml`: what a meter states about itself, range by range, and who calibrated it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo

from generator.records.schema.base import FileRecord, Record
from generator.records.schema.days import Day
from generator.records.schema.fields import Id, PartId, Text, Words
from generator.records.schema.measured import (
    End,
    ErrorLimit,
    Percent,
    ProbeTolerance,
    QuantityName,
    SetQuantity,
    Temperatures,
    Width,
)
from generator.records.schema.optics import Infrared
from generator.records.schema.reads import Reads
from generator.records.schema.told import problem


def _never(node: str, _: ValidationInfo) -> str:
    if str(node) == "never":
        return "never"
    what = "only 'never' can stand here; list what was done under `calibrations`"
    raise problem(what, found=str(node), accepted=("calibrations: [{date: 2025-11-03, by: the laboratory}]",))


Never = Annotated[Literal["never"], Reads("never", _never, {"const": "never", "type": "string"})]


class InstrumentRange(Record):
    """One range of a meter. Limits, resolution and repeatability are in the range's own quantity."""

    quantity: QuantityName = Field(description="what the range reads")
    name: Text | None = Field(None, description="the range's name where several read the same")
    from_: End | None = Field(None, description="lower end of the range")
    to: End = Field(description="upper end of the range; above it a reading is a bound, no value")
    accuracy: ErrorLimit | None = Field(
        None, description="as printed: `±(1.5 % + 2 degC)`, `±(0.8 % + 3 digits)`"
    )
    resolution: Width | None = Field(None, description="the step of the last digit")
    repeatability: Width | None = Field(None, description="standard deviation of repeated readings")
    valid_at: Temperatures | None = Field(None, description="the air at which the accuracy holds")
    unshared: Percent | None = Field(
        None, description="share of the accuracy that is new in each run; 25 % where left out"
    )
    mode: Words[Literal["dc", "ac"]] | None = Field(
        None, description="direct or alternating, for electrical ranges"
    )


class Calibration(Record):
    """One calibration: from its date on the errors are new ones."""

    date: Day = Field(description="the day of the calibration")
    by: Text = Field(description="who calibrated")
    certificate: Text | None = Field(None, description="number of the certificate, where there is one")
    due: Day | None = Field(None, description="when the next one is due")


class ReadBeside(Record):
    """What another meter read of the same thing at the same time."""

    instrument: Id = Field(description="id of the other meter")
    channel: PartId | None = Field(None, description="its channel, where it has several")
    read: SetQuantity = Field(description="what it read")


class InstrumentCheck(Record):
    """A check by the reviewer: ice point, a known resistor, a known mass, another meter."""

    date: Day = Field(description="the day of the check")
    what: Text = Field(description="what was checked against what")
    found: Text = Field(description="what was found")
    channel: PartId | None = Field(None, description="which channel of this meter, where it has several")
    read: SetQuantity | None = Field(None, description="what this meter read, beside another")
    beside: ReadBeside | None = Field(None, description="what another meter read of the same thing")


class Instrument(FileRecord):
    """A meter, its ranges, its channels and probes."""

    name: Text = Field(description="what it is, for the page")
    maker: Text | None = Field(None, description="who made it")
    model: Text | None = Field(None, description="model as printed on it")
    serial: Text | None = Field(None, description="serial number; leave it out if it should not be public")
    ranges: tuple[InstrumentRange, ...] = Field(min_length=1, description="its ranges, one or more")
    probes: dict[PartId, ProbeTolerance] = Field(
        default_factory=dict, description="probe id to tolerance, as `k1: type K class 1`"
    )
    channels: dict[PartId, PartId] = Field(
        default_factory=dict, description="channel to the probe plugged into it, as `CH1: k1`"
    )
    infrared: Infrared | None = Field(None, description="for an infra-red thermometer or camera")
    calibrated: Never | None = Field(None, description="`never` where it never was; else give `calibrations`")
    calibrations: tuple[Calibration, ...] = Field((), description="its calibrations, oldest first")
    checks: tuple[InstrumentCheck, ...] = Field((), description="checks by the reviewer")
    notes: Text | None = Field(None, description="anything a reader should know")
    corrects: Id | None = Field(
        None, description="the meter whose record was wrong, in whose place it is used"
    )
    because: Text | None = Field(None, description="what was wrong with that record")

    def range_of(self, quantity: str, mode: str | None = None) -> tuple[InstrumentRange, ...]:
        """Its ranges that read `quantity`, in the order of the record.

        Args:
            quantity: What is read.
            mode: `dc` or `ac`, to leave out ranges that say the other; None for all.
        """
        return tuple(
            each
            for each in self.ranges
            if each.quantity == quantity and (mode is None or each.mode in {None, mode})
        )
