"""From a reading in a record to an uncertain number: which meter, range, probe and calibration read it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from generator.analysis.accuracy import UNSHARED, ErrorSpec, ProbeSpec
from generator.analysis.instrument import Probe, Reading, Sensor, probe_of, sensor
from generator.analysis.uncertainty import Key, Ledger, Uncertain
from generator.evaluation.infrared import eye_of
from generator.evaluation.ranges import held_by, range_of, reaches_of, read_as, steadiness
from generator.evaluation.seeing import magnified

if TYPE_CHECKING:
    from generator.records.accuracy import Accuracy
    from generator.records.bench import Bench
    from generator.records.run import Run, Use
    from generator.records.schema.instrument import Instrument, InstrumentRange

UNITS = {
    "temperature": "K",
    "current": "A",
    "voltage": "V",
    "resistance": "Ω",
    "force": "N",
    "mass": "kg",
    "torque": "N·m",
    "length": "m",
    "interval": "K",
    "resistance per length": "Ω/m",
    "power": "W",
    "frequency": "Hz",
    "time": "s",
    "area": "m²",
    "volume": "m³",
    "angle": "rad",
    "ratio": "1",
    "temperature coefficient": "1/K",
    "rate": "1/s",
    "temperature rate": "K/s",
}
"""The unit of an error, by quantity; an indication of temperature is in °C and its error in K."""


@dataclass(frozen=True)
class Indication:
    """One cell of a run.

    Attributes:
        column: Its column, `temperature@body`.
        quantity: What it is: one of `UNITS`.
        value: In the unit of `UNITS`; a temperature in °C.
        last_digit: One step of the last digit of its column as written, in the unit of `UNITS`.
        number: Row it stands in, from 0.
    """

    column: str
    quantity: str
    value: float
    last_digit: float
    number: int


@dataclass(frozen=True)
class Source:
    """A column of a run.

    Attributes:
        column: Its name and point, `temperature@body`.
        quantity: What it is: one of `UNITS`.
        last_digit: One step of its last digit as written, in the unit of `UNITS`.
        table: Which table of the run it is of, where that is not its readings.
    """

    column: str
    quantity: str
    last_digit: float
    table: str = ""


def uncertain(ledger: Ledger, bench: Bench, run: Run, cell: Indication) -> Uncertain:
    """The quantity behind an indication, with every error of its meter and its probe.

    Args:
        ledger: The report's.
        bench: Where the instruments are.
        run: The run that the cell is of.
        cell: The indication.
    """
    source = Source(cell.column, cell.quantity, cell.last_digit)
    return Reader(ledger, bench, run, source).uncertain(cell.value, cell.number)


class Reader:
    """What reads a column of a run, looked up once for all its cells."""

    def __init__(self, ledger: Ledger, bench: Bench, run: Run, source: Source) -> None:
        self._ledger = ledger
        self._source = source
        self._use = run.uses[source.column]
        self._instrument = bench.instruments[self._use.instrument]
        self._calibration = _calibration(self._instrument, run.date)
        self._occasion = occasion_of(bench, run, source.column)
        self._owner = run.item or run.control
        self._reaches = reaches_of(self._instrument, source.quantity, read_as(bench, run, source.quantity))
        self._met: dict[int, tuple[Sensor, Probe | None]] = {}
        self._eye = eye_of(ledger, bench, run, source.column, source.quantity)

    def uncertain(self, value: float, row: int) -> Uncertain:
        """The quantity behind a cell of its column.

        Args:
            value: In the unit of `UNITS`; a temperature in °C.
            row: Row it stands in, from 0.

        Returns:
            It with every error; what an infra-red meter showed as the temperature of the surface behind it.

        Raises:
            NoTemperature: No surface can have made an infra-red meter show that.
        """
        number, found = held_by(self._reaches, value)
        if number not in self._met:
            self._met[number] = self._sensor(number, found), self._probe(found)
        sensor, probe = self._met[number]
        read = sensor.measured(value, row, () if probe is None else (probe.at(value),))
        return read if self._eye is None else self._eye.sees(read)

    def _sensor(self, number: int, found: InstrumentRange) -> Sensor:
        use, source = self._use, self._source
        where: Key = (
            "meter", use.instrument, str(number), self._calibration, use.channel or "", use.probe or ""
        )  # fmt: skip
        reading = Reading(where, f"{source.table}{source.column}", self._occasion, 0, apart=self._owner)
        return sensor(self._ledger, _error(found, use, source, self._calibration), reading)

    def _probe(self, found: InstrumentRange) -> Probe | None:
        use, accuracy = self._use, found.accuracy
        spec = _probe(self._instrument, use)
        if spec is None and accuracy is not None and accuracy.tolerance is not None:
            spec = _tolerance(use.instrument, accuracy)
        if spec is None or self._source.quantity != "temperature":
            return None
        key: Key = ("probe", use.instrument, use.probe or use.channel or "")
        return probe_of(self._ledger, spec, key, self._occasion)


def resolution_of(bench: Bench, run: Run, cell: Indication) -> float:
    """Smallest step of an indication: the range's, or the last digit written where that is coarser."""
    instrument = bench.instruments[run.uses[cell.column].instrument]
    _, found = range_of(instrument, cell.quantity, cell.value, read_as(bench, run, cell.quantity))
    stated = found.resolution.si if found.resolution is not None else 0.0
    return max(stated, cell.last_digit) * magnified(bench, run, cell.column, cell.value)


