"""How warm a part was, and the air, where a drop was read."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from generator.analysis.uncertainty import Uncertain, total
from generator.evaluation.kinds.air import single_value
from generator.evaluation.kinds.records import Record
from generator.evaluation.kinds.task import Task, cells, times
from generator.evaluation.seeing import refused

if TYPE_CHECKING:
    from generator.records.schema.electrical import ElectricalMeasure


def temperature(task: Task[ElectricalMeasure], rows: Sequence[int]) -> Uncertain | None:
    """How warm the part was, °C: at the method's point, else as the air; None where neither is known.

    What an infra-red meter cannot be trusted with is not known.
    """
    point = task.measure.point
    table = task.run.readings
    if point is not None and table is not None and table.column("temperature", point) is not None:
        if refused(task.bench, task.run, f"temperature@{point}") is not None:
            return None
        read = cells(task, "temperature", point)
        known = [each for row in rows if (each := read[row]) is not None]
        return total(known) / float(len(known)) if known else None
    return None if point is not None else air(task, rows)


def air(task: Task[ElectricalMeasure], rows: Sequence[int]) -> Uncertain | None:
    """The air at some rows, °C; None where the record does not say it."""
    table = task.run.readings
    read = table.column("ambient") if table is not None else None
    if table is not None and read is not None and rows:
        found = cells(task, "ambient")
        if table.column("time") is not None:
            over = Record.of(times(table), found)
            at = times(table)[rows[0]]
            return over.at(at) if over.covers(at) else None
        known = [each for each in found if each is not None]
        return total(known) / float(len(known)) if known else None
    said = task.run.ambient
    return single_value(task, said) if said is not None else None
