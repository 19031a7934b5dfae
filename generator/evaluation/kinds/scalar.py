"""Scalar: one quantity a run, typed as one value or reduced from readings without time."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from generator.analysis.interval import error_of, half_width
from generator.analysis.radiation import NoTemperature
from generator.analysis.repeats import Repeats, mean_of_repeats
from generator.analysis.specimens import own_spread
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.infrared import eye_of
from generator.evaluation.instruments import UNITS, Indication, resolution_of, uncertain
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.task import NoFigure, Task, cells_of, counted, step
from generator.evaluation.reduced import Reduced
from generator.evaluation.seeing import refused
from generator.evaluation.values import Value
from generator.evaluation.why_not import WhyNot
from generator.evaluation.worked import WorkedSurface

if TYPE_CHECKING:
    from generator.records.quantity import Quantity
    from generator.records.schema.measures import ScalarMeasure
    from generator.records.table import Column

OUTSIDE: dict[str, WhyNot] = {">": "over-range", "<": "under-range"}
"""Why there is no figure where a reading is a bound."""


def unit_of(measure: ScalarMeasure) -> str:
    """Unit of the figures of a measure: SI, and °C for temperatures."""
    return "°C" if measure.quantity == "temperature" else UNITS[measure.quantity]


def reduce(task: Task[ScalarMeasure]) -> Reduced:
    """Reduce a run to its one quantity.

    Args:
        task: The run, its method and the measure.

    Returns:
        The value that the run states; else its readings as the method reduces them: their mean with its
        scatter, or the reading that is the largest or the smallest. Or why there is none, with the readings.
    """
    value = task.run.values.get(task.measure.id)
    if value is not None:
        return _of_value(task, value)
    column = _column(task)
    if column is not None:
        return _of_table(task, column)
    return Reduced(None, _stopped(task) or "no-run")


def _of_value(task: Task[ScalarMeasure], value: Quantity) -> Reduced:
    named = task.measure.id in task.run.uses
    column = task.measure.id if named else task.measure.quantity
    cell = Indication(column, task.measure.quantity, value.si, value.last_digit, 0)
    shown = (Value(value.si, None, bound=value.bound),)
    outside = OUTSIDE[value.bound] if value.bound else None
    blind = refused(task.bench, task.run, column, task.measure.quantity)
    if blind is not None:
        return Reduced(None, _stopped(task) or outside or blind, values=shown)
    try:
        number = uncertain(task.ledger, task.bench, task.run, cell)
    except NoTemperature:
        return Reduced(None, _stopped(task) or outside or "no-such-surface", values=shown)
    if outside is not None:
        why = _stopped(task) or outside
        return Reduced(None, why, values=shown, last=number if number.u > 0 else None)
    shown = (Value(number.x, _reach(task, number)),)
    made = _figure(task, number, resolution_of(task.bench, task.run, cell), shown)
    return replace(made, seen=_seen(task, column, value.si))


def _column(task: Task[ScalarMeasure]) -> Column | None:
    """The column of a measure: named as the measure, else as its quantity."""
    table = task.run.readings
    if table is None:
        return None
    for name in (task.measure.id, task.measure.quantity):
        found = [each for each in table.columns if each.name == name]
        if len(found) == 1:
            return found[0]
    return None


def _of_table(task: Task[ScalarMeasure], column: Column) -> Reduced:
    key = _key(column)
    blind = refused(task.bench, task.run, key, column.quantity)
    cells: Cells = (None,) * task.table.rows
    try:
        cells = cells_of(task, task.table, column) if blind is None else cells
        number = _reduced(task, column, cells, blind)
    except NoFigure as none:
        shown = tuple(_shown(task, column, cells, row) for row in range(task.table.rows))
        return Reduced(None, _stopped(task) or none.why, values=shown)
    shown = tuple(_shown(task, column, cells, row) for row in range(task.table.rows))
    made = _figure(task, number, _step(task, column), shown)
    last = [cell.value for cell in counted(task.table, column) if not cell.bound][-1]
    return replace(made, seen=_seen(task, key, last))


def _seen(task: Task[ScalarMeasure], column: str, shown: float) -> WorkedSurface | None:
    """How an infra-red reading became the temperature of the surface; None by another meter."""
    eye = eye_of(task.ledger, task.bench, task.run, column, task.measure.quantity)
    return None if eye is None else eye.worked(shown)


def _key(column: Column) -> str:
    return f"{column.name}@{column.point}" if column.point else column.name


def _reduced(task: Task[ScalarMeasure], column: Column, cells: Cells, blind: WhyNot | None) -> Uncertain:
    for cell in counted(task.table, column):
        if cell.bound:
            raise NoFigure(OUTSIDE[cell.bound])
    if blind is not None:
        raise NoFigure(blind)
    numbers = [each for each in cells if each is not None]
    if task.measure.reduce is None:
        raise NoFigure("no-run")
    if not numbers:
        raise NoFigure("no-reading")
    if task.measure.reduce == "max":
        return max(numbers, key=_value)
    if task.measure.reduce == "min":
        return min(numbers, key=_value)
    return mean_of_repeats(
        task.ledger,
        numbers,
        own_spread([each.x for each in numbers]),
        Repeats(
            key=(task.run.id, task.measure.id),
            what="readings",
            holds=frozenset({"reading"}),
            scope="reading",
            unit=UNITS[task.measure.quantity],
            resolution=_step(task, column),
        ),
    )


def _step(task: Task[ScalarMeasure], column: Column) -> float:
    """Smallest step of a column's readings; 0 without one."""
    read = [(row, cell) for row, cell in enumerate(column.cells) if cell is not None and not cell.bound]
    if not read:
        return 0.0
    row, cell = read[0]
    last = step(task.table, column)
    return resolution_of(
        task.bench, task.run, Indication(_key(column), column.quantity, cell.value, last, row)
    )


def _shown(task: Task[ScalarMeasure], column: Column, cells: Cells, row: int) -> Value:
    cell, number = column.cells[row], cells[row]
    shown = None if cell is None else cell.value
    return Value(
        shown if number is None else number.x,
        None if number is None else _reach(task, number),
        task.table.excluded.get(row, ""),
        "" if cell is None else cell.bound,
    )


def _figure(
    task: Task[ScalarMeasure], number: Uncertain, resolution: float, shown: tuple[Value, ...]
) -> Reduced:
    """The figure of a run that was not stopped, by a meter that states how far off it may be."""
    why = _stopped(task) or ("no-accuracy" if number.u == 0 else None)
    if why is not None:
        return Reduced(None, why, resolution=resolution, values=shown)
    by = task.measure.reduce if task.measure.id not in task.run.values else None
    return Reduced(number, resolution=resolution, values=shown, by=by or "value")


def _stopped(task: Task[ScalarMeasure]) -> WhyNot | None:
    if task.run.stopped is None:
        return None
    return "stopped" if task.run.stopped.cause == "item" else "not-finished"


def _reach(task: Task[ScalarMeasure], number: Uncertain) -> float:
    return half_width(error_of(task.ledger, number))


def _value(number: Uncertain) -> float:
    return number.x
