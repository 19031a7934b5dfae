"""The air around a run, as far as the record says it: the four ways and what each costs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from generator.analysis.uncertainty import Uncertain, rectangle
from generator.evaluation.instruments import Indication, uncertain
from generator.evaluation.kinds.records import Cells, Record
from generator.evaluation.kinds.task import NoFigure, Task, cells, times

if TYPE_CHECKING:
    from generator.records.quantity import Quantity


def air(task: Task[Any], hot: Cells) -> Record:
    """The air over the run, °C.

    Read each time or at start and end, it lies on straight lines between its readings. One value has what the
    method states for it besides its meter's error; the part's own first reading, what the air may drift.

    Args:
        task: The run.
        hot: The item's temperatures.

    Raises:
        NoFigure: The record does not say the air, or the method does not say how far off such a value may be.
    """
    mode = task.run.ambient_mode
    if mode in {"channel", "start-end"}:
        return Record.of(times(task.table), cells(task, "ambient"))
    if mode == "first reading":
        return _first_reading(task, hot)
    if mode == "single value":
        return _single_value(task)
    raise NoFigure("no-ambient")


def _first_reading(task: Task[Any], hot: Cells) -> Record:
    drift = task.method.air.drift_within if task.method.air is not None else None
    first = hot[0]
    if drift is None or first is None:
        raise NoFigure("no-ambient")
    words, key = "drift of the air since the first reading", (task.run.id, "air drift")
    entry = rectangle(key, words, drift.si, "K", "run", source="stated by the method")
    return Record.constant(times(task.table), first + task.ledger.input(entry))


def _single_value(task: Task[Any]) -> Record:
    value = task.run.ambient
    if value is None or task.method.air is None or task.method.air.single_value_within is None:
        raise NoFigure("no-ambient")
    return Record.constant(times(task.table), single_value(task, value))


def single_value(task: Task[Any], value: Quantity) -> Uncertain:
    """One value for the air, °C, with its meter's error and what the method says that it may be off by."""
    within = task.method.air.single_value_within if task.method.air is not None else None
    read = task.ledger.exact(value.si)
    if "ambient" in task.run.uses:
        seen = Indication("ambient", "temperature", value.si, value.last_digit, 0)
        read = uncertain(task.ledger, task.bench, task.run, seen)
    if within is None:
        return read
    key = (task.run.id, "air")
    entry = rectangle(key, "one value for the air", within.si, "K", "run", source="stated by the method")
    return read + task.ledger.input(entry)
