"""Which range of a meter a reading stands in, and how steady the meter says that range is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.noise import reading_noise
from generator.records.schema.electrical import OF_A_MODE, mode_of

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.run import Run
    from generator.records.schema.electrical import Mode
    from generator.records.schema.instrument import Instrument, InstrumentRange


@dataclass(frozen=True)
class Steadiness:
    """What makes readings of one thing differ, in the unit of the range (of temperatures in K).

    Attributes:
        resolution: Smallest step; None where the range states neither.
        repeatability: Standard deviation of repeated readings; None where it states neither.
        assumed: Which of the two is taken, because the range states the other alone.
    """

    resolution: float | None
    repeatability: float | None
    assumed: frozenset[str]

    @property
    def noise(self) -> float | None:
        """Standard deviation of one reading; None where the range states nothing of it."""
        if self.resolution is None or self.repeatability is None:
            return None
        return reading_noise(self.resolution, self.repeatability)


def range_of(
    instrument: Instrument, quantity: str, value: float, mode: Mode | None = None
) -> tuple[int, InstrumentRange]:
    """Number and range that a reading stands in; the last of its quantity where it is beyond them all.

    Args:
        instrument: The meter.
        quantity: What was read.
        value: In SI; a temperature in °C.
        mode: Whether it was read as direct or alternating; None where nothing says.
    """
    return held_by(reaches_of(instrument, quantity, mode), value)


def read_as(bench: Bench, run: Run, quantity: str) -> Mode | None:
    """Whether a quantity of a run was read as direct or alternating; None where its method does not say."""
    if quantity not in OF_A_MODE:
        return None
    return mode_of(bench.methods[run.method][run.version].measures)


Reach = tuple[float, float, int, "InstrumentRange"]
"""Lower and upper end in SI, number, and the range."""


def reaches_of(instrument: Instrument, quantity: str, mode: Mode | None = None) -> tuple[Reach, ...]:
    """The ranges of a quantity with their ends, in the order of the record, without those of another mode."""
    held = instrument.range_of(quantity, mode)
    return tuple(
        (each.from_.si if each.from_ is not None else float("-inf"), each.to.si, number, each)
        for number, each in enumerate(instrument.ranges)
        if any(each is one for one in held)
    )


def held_by(reaches: Sequence[Reach], value: float) -> tuple[int, InstrumentRange]:
    """Number and range that hold a value in SI; the last where it is beyond them all."""
    for low, high, number, each in reaches:
        if low <= value <= high:
            return number, each
    *_, number, last = reaches[-1]
    return number, last


def steadiness(found: InstrumentRange, last_digit: float) -> Steadiness:
    """What a range states of its steadiness; of two figures the one not stated is taken as one last digit.

    Args:
        found: The range.
        last_digit: One step of the last digit as the readings are written, in SI.
    """
    resolution = found.resolution.si if found.resolution is not None else None
    repeatability = found.repeatability.si if found.repeatability is not None else None
    if resolution is None and repeatability is not None:
        return Steadiness(last_digit, repeatability, frozenset({"resolution"}))
    if repeatability is None and resolution is not None:
        return Steadiness(resolution, resolution, frozenset({"repeatability"}))
    return Steadiness(resolution, repeatability, frozenset())
