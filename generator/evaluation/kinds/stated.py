"""What a method states for a heating run, and what makes a run give no figure by it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generator.analysis import heating as formulas
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.kinds.hot import points_of
from generator.evaluation.kinds.task import NoFigure, Task, column, counted
from generator.evaluation.seeing import optics_of, refused
from generator.evaluation.why_not import WhyNot
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.schema.measures import HeatingMeasure


def refuse(task: Task[HeatingMeasure], mark: float) -> None:
    """Raise where the run may not give a figure at the mark."""
    if task.run.stopped is not None and task.run.stopped.at.si < mark:
        raise NoFigure("stopped" if task.run.stopped.cause == "item" else "not-finished")
    for point in points_of(task):
        hot = column(task.table, "temperature", point)
        if any(cell.bound for cell in counted(task.table, hot)):
            raise NoFigure("over-range")
    blind = unseen(task)
    if blind is not None:
        raise NoFigure(blind)
    condition = task.method.conditions.get("current")
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    within = tolerance_of(condition)
    current = counted(task.table, column(task.table, "current"))
    if any(abs(cell.value - condition.value.si) > within for cell in current):
        raise NoFigure("current-outside-tolerance")


def tolerance_of(condition: Toleranced) -> float:
    """How far off what is set may be, in its own unit."""
    share = condition.value.si if condition.within.quantity == "ratio" else 1.0
    return condition.within.si * share


def unseen(task: Task[HeatingMeasure]) -> WhyNot | None:
    """Why what an infra-red meter showed of a point is no main figure; None where it is or may be one."""
    return next(
        filter(None, (refused(task.bench, task.run, f"temperature@{at}") for at in points_of(task))), None
    )


def set_current_of(task: Task[HeatingMeasure]) -> float:
    """The current that the method sets, A; NoFigure where it sets none with a tolerance."""
    condition = task.method.conditions["current"]
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    return condition.value.si


def exponent_of(task: Task[HeatingMeasure]) -> Uncertain:
    """Exponent of the rise over the current: the method's, else the default."""
    stated = task.method.exponent
    if stated is None:
        return formulas.current_exponent(task.ledger, ("exponent", task.run.method))
    # Versions that state the same share it.
    key = ("exponent", task.run.method, f"{stated.value} ± {stated.within}")
    return formulas.current_exponent(
        task.ledger,
        key,
        float(stated.value),
        float(stated.within),
        assumed=False,
        source=stated.because or "stated by the method",
    )


def reads_low(task: Task[HeatingMeasure], point: str) -> Uncertain:
    """What is added at a point for the heat that its probe draws off, K; none by infra-red."""
    stated = task.method.points[point]
    at_most = stated.reads_low_by_at_most.si
    seen = optics_of(task.bench, task.run, f"temperature@{point}", "temperature")
    if at_most == 0 or seen is not None:
        return task.ledger.exact(0.0)
    wire = stated.wire.text if stated.wire is not None else ""
    how = (stated.held_by, wire, stated.reads_low_by_at_most.text)
    place = ("point", task.run.method, point, *how)
    return formulas.reads_low(task.ledger, at_most, place, task.owner)
