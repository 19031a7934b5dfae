"""How much the readings of a run scatter by what its meters state: known before anything is evaluated.

Temperatures are in °C and their noise in K, drops in V, currents in A.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.worsening import Coefficient, Electrical, Noise, relative_noise
from generator.evaluation.ranges import range_of, read_as, steadiness
from generator.evaluation.seeing import magnified

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.cells import Cell
    from generator.records.run import Run
    from generator.records.table import Column


@dataclass(frozen=True)
class _Read:
    """A reading that counts.

    Attributes:
        value: In SI; a temperature in °C.
        noise: Standard deviation by its meter's statement, in SI; 0 where the meter states none.
    """

    value: float
    noise: float


def rise_noise(bench: Bench, run: Run, point: str) -> float | None:
    """Standard deviation in K of one reading of a rise: of the item's temperature and of the air's.

    Args:
        bench: Where the instruments are.
        run: The run.
        point: The point on the item.

    Returns:
        None where it has no reading of the temperature, or its meters state nothing of their noise.
    """
    hot = _last(bench, run, ("temperature", point))
    if hot is None:
        return None
    return math.hypot(hot[0].noise, _air_noise(bench, run, point)) or None


def resistance_noise(bench: Bench, run: Run, point: str) -> float | None:
    """Standard deviation of the logarithm of the resistance at 20 °C from one reading, the last of the run.

    Args:
        bench: Where the instruments are.
        run: The run.
        point: The point whose temperature the resistance is reduced by.

    Returns:
        None where no row has drop, current and temperature, where one of their meters states no noise, or
        where there is no drop or no current to divide by.
    """
    found = _last(bench, run, ("drop", ""), ("current", ""), ("temperature", point))
    if found is None or not all(each.noise for each in found):
        return None
    drop, current, hot = found
    coefficient = Coefficient()
    if drop.value == 0 or current.value == 0 or 1 + coefficient.value * (hot.value - 20) <= 0:
        return None
    reading = Electrical(0.0, abs(drop.value), abs(current.value), hot.value)
    return relative_noise(reading, Noise(drop.noise, current.noise, hot.noise), coefficient)


def _air_noise(bench: Bench, run: Run, point: str) -> float:
    """Of the air that goes out of a rise, as the run has it; 0 where no meter read it."""
    if run.ambient_mode == "first reading":
        found = _last(bench, run, ("temperature", point))
        return found[0].noise if found is not None else 0.0
    if run.ambient_mode == "single value" and run.ambient is not None and "ambient" in run.uses:
        return (
            reading_noise(bench, run, "ambient", ("temperature", run.ambient.si, run.ambient.last_digit))
            or 0.0
        )
    found = _last(bench, run, ("ambient", ""))
    return found[0].noise if found is not None else 0.0


def _last(bench: Bench, run: Run, *names: tuple[str, str]) -> tuple[_Read, ...] | None:
    """The last row that has a reading in each of some columns; None without one or without a column."""
    table = run.readings
    if table is None:
        return None
    columns = [column for name in names if (column := table.column(*name)) is not None]
    if len(columns) < len(names):
        return None
    for row in reversed(range(table.rows)):
        cells = [column.cells[row] for column in columns]
        known = [cell for cell in cells if cell is not None and not cell.bound]
        if row not in table.excluded and len(known) == len(names):
            pairs = zip(columns, known, strict=True)
            return tuple(_read(bench, run, column, cell) for column, cell in pairs)
    return None


def _read(bench: Bench, run: Run, column: Column, cell: Cell) -> _Read:
    key = f"{column.name}@{column.point}" if column.point else column.name
    digit = run.readings.last_digit(column) if run.readings is not None else 0.0
    noise = reading_noise(bench, run, key, (column.quantity, cell.value, digit)) or 0.0
    return _Read(cell.value, noise * magnified(bench, run, key, cell.value) if run.infrared else noise)


def reading_noise(bench: Bench, run: Run, key: str, read: tuple[str, float, float]) -> float | None:
    """Standard deviation of one reading, as its meter states it; None where it states nothing.

    Args:
        bench: Where the instruments are.
        run: The run.
        key: The column, `temperature@body`.
        read: Its quantity, its value in SI and one step of its last digit in SI.
    """
    quantity, value, last_digit = read
    meter = bench.instruments[run.uses[key].instrument]
    found = range_of(meter, quantity, value, read_as(bench, run, quantity))[1]
    return steadiness(found, last_digit).noise
