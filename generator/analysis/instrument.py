"""What a stated accuracy makes of an indication: the inputs of an instrument's and a probe's error.

An accuracy ± (a % of reading + b + d digits) is taken as a gain error and an offset error, each an input of
its own. Of each stated half-width a the part `unshared`·a is new in each run and a·√(1 − unshared²) is common
to every reading of the same sensor, so that the whole keeps its variance a²/3.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.accuracy import ErrorSpec, ProbeSpec
from generator.analysis.linear import deferred
from generator.analysis.split import Split, split, takes_for_granted
from generator.analysis.uncertainty import Each, Input, Key, Ledger, Uncertain, rectangle, scatter

Part = Literal["gain", "offset"]
PARTS: tuple[Part, Part] = ("gain", "offset")
"""Of a stated accuracy."""


@dataclass(frozen=True)
class Reading:
    """Which reading an error belongs to.

    Attributes:
        sensor: Everything that must agree for an error to be shared: instrument, range, calibration in force,
            channel and probe.
        quantity: What was read ("ambient", "temperature@body").
        run: Id of the run.
        number: Its number among the run's readings of that quantity.
        apart: Within what the error of an instrument that cancels nothing is still one error (the item), as
            if every item had a meter of its own; the run where empty.
    """

    sensor: Key
    quantity: str
    run: str
    number: int
    apart: str = ""


@dataclass(frozen=True)
class Sensor:
    """A sensor in one run: the errors that its readings there share, and what is new in each.

    Attributes:
        gain: Error in proportion to the indication.
        offset: Fixed error, in the unit of the indication.
        noise: What is new in each reading; None where the instrument states nothing of it.
        place: Run and quantity; with the number of a reading they stand behind the keys of its noise.
    """

    gain: Uncertain
    offset: Uncertain
    noise: Each | None
    place: Key

    def measured(self, indication: float, number: int, besides: Sequence[Uncertain] = ()) -> Uncertain:
        """The quantity behind an indication, with every error of the instrument.

        Args:
            indication: In the unit of its errors; a temperature in °C.
            number: Its number among the run's readings of that quantity.
            besides: Errors of what stands before the instrument, as a probe's.
        """
        terms = [(indication, self.gain), (1.0, self.offset)]
        for each in besides:
            indication += each.x
            terms.append((1.0, each))
        if self.noise is not None:
            terms.append((1.0, self.noise.of((*self.place, str(number)))))
        return deferred(indication, terms)


def sensor(ledger: Ledger, spec: ErrorSpec, reading: Reading) -> Sensor:
    """The sensor of a reading in its run.

    Args:
        ledger: Where the inputs are made.
        spec: Stated accuracy of the range in use.
        reading: Any reading of it; its number counts for nothing.
    """
    place = (reading.run, reading.quantity)
    if not spec.cancels:
        gain, offset = (_apart(ledger, part, spec, reading) for part in PARTS)
        return Sensor(gain, offset, None, place)

    def made() -> tuple[Split, Split, Each | None]:
        gain, offset = (_split_of(ledger, part, spec, reading.sensor) for part in PARTS)
        noise = _noise(spec, reading.sensor)
        return gain, offset, ledger.each(noise) if noise else None

    of_gain, of_offset, noise = ledger.once(("sensor", reading.sensor, spec), made)
    return Sensor(of_gain.of(reading.run), of_offset.of(reading.run), noise, place)


def measured(
    ledger: Ledger, indication: float, spec: ErrorSpec, reading: Reading, besides: Sequence[Uncertain] = ()
) -> Uncertain:
    """The quantity behind a single indication, with every error of the instrument.

    Args:
        ledger: Where the inputs are made.
        indication: In `spec.unit`; a temperature in °C.
        spec: Stated accuracy of the range in use.
        reading: Which reading it is.
        besides: Errors of what stands before the instrument, as a probe's.

    Returns:
        The indication with gain, offset, resolution (± half a step, rectangular, GUM F.2.2.1) and
        repeatability (normal) as inputs.
    """
    return sensor(ledger, spec, reading).measured(indication, reading.number, besides)


@dataclass(frozen=True)
class Probe:
    """A probe in one run.

    Attributes:
        spec: Its tolerance.
        error: Its error, at the fixed part of the tolerance in K; without a fixed part a share.
        half_width: What that error's half-width is, in its own unit.
    """

    spec: ProbeSpec
    error: Uncertain
    half_width: float

    def at(self, celsius: float) -> Uncertain:
        """Its error in K at a temperature in °C."""
        if self.half_width == 0:
            return self.error
        factor = self.spec.half_width(celsius) / self.half_width
        return self.error if factor == 1 else deferred(0.0, [(factor, self.error)])


def probe_of(ledger: Ledger, spec: ProbeSpec, probe: Key, run: str) -> Probe:
    """A probe in a run: its error is shared by every reading of that probe and by no other probe.

    Args:
        ledger: Where the inputs are made.
        spec: Its tolerance.
        probe: Identity of the probe.
        run: Id of the run.
    """
    # One input a probe, in K at the fixed part of the tolerance, so that it is the same error at any
    # temperature; where the tolerance has no fixed part, the share itself.
    unit, half_width = ("K", spec.absolute) if spec.absolute > 0 else ("1", spec.relative)

    def made() -> Split:
        words = f"{spec.name}: tolerance"
        whole = rectangle((*probe, "tolerance"), words, half_width, unit, "shared", source=spec.source)
        return split(ledger, whole, spec.unshared, spec.assumed)

    return Probe(spec, ledger.once(("probe", probe, spec), made).of(run), half_width)


def probe_error(ledger: Ledger, celsius: float, spec: ProbeSpec, probe: Key, run: str) -> Uncertain:
    """Error in K of a probe at one temperature in °C; the rest is as in `probe_of`."""
    return probe_of(ledger, spec, probe, run).at(celsius)


def _stated(part: Part, spec: ErrorSpec, key: Key, words: str = "") -> Input | None:
    """One part of an accuracy as a whole; None where it is not stated."""
    half_width, unit = (spec.relative, "1") if part == "gain" else (spec.offset, spec.unit)
    if half_width <= 0:
        return None
    u = half_width / (math.sqrt(3) if spec.distribution == "rectangular" else spec.coverage_factor)
    label, assumed = f"{spec.name}: {part}{words}", takes_for_granted(spec.assumed, "shared")
    return Input(key, label, spec.distribution, u, unit, "shared", assumed=assumed, source=spec.source)


def _split_of(ledger: Ledger, part: Part, spec: ErrorSpec, key: Key) -> Split:
    return split(ledger, _stated(part, spec, (*key, part)), spec.unshared, spec.assumed)


def _apart(ledger: Ledger, part: Part, spec: ErrorSpec, reading: Reading) -> Uncertain:
    """An error that cancels nothing: one for all that is read as if by a meter of its own."""
    key = (*reading.sensor, part, reading.quantity, "within", reading.apart or reading.run)
    whole = _stated(part, spec, key, ", not taken as shared")
    return ledger.exact(0.0) if whole is None else ledger.input(whole)


def _noise(spec: ErrorSpec, sensor: Key) -> list[Input]:
    noise = []
    if spec.resolution:
        noise.append(
            rectangle(
                (*sensor, "resolution"),
                f"{spec.name}: resolution",
                spec.resolution / 2,
                spec.unit,
                "reading",
                assumed="resolution" in spec.assumed,
                source=spec.source,
            )
        )
    if spec.repeatability:
        noise.append(
            scatter(
                (*sensor, "repeatability"),
                f"{spec.name}: repeatability",
                spec.repeatability,
                spec.unit,
                "reading",
                assumed="repeatability" in spec.assumed,
                source=spec.source,
            )
        )
    return noise
