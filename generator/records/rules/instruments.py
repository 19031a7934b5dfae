"""Instruments: ranges that have a width, channels with probes that exist, calibrations in order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from generator.fault import Fault
from generator.records.library import Library
from generator.records.rules.common import absent, plainly, twice
from generator.records.schema.instrument import Instrument, InstrumentCheck, InstrumentRange
from generator.records.units import TEMPERATURE


def check(library: Library) -> Iterator[Fault]:
    """Everything that one instrument's record alone can be wrong in."""
    for instrument in library.instruments.values():
        yield from _ranges(instrument)
        yield from _channels(instrument)
        yield from _temperatures(instrument)
        yield from _calibrations(instrument)
        for number, each in enumerate(instrument.checks):
            yield from _beside(instrument, number, each, library)


def _ranges(instrument: Instrument) -> Iterator[Fault]:
    for number, _ in twice(_sort(each) for each in instrument.ranges):
        yield instrument.fault(("ranges", number), "this range is there twice; readings could be of either")
    for number, stated in enumerate(instrument.ranges):
        path = ("ranges", number)
        if stated.from_ is not None and not stated.from_.si < stated.to.si:
            yield instrument.fault(
                (*path, "to"), "the range does not end above where it begins", stated.to.text
            )
        by_probe = stated.quantity == TEMPERATURE and instrument.probes
        if stated.accuracy is None and not by_probe:
            what = (
                "missing: as the handbook prints it; without it no reading of this range has an uncertainty"
            )
            yield instrument.fault(
                (*path, "accuracy"), what, None, ("±(1.5 % + 2 degC)", "±(0.8 % + 3 digits)")
            )
        elif stated.accuracy is not None and stated.accuracy.digits and stated.resolution is None:
            what = "missing: the accuracy counts digits, so the step of the last digit is needed"
            yield instrument.fault((*path, "resolution"), what)


def _sort(stated: InstrumentRange) -> str:
    low = stated.from_.si if stated.from_ else ""
    return f"{stated.quantity} {stated.mode} {low} {stated.to.si}"


def _temperatures(instrument: Instrument) -> Iterator[Fault]:
    """Probes and optics belong to a meter that reads temperatures."""
    if instrument.range_of(TEMPERATURE):
        return
    for key, said in (("probes", instrument.probes), ("infrared", instrument.infrared)):
        if said:
            yield instrument.fault_of_key((key,), "this is for temperatures, and no range here reads them")


def _channels(instrument: Instrument) -> Iterator[Fault]:
    for channel, probe in instrument.channels.items():
        if probe not in instrument.probes:
            place = instrument.place_of("channels", channel)
            yield absent(
                "this instrument has no probe", probe, instrument.probes, place, f"channels.{channel}"
            )
    names = tuple(instrument.channels)
    for number, probe in twice(instrument.channels.values()):
        first = next(each for each in names if instrument.channels[each] == probe)
        what = f"this probe is plugged into '{first}' too; each probe has an id of its own"
        yield instrument.fault(("channels", names[number]), what, probe)


def _calibrations(instrument: Instrument) -> Iterator[Fault]:
    if instrument.calibrated and instrument.calibrations:
        what = "`calibrated: never` and `calibrations` exclude each other; leave out the one that is not so"
        yield instrument.fault_of_key(("calibrated",), what)
    if not instrument.calibrated and not instrument.calibrations:
        what = "missing: `calibrated: never`, or `calibrations` with their dates"
        yield instrument.fault(("calibrations",), what)
    for number, (earlier, later) in enumerate(pairwise(instrument.calibrations)):
        if not earlier.date < later.date:
            what = f"calibrations stand in order of date; {earlier.date} stands before this one"
            yield instrument.fault(("calibrations", number + 1, "date"), what, str(later.date))
    for number, each in enumerate(instrument.calibrations):
        if each.due is not None and not each.date < each.due:
            what = "due before the calibration itself"
            yield instrument.fault(("calibrations", number, "due"), what, str(each.due))


def _beside(instrument: Instrument, number: int, check: InstrumentCheck, library: Library) -> Iterator[Fault]:
    """A check beside another meter: both readings, of one quantity, by meters that read it."""
    path, beside = ("checks", number), check.beside
    if (check.read is None) != (beside is None):
        missing = "beside" if beside is None else "read"
        what = "missing: of two meters side by side both readings are told, `read` and `beside`"
        yield instrument.fault((*path, missing), what)
    if check.read is None or beside is None or library.is_broken("instruments", beside.instrument):
        return
    if check.read.quantity != beside.read.quantity:
        what = f"not what this meter read, {plainly(check.read.quantity)}"
        yield instrument.fault((*path, "beside", "read"), what, beside.read.text)
        return
    other = library.instruments.get(beside.instrument)
    where = (*path, "beside", "instrument")
    if other is None:
        place = instrument.place_of(*where)
        known = library.instruments
        yield absent("there is no instrument", beside.instrument, known, place, instrument.path_of(*where))
        return
    if other.id == instrument.id:
        what = "a meter beside itself: what its channels share cannot be told; name another meter"
        yield instrument.fault(where, what, beside.instrument)
        return
    sides = (
        (instrument, check.channel, (*path, "channel"), (*path, "read")),
        (other, beside.channel, (*path, "beside", "channel"), (*path, "beside", "read")),
    )
    for meter, channel, at, read in sides:
        if channel is not None and channel not in meter.channels:
            place, dotted = instrument.place_of(*at), instrument.path_of(*at)
            yield absent(f"'{meter.id}' has no channel", channel, meter.channels, place, dotted)
        elif not meter.range_of(check.read.quantity):
            what = f"no range of '{meter.id}' reads {plainly(check.read.quantity)}"
            yield instrument.fault(read, what)