def occasion_of(bench: Bench, run: Run, column: str) -> str:
    """What errors that are new in each run are new in: a sitting for what its runs share, else the run."""
    sitting = bench.sittings.get(run.sitting)
    return run.sitting if sitting is not None and column in sitting.instruments else run.id


def class_slope(bench: Bench, run: Run, column: str) -> tuple[Key, str, float] | None:
    """A probe's class as a share of the temperature: identity, words, share; None where it states none.

    With the offset taken out by a zero check this is what the class leaves (IEC 60584-1: 0.004·|t|).
    """
    use = run.uses[column]
    spec = _probe(bench.instruments[use.instrument], use)
    if spec is None or spec.relative == 0:
        return None
    return ("probe", use.instrument, use.probe or "", "slope"), spec.name, spec.relative


def _calibration(instrument: Instrument, day: date) -> str:
    """Date of the calibration in force, or a word: a new calibration makes new errors."""
    done = [each.date for each in instrument.calibrations if each.date <= day]
    return max(done).isoformat() if done else "never"


def _error(found: InstrumentRange, use: Use, source: Source, calibration: str) -> ErrorSpec:
    accuracy = found.accuracy
    steady = steadiness(found, source.last_digit)
    assumed = steady.assumed | ({"unshared"} if found.unshared is None else set())
    origin = "maker's figure, never calibrated" if calibration == "never" else f"calibrated {calibration}"
    where = f" {use.channel}" if use.channel else ""
    return ErrorSpec(
        name=f"{use.instrument}{where}",
        unit=UNITS[source.quantity],
        relative=accuracy.percent if accuracy else 0.0,
        absolute=accuracy.units if accuracy else 0.0,
        digits=accuracy.digits if accuracy else 0.0,
        last_digit=found.resolution.si if found.resolution is not None else source.last_digit,
        distribution=accuracy.distribution if accuracy else "rectangular",
        coverage_factor=accuracy.k if accuracy else 2.0,
        resolution=steady.resolution,
        repeatability=steady.repeatability,
        unshared=UNSHARED if found.unshared is None else found.unshared.si,
        assumed=assumed,
        source=origin,
    )


def _probe(instrument: Instrument, use: Use) -> ProbeSpec | None:
    if not use.probe:
        return None
    limit = instrument.probes.get(use.probe)
    return None if limit is None else _tolerance(f"probe {use.probe}", limit)


def _tolerance(name: str, limit: Accuracy) -> ProbeSpec:
    said = limit.tolerance
    if said is None:
        return ProbeSpec(f"{name}, {limit.text}", limit.units, limit.percent, "sum", source="as stated")
    standard = "IEC 60584-1" if said.name.startswith("type") else "IEC 60751"
    words = f"class of {standard}" if "class" in said.name else "as stated"
    return ProbeSpec(f"{name}, {limit.text}", said.fixed, said.share, said.rule, source=words)
