"""The temperature that a heating measure is of: at one point, or at the hottest of all that are read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.uncertainty import Uncertain
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.task import Task, cells
from generator.evaluation.kinds.zero import zeroed
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


def hottest_cells(task: Task[HeatingMeasure]) -> list[Cell | None]:
    """The cell of each row as written, bounds among them; None where there is none."""
    columns = [task.table.column("temperature", point) for point in points_of(task)]
    read = [each.cells for each in columns if each is not None]
    if len(read) < len(columns):
        return [None] * task.table.rows
    return [_hottest_of(row) for row in zip(*read, strict=True)]


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
