"""Heating: rise over ambient at the method's time mark, corrected to the set current."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import heating as formulas
from generator.analysis.interval import half_width, parts
from generator.analysis.uncertainty import Ledger, Uncertain, rectangle
from generator.evaluation.findings import Reading, WhyNot
from generator.evaluation.instruments import Indication, uncertain
from generator.evaluation.reduced import Point, Reduced
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.cells import Cell
    from generator.records.run import Run
    from generator.records.schema.measures import HeatingMeasure
    from generator.records.schema.method import Method
    from generator.records.table import Column, Table

Cells = tuple[Uncertain | None, ...]


@dataclass(frozen=True)
class Series:
    """What the readings come to, alive; empty where the run cannot be read.

    Attributes:
        ambient: °C at each reading.
        risen: Rise in K at each.
    """

    ambient: Cells = ()
    risen: Cells = ()


class NoFigure(Exception):
    """The run gives no figure by this measure; `why` says why."""

    def __init__(self, why: WhyNot) -> None:
        self.why: WhyNot = why
        super().__init__(why)


@dataclass(frozen=True)
class Task:
    """What a reduction works on.

    Attributes:
        ledger: The report's inputs.
        bench: Its instruments.
        run: The run.
        method: The version that it was made by.
        measure: The measure.
        table: The run's readings.
    """

    ledger: Ledger
    bench: Bench
    run: Run
    method: Method
    measure: HeatingMeasure
    table: Table

    @property
    def owner(self) -> str:
        """Id of the item or of the control."""
        return self.run.item or self.run.control


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
    hot = _cells(task, "temperature", task.measure.point)
    ambient = _ambient(task, hot)
    return Series(ambient, formulas.rises(hot, ambient))


def _at_mark(task: Task, series: Series) -> Reduced:
    mark = task.measure.at.si
    times = _times(task.table)
    _refuse(task, mark)
    key = (task.run.id, task.measure.id)
    try:
        at = formulas.at_mark(task.ledger, times, series.risen, mark, within=task.measure.within.si, key=key)
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
        points=_points(times, corrected.risen, at.index, figure),
        resolution=_step(task, _column(task.table, "temperature", task.measure.point)),
        mean_current=current.x,
        correction=figure.x - whole.x,
    )


def _points(times: list[float], risen: Cells, marked: int, figure: Uncertain) -> tuple[Point, ...]:
    """The series alive; at the mark it is the figure itself."""
    return tuple(
        Point(time, figure if row == marked else rise)
        for row, (time, rise) in enumerate(zip(times, risen, strict=True))
        if rise is not None
    )


def _refuse(task: Task, mark: float) -> None:
    """Raise where the run may not give a figure at the mark."""
    if task.run.stopped is not None and task.run.stopped.at.si < mark:
        raise NoFigure("stopped")
    hot = _column(task.table, "temperature", task.measure.point)
    if any(cell.bound for cell in _counted(task, hot)):
        raise NoFigure("over-range")
    condition = task.method.conditions.get("current")
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    share = condition.value.si if condition.within.quantity == "ratio" else 1.0
    within = condition.within.si * share
    current = _counted(task, _column(task.table, "current"))
    if any(abs(cell.value - condition.value.si) > within for cell in current):
        raise NoFigure("current-outside-tolerance")


def _counted(task: Task, column: Column) -> list[Cell]:
    """The cells of a column that are neither empty nor excluded."""
    excluded = task.table.excluded
    return [cell for row, cell in enumerate(column.cells) if cell is not None and row not in excluded]


def _cells(task: Task, name: str, point: str = "") -> Cells:
    """A column as uncertain numbers; excluded rows, bounds and empty cells are None."""
    column = _column(task.table, name, point)
    key = f"{name}@{point}" if point else name
    last = _step(task, column)
    found: list[Uncertain | None] = []
    for row, cell in enumerate(column.cells):
        if cell is None or cell.bound or row in task.table.excluded:
            found.append(None)
            continue
        seen = Indication(key, column.quantity, cell.value, last, row)
        found.append(uncertain(task.ledger, task.bench, task.run, seen))
    return tuple(found)


def _ambient(task: Task, hot: Cells) -> Cells:
    """The air at each reading: read each time, at start and end, once, or as the item's own first reading."""
    mode = task.run.ambient_mode
    times = _times(task.table)
    if mode in {"channel", "start-end"}:
        return formulas.filled(times, _cells(task, "ambient"))
    air = task.method.air
    if mode == "first reading" and hot[0] is not None:
        drift = air.drift_within if air is not None else None
        if drift is None:
            raise NoFigure("no-ambient")
        entry = rectangle(
            (task.run.id, "air drift"), "drift of the air since the first reading", drift.si, "K", "run"
        )
        return (hot[0] + task.ledger.input(entry),) * len(hot)
    if mode == "single value":
        return _single_value(task, len(hot))
    raise NoFigure("no-ambient")


def _single_value(task: Task, length: int) -> Cells:
    value = task.run.ambient
    within = task.method.air.single_value_within if task.method.air is not None else None
    if value is None or within is None:
        raise NoFigure("no-ambient")
    key = (task.run.id, "air")
    entry = rectangle(key, "one value for the air", within.si, "°C", "run", source="stated by the method")
    return (task.ledger.input(entry, value.si),) * length


def _current(task: Task, until: float) -> Uncertain:
    times = _times(task.table)
    cells = _cells(task, "current")
    known = [(time, cell) for time, cell in zip(times, cells, strict=True) if cell is not None]
    if not known or known[0][0] > until:
        raise NoFigure("no-current")
    return formulas.rms_current([time for time, _ in known], [cell for _, cell in known], until)


def _set_current(task: Task) -> float:
    condition = task.method.conditions["current"]
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    return condition.value.si


def _exponent(task: Task) -> Uncertain:
    key = ("exponent", task.run.method)
    stated = task.method.exponent
    if stated is None:
        return formulas.current_exponent(task.ledger, key)
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
    place = ("point", task.run.method, task.measure.point, point.held_by)
    return formulas.reads_low(task.ledger, at_most, place, task.owner)


def _step(task: Task, column: Column) -> float:
    """One step of a column's last digit as written, in SI; the finest of its cells."""
    decimals = [cell.decimals for cell in _counted(task, column)]
    return column.unit.width_to_si(10.0 ** -max(decimals)) if decimals else 0.0


def _times(table: Table) -> list[float]:
    return [cell.value for cell in _column(table, "time").cells if cell is not None]


MISSING: dict[str, WhyNot] = {"ambient": "no-ambient", "current": "no-current"}


def _column(table: Table, name: str, point: str = "") -> Column:
    found = table.column(name, point)
    if found is None:
        raise NoFigure(MISSING.get(name, "no-run"))
    return found


def _plain(task: Task, series: Series) -> tuple[Reading, ...]:
    """The readings as plain numbers, for charts and tables."""
    hot = task.table.column("temperature", task.measure.point)
    current = task.table.column("current")
    found = []
    for row, time in enumerate(_times(task.table)):
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
