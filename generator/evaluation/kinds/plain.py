"""The readings of a heating run as plain numbers, for charts and tables."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.interval import error_of, half_width
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.kinds.hot import hottest_cells, surfaces
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.task import Task, times
from generator.evaluation.sought import Sought
from generator.evaluation.values import Reading

if TYPE_CHECKING:
    from generator.records.schema.measures import HeatingMeasure
    from generator.records.table import Column


@dataclass(frozen=True)
class Series:
    """What the readings of a run come to; empty where the run cannot be read.

    Attributes:
        air: °C at each row, as read.
        risen: Rise in K at each row, as read, alive.
        shown: The same corrected as the figure is, as plain numbers.
    """

    air: tuple[float | None, ...] = ()
    risen: Cells = ()
    shown: tuple[float | None, ...] = ()


def plain(task: Task[HeatingMeasure], series: Series) -> tuple[Reading, ...]:
    """The readings of a run.

    Args:
        task: The run.
        series: What they come to, as far as they go.
    """
    written, behind = hottest_cells(task), surfaces(task)
    driven = task.table.column("current")
    reaches = [None if rise is None else _reach(task, rise) for rise in series.risen]
    return tuple(
        Reading(
            time=time,
            temperature=None if cell is None else cell.value,
            ambient=series.air[row] if series.air else None,
            current=_value(driven, row),
            rise=series.shown[row] if series.shown else None,
            reach=reaches[row] if reaches else None,
            excluded=task.table.excluded.get(row, ""),
            bound="" if cell is None else cell.bound,
            surface=behind[row],
        )
        for row, (time, cell) in enumerate(zip(times(task.table), written, strict=True))
    )


def _reach(task: Task[HeatingMeasure], rise: Uncertain) -> Sought[float]:
    return Sought(lambda: half_width(error_of(task.ledger, rise)))


def _value(read: Column | None, row: int) -> float | None:
    cell = read.cells[row] if read is not None else None
    return None if cell is None else cell.value
