"""The temperature that a heating measure is of: at one point, or at the hottest of all that are read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.uncertainty import Uncertain
from generator.evaluation.infrared import eye_of
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.task import NoFigure, Task, cells
from generator.evaluation.kinds.zero import zeroed
from generator.evaluation.worked import WorkedSurface
from generator.records.schema.measures import HOTTEST

if TYPE_CHECKING:
    from generator.records.cells import Cell
    from generator.records.schema.measures import HeatingMeasure


@dataclass(frozen=True)
class Hot:
    """The temperatures of a run.

    Attributes:
        cells: °C at each row, alive, after the zero check.
        points: The point that each row is of; empty where it has no reading.
    """

    cells: Cells
    points: tuple[str, ...]


def points_of(task: Task[HeatingMeasure]) -> tuple[str, ...]:
    """The points that a measure reads: its own, or all of the method."""
    return tuple(task.method.points) if task.measure.point == HOTTEST else (task.measure.point,)


def hot(task: Task[HeatingMeasure]) -> Hot:
    """The temperature at each row; the hottest is known only where every point was read.

    Raises:
        NoFigure: A point was not read at all.
    """
    columns = {point: zeroed(task, cells(task, "temperature", point), point) for point in points_of(task)}
    found = [_hottest(dict(zip(columns, row, strict=True))) for row in zip(*columns.values(), strict=True)]
    return Hot(tuple(cell for _, cell in found), tuple(point for point, _ in found))


def seen(task: Task[HeatingMeasure], point: str, row: int) -> WorkedSurface | None:
    """How an infra-red reading of a point became the temperature of the surface; None by another meter."""
    eye = eye_of(task.ledger, task.bench, task.run, f"temperature@{point}")
    read = task.table.column("temperature", point)
    cell = read.cells[row] if read is not None else None
    return None if eye is None or cell is None else eye.worked(cell.value)


def hottest_cells(task: Task[HeatingMeasure]) -> list[Cell | None]:
    """The cell of each row as written, bounds among them; None where there is none."""
    columns = {point: task.table.column("temperature", point) for point in points_of(task)}
    read = [each.cells for each in columns.values() if each is not None]
    if len(read) < len(columns):
        return [None] * task.table.rows
    found = [_hottest_of(row) for row in zip(*read, strict=True)]
    for row, (point, _) in enumerate(_seen_at(task)):
        # Of several points what a camera showed is not what says which is the hottest.
        column = columns[point] if point else None
        found[row] = found[row] if column is None else column.cells[row]
    return found


def surfaces(task: Task[HeatingMeasure]) -> list[float | None]:
    """Of infra-red readings the temperature of the surface at each row, °C; None where it is not known."""
    return [behind for _, behind in _seen_at(task)] or [None] * task.table.rows


def _seen_at(task: Task[HeatingMeasure]) -> list[tuple[str, float | None]]:
    """The hottest point of each row and the surface seen there; nothing where no infra-red meter read."""
    eyes = {
        point: eye_of(task.ledger, task.bench, task.run, f"temperature@{point}") for point in points_of(task)
    }
    if not any(eyes.values()):
        return []
    try:
        columns = {point: cells(task, "temperature", point) for point in eyes}
        points = hot(task).points
    except NoFigure:
        return []
    return [
        (point, _behind(columns[point][row]) if point and eyes[point] else None)
        for row, point in enumerate(points)
    ]


def _behind(cell: Uncertain | None) -> float | None:
    return None if cell is None else cell.x


def _hottest_of(row: tuple[Cell | None, ...]) -> Cell | None:
    known = [each for each in row if each is not None]
    return max(known, key=lambda each: each.value) if len(known) == len(row) else None


def _hottest(row: Mapping[str, Uncertain | None]) -> tuple[str, Uncertain | None]:
    if any(cell is None for cell in row.values()):
        return "", None
    return max(row.items(), key=lambda each: _value(each[1]))


def _value(cell: Uncertain | None) -> float:
    assert cell is not None  # noqa: S101
    return float(cell.x)
