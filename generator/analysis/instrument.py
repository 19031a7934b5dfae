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

from generator.analysis.linear import linear
from generator.analysis.uncertainty import Input, Key, Ledger, Scope, Uncertain, rectangle, scatter, total

UNSHARED = 0.25
"""Part of a stated half-width that is new in each run where nothing better is known; no source."""


@dataclass(frozen=True)
class ErrorSpec:
    """Stated accuracy of one range of an instrument, in plain numbers of the unit of its indication.

    Attributes:
        name: Words for the budget ("logger-1 CH3").
        unit: Unit of its errors; K for a temperature, whose indications are then °C, since a percentage of a
            temperature in °C has no meaning in K or °F.
        relative: Part in proportion to the indication: 0.005 for 0.5 % of reading.
        absolute: Fixed part, in `unit`.
        digits: Number of digits, each worth `last_digit`.
        last_digit: Value of the last digit of the range, in `unit`.
        distribution: Rectangular, or normal where the statement gives a coverage factor.
        coverage_factor: k of a normal statement; the standard uncertainty is the stated figure over k.
        resolution: Smallest step of the indication, in `unit`; None where not stated.
        repeatability: Standard deviation of repeated indications, in `unit`; None where not stated.
        unshared: Part of the stated half-width that is new in each run, 0 to 1.
        assumed: Names of those of these attributes that are printed defaults.
        source: Where the statement comes from.
    """

    name: str
    unit: str
    relative: float = 0.0
    absolute: float = 0.0
    digits: float = 0.0
    last_digit: float = 0.0
    distribution: Literal["rectangular", "normal"] = "rectangular"
    coverage_factor: float = 2.0
    resolution: float | None = None
    repeatability: float | None = None
    unshared: float = UNSHARED
    assumed: frozenset[str] = frozenset({"unshared"})
    source: str = ""

    def __hash__(self) -> int:
        """Of a few attributes: it is asked for at every reading."""
        return hash((self.name, self.unit, self.relative, self.absolute))

    @property
    def offset(self) -> float:
        """Stated half-width of the fixed part, digits included, in `unit`."""
        return self.absolute + self.digits * self.last_digit

    @property
    def cancels(self) -> bool:
        """Whether an error may be taken as shared: only with a stated resolution or repeatability."""
        return self.resolution is not None or self.repeatability is not None


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
class ProbeSpec:
    """Tolerance of a temperature probe, by its temperature t in °C.

    Thermocouples have the larger of `absolute` and `relative`·|t| (IEC 60584-1), resistance thermometers
    the sum of the two (IEC 60751).

    Attributes:
        name: Words for the budget ("probe k3, type K class 1").
        absolute: K.
        relative: Share of |t|.
        rule: Whether the greater of the two counts, or their sum.
        unshared: Part of the tolerance that is new in each run, 0 to 1.
        assumed: Names of those of these attributes that are printed defaults.
        source: Where the tolerance comes from.
    """

    name: str
    absolute: float
    relative: float = 0.0
    rule: Literal["greater", "sum"] = "greater"
    unshared: float = UNSHARED
    assumed: frozenset[str] = frozenset({"unshared"})
    source: str = ""

    def half_width(self, celsius: float) -> float:
        """Tolerance in K at a temperature in °C."""
        by_reading = self.relative * abs(celsius)
        return max(self.absolute, by_reading) if self.rule == "greater" else self.absolute + by_reading


def limit_of_error(spec: ErrorSpec, indication: float) -> float:
    """The stated limit ± (relative·|indication| + absolute + digits·last digit), in the indication's unit."""
    return spec.relative * abs(indication) + spec.offset


def measured(
    ledger: Ledger, indication: float, spec: ErrorSpec, reading: Reading, besides: Sequence[Uncertain] = ()
) -> Uncertain:
    """The quantity behind an indication, with every error of the instrument.

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
    gain, offset = _lasting(ledger, spec, reading)
    terms = [(indication, number) for number in gain]
    terms += [(1.0, number) for number in (*offset, *besides)]
    terms += [(1.0, ledger.input(entry)) for entry in _noise(spec, reading)]
    return linear(indication + math.fsum(each.x for each in besides), terms)


def probe_error(ledger: Ledger, celsius: float, spec: ProbeSpec, probe: Key, run: str) -> Uncertain:
    """Error of a probe in K, shared by every reading of that probe and by no other probe.

    Args:
        ledger: Where the inputs are made.
        celsius: Temperature of the probe, °C.
        spec: Its tolerance.
        probe: Identity of the probe.
        run: Id of the run.
    """
    # One input a probe, in K at the fixed part of the tolerance, so that it is the same error at any
    # temperature; where the tolerance has no fixed part, the share itself.
    unit, half_width = ("K", spec.absolute) if spec.absolute > 0 else ("1", spec.relative)
    if half_width == 0:
        return ledger.exact(0.0)

    def made() -> Uncertain:
        return total(
            [
                ledger.input(
                    rectangle(
                        key,
                        f"{spec.name}: tolerance, {words}",
                        half_width * share,
                        unit,
                        scope,
                        assumed=_assumed(spec.assumed, scope),
                        source=spec.source,
                    )
                )
                for scope, share, key, words in _split(spec.unshared, (*probe, "tolerance"), run)
            ]
        )

    error, factor = ledger.once((spec, probe, run), made), spec.half_width(celsius) / half_width
    return error if factor == 1 else error * factor


Inputs = tuple[Uncertain, ...]


def _lasting(ledger: Ledger, spec: ErrorSpec, reading: Reading) -> tuple[Inputs, Inputs]:
    """Gain and offset error of an instrument, the same for every reading of the run."""

    def made() -> tuple[Inputs, Inputs]:
        gain = _accuracy("gain", spec, reading) if spec.relative > 0 else []
        offset = _accuracy("offset", spec, reading) if spec.offset > 0 else []
        return tuple(map(ledger.input, gain)), tuple(map(ledger.input, offset))

    within = "" if spec.cancels else (reading.quantity, reading.apart)
    return ledger.once((spec, reading.sensor, reading.run, within), made)


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
    place = (reading.run, reading.quantity, str(reading.number))
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
