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
from generator.analysis.uncertainty import (
    EachReading,
    Input,
    Key,
    Ledger,
    Scope,
    Uncertain,
    rectangle,
    scatter,
    total,
)


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
        noise: What is new in each reading; to its keys the number of the reading is added. None where the
            instrument states nothing of it.
    """

    gain: Uncertain
    offset: Uncertain
    noise: EachReading | None

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
            terms.append((1.0, self.noise.of(str(number))))
        return deferred(indication, terms)


def sensor(ledger: Ledger, spec: ErrorSpec, reading: Reading) -> Sensor:
    """The sensor of a reading in its run.

    Args:
        ledger: Where the inputs are made.
        spec: Stated accuracy of the range in use.
        reading: Any reading of it; its number counts for nothing.
    """
    gain = _accuracy("gain", spec, reading) if spec.relative > 0 else []
    offset = _accuracy("offset", spec, reading) if spec.offset > 0 else []
    noise = _noise(spec, reading)
    return Sensor(
        gain=total([*map(ledger.input, gain)]),
        offset=total([*map(ledger.input, offset)]),
        noise=ledger.each_reading(noise) if noise else None,
    )


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
    if half_width == 0:
        return Probe(spec, ledger.exact(0.0), 0.0)
    pieces = [
        rectangle(
            key,
            f"{spec.name}: tolerance, {words}",
            half_width * share,
            unit,
            scope,
            assumed=_assumed(spec.assumed, scope),
            source=spec.source,
        )
        for scope, share, key, words in _split(spec.unshared, (*probe, "tolerance"), run)
    ]
    return Probe(spec, total([*map(ledger.input, pieces)]), half_width)


def probe_error(ledger: Ledger, celsius: float, spec: ProbeSpec, probe: Key, run: str) -> Uncertain:
    """Error in K of a probe at one temperature in °C; the rest is as in `probe_of`."""
    return probe_of(ledger, spec, probe, run).at(celsius)


def _accuracy(part: Literal["gain", "offset"], spec: ErrorSpec, reading: Reading) -> list[Input]:
    half_width, unit = (spec.relative, "1") if part == "gain" else (spec.offset, spec.unit)
    if spec.cancels:
        pieces = _split(spec.unshared, (*reading.sensor, part), reading.run)
    else:
        within = reading.apart or reading.run
        key = (*reading.sensor, part, reading.quantity, "within", within)
        pieces = [("shared", 1.0, key, "not taken as shared")]
    divisor = math.sqrt(3) if spec.distribution == "rectangular" else spec.coverage_factor
    return [
        Input(
            key,
            f"{spec.name}: {part}, {words}",
            spec.distribution,
            half_width * share / divisor,
            unit,
            scope,
            assumed=_assumed(spec.assumed, scope),
            source=spec.source,
        )
        for scope, share, key, words in pieces
    ]


def _split(unshared: float, key: Key, run: str) -> list[tuple[Scope, float, Key, str]]:
    if not 0 <= unshared <= 1:
        raise ValueError(f"{key}: the unshared part is {unshared}, not between 0 and 1")
    parts: list[tuple[Scope, float, Key, str]] = []
    if unshared < 1:
        parts.append(("shared", math.sqrt(1 - unshared**2), key, "common to its runs"))
    if unshared > 0:
        parts.append(("run", unshared, (*key, "run", run), "new in each run"))
    return parts


def _assumed(named: frozenset[str], scope: Scope) -> bool:
    # How an error is split is told at the part that is there because of it.
    return bool(named - {"resolution", "repeatability"} - (frozenset() if scope == "run" else {"unshared"}))


def _noise(spec: ErrorSpec, reading: Reading) -> list[Input]:
    place = (reading.run, reading.quantity)
    noise = []
    if spec.resolution:
        noise.append(
            rectangle(
                (*reading.sensor, "resolution", *place),
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
                (*reading.sensor, "repeatability", *place),
                f"{spec.name}: repeatability",
                spec.repeatability,
                spec.unit,
                "reading",
                assumed="repeatability" in spec.assumed,
                source=spec.source,
            )
        )
    return noise
