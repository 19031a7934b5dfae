"""Heating: rise over ambient at the method's time mark, corrected to the set current."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import heating as formulas
from generator.analysis.interval import half_width, parts
from generator.analysis.uncertainty import Ledger, Uncertain
from generator.evaluation.findings import Reading
from generator.evaluation.kinds.air import ambient as ambient_at_each
from generator.evaluation.kinds.task import Cells, NoFigure, Task, cells, column, counted, step, times
from generator.evaluation.reduced import Point, Reduced
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.run import Run
    from generator.records.schema.measures import HeatingMeasure
    from generator.records.schema.method import Method


@dataclass(frozen=True)
class Series:
    """What the readings come to, alive; empty where the run cannot be read.

    Attributes:
        ambient: °C at each reading.
        risen: Rise in K at each.
    """

    ambient: Cells = ()
    risen: Cells = ()


def reduce(ledger: Ledger, bench: Bench, run: Run, method: Method, measure: HeatingMeasure) -> Reduced:
    """Reduce a heating run.

    Args:
        ledger: The report's inputs.
        bench: Its instruments.
        run: The run, with its readings.
        method: The version that it was made by.
        measure: The measure.

    Returns:
        Rise at the mark in K, corrected to the set current; or why there is none, with the readings as far as
        they go.
    """
    if run.readings is None:
        return Reduced(None, "no-run")
    task = Task(ledger, bench, run, method, measure, run.readings)
    try:
        series = _series(task)
    except NoFigure as none:
        return Reduced(None, none.why, _plain(task, Series()))
    try:
        return _at_mark(task, series)
    except NoFigure as none:
        return Reduced(None, none.why, _plain(task, series))


def _series(task: Task) -> Series:
    """Ambient and rise at each reading, the rise not yet corrected."""
    hot = cells(task, "temperature", task.measure.point)
    ambient = ambient_at_each(task, hot)
    return Series(ambient, formulas.rises(hot, ambient))


def _at_mark(task: Task, series: Series) -> Reduced:
    mark = task.measure.at.si
    rows = times(task.table)
    _refuse(task, mark)
    key = (task.run.id, task.measure.id)
    try:
        at = formulas.at_mark(task.ledger, rows, series.risen, mark, within=task.measure.within.si, key=key)
    except formulas.NoReadingAtMark as missing:
        raise NoFigure("no-reading-at-mark") from missing
    current = _current(task, at.time)
    whole = at.rise + _reads_low(task)
    figure = formulas.at_set_current(whole, current, _set_current(task), _exponent(task))
    # A probe draws heat off in proportion to the rise: before the mark the corrections are in proportion.
    factor = figure.x / at.rise.x if at.rise.x else 1.0
    corrected = Series(
        series.ambient, tuple(None if rise is None else rise * factor for rise in series.risen)
    )
    return Reduced(
        number=figure,
        readings=_plain(task, corrected),
        points=_points(rows, corrected.risen, at.index, figure),
        resolution=step(task, column(task.table, "temperature", task.measure.point)),
        mean_current=current.x,
        correction=figure.x - whole.x,
    )


def _points(rows: list[float], risen: Cells, marked: int, figure: Uncertain) -> tuple[Point, ...]:
    """The series alive; at the mark it is the figure itself."""
    return tuple(
        Point(time, figure if row == marked else rise)
        for row, (time, rise) in enumerate(zip(rows, risen, strict=True))
        if rise is not None
    )


def _refuse(task: Task, mark: float) -> None:
    """Raise where the run may not give a figure at the mark."""
    if task.run.stopped is not None and task.run.stopped.at.si < mark:
        raise NoFigure("stopped")
    hot = column(task.table, "temperature", task.measure.point)
    if any(cell.bound for cell in counted(task, hot)):
        raise NoFigure("over-range")
    condition = task.method.conditions.get("current")
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    share = condition.value.si if condition.within.quantity == "ratio" else 1.0
    within = condition.within.si * share
    current = counted(task, column(task.table, "current"))
    if any(abs(cell.value - condition.value.si) > within for cell in current):
        raise NoFigure("current-outside-tolerance")


def _current(task: Task, until: float) -> Uncertain:
    driven = zip(times(task.table), cells(task, "current"), strict=True)
    known = [(time, cell) for time, cell in driven if cell is not None]
    if not known or known[0][0] > until:
        raise NoFigure("no-current")
    return formulas.rms_current([time for time, _ in known], [cell for _, cell in known], until)


def _set_current(task: Task) -> float:
    condition = task.method.conditions["current"]
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    return condition.value.si


def _exponent(task: Task) -> Uncertain:
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


def _reads_low(task: Task) -> Uncertain:
    point = task.method.points[task.measure.point]
    at_most = point.reads_low_by_at_most.si
    if at_most == 0:
        return task.ledger.exact(0.0)
    wire = point.wire.text if point.wire is not None else ""
    how = (point.held_by, wire, point.reads_low_by_at_most.text)
    place = ("point", task.run.method, task.measure.point, *how)
    return formulas.reads_low(task.ledger, at_most, place, task.owner)


def _plain(task: Task, series: Series) -> tuple[Reading, ...]:
    """The readings as plain numbers, for charts and tables."""
    hot = task.table.column("temperature", task.measure.point)
    current = task.table.column("current")
    found = []
    for row, time in enumerate(times(task.table)):
        cell = hot.cells[row] if hot is not None else None
        driven = current.cells[row] if current is not None else None
        ambient = series.ambient[row] if series.ambient else None
        rise = series.risen[row] if series.risen else None
        found.append(
            Reading(
                time=time,
                temperature=cell.value if cell is not None else None,
                ambient=ambient.x if ambient is not None else None,
                current=driven.value if driven is not None else None,
                rise=rise.x if rise is not None else None,
                half_width=_reach(task, rise),
                excluded=task.table.excluded.get(row, ""),
                bound=cell.bound if cell is not None else "",
            )
        )
    return tuple(found)


def _reach(task: Task, rise: Uncertain | None) -> float | None:
    if rise is None:
        return None
    return half_width(parts(task.ledger.components(rise)))
