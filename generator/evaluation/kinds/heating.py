"""Heating: rise over ambient at the method's time mark, corrected to the set current."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.analysis import heating as formulas
from generator.analysis.fit import HeatingFit
from generator.analysis.interval import half_width, parts
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.ends import End
from generator.evaluation.findings import Reading, WhyNot
from generator.evaluation.kinds.air import air
from generator.evaluation.kinds.ending import Corrected, ending, settled_rise
from generator.evaluation.kinds.lagging import Heated, curve, noise_of, time_constant
from generator.evaluation.kinds.records import Cells, Record, TimeConstant
from generator.evaluation.kinds.task import NoFigure, Task, cells, column, counted, step, times
from generator.evaluation.kinds.zero import zeroed
from generator.evaluation.reduced import Point, Reduced
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.schema.measures import HeatingMeasure
    from generator.records.table import Column


@dataclass(frozen=True)
class Series:
    """What the readings come to; empty where the run cannot be read.

    Attributes:
        air: °C at each row, as read.
        risen: Rise in K at each row, as read, alive.
        shown: The same corrected as the figure is, as plain numbers.
    """

    air: tuple[float | None, ...] = ()
    risen: Cells = ()
    shown: tuple[float | None, ...] = ()


@dataclass(frozen=True)
class Felt:
    """What a run says of itself, whether or not it gives a figure.

    Attributes:
        fit: Its own curve; None without one.
        end: How it ended; None without rises.
    """

    fit: HeatingFit | None
    end: End | None


def reduce(task: Task[HeatingMeasure]) -> Reduced:
    """Reduce a heating run.

    Args:
        task: The run, its method, and what other runs bring to it.

    Returns:
        Rise at the mark in K, corrected to the set current; or why there is none, with the readings as far as
        they go.
    """
    if task.run.readings is None:
        return Reduced(None, "no-run")
    try:
        heated = _heated(task)
    except NoFigure as none:
        return Reduced(None, none.why, _plain(task, Series()))
    series = _as_read(heated)
    felt = _felt(task, heated, series)
    try:
        return _at_mark(task, heated, series, felt)
    except NoFigure as none:
        return _without_figure(task, heated, series, felt, none.why)


def _without_figure(
    task: Task[HeatingMeasure], heated: Heated, series: Series, felt: Felt, why: WhyNot
) -> Reduced:
    """A run that gives no figure, with its last reading."""
    read = [(time, rise) for time, rise in zip(heated.times, series.risen, strict=True) if rise is not None]
    made = Reduced(None, why, _plain(task, series), end=felt.end)
    if not read:
        return made
    time, rise = read[-1]
    return replace(made, last=rise + _reads_low(task), ambient=heated.air.at(time).x)


def _heated(task: Task[HeatingMeasure]) -> Heated:
    """The run as it was read."""
    hot = zeroed(task, cells(task, "temperature", task.measure.point))
    rows = tuple(times(task.table))
    driven = Record.of(rows, cells(task, "current"))
    return Heated(rows, hot, air(task, hot), driven)


def _as_read(heated: Heated) -> Series:
    around = tuple(heated.air.at(time) if heated.air.covers(time) else None for time in heated.times)
    risen = formulas.rises(heated.hot, around)
    return Series(
        tuple(None if each is None else each.x for each in around),
        risen,
        tuple(None if rise is None else rise.x for rise in risen),
    )


def _felt(task: Task[HeatingMeasure], heated: Heated, series: Series) -> Felt:
    """The run's own curve and how it ended; a run without a set current is taken as it was read."""
    last = next((rise for rise in reversed(series.risen) if rise is not None), None)
    noise = noise_of(task, last) if last is not None else None
    try:
        set_current, exponent = _set_current(task), _exponent(task)
    except NoFigure:
        return Felt(None, None)
    fit = curve(heated, noise, set_current, exponent.x)
    lag = fit.tau if fit is not None else 0.0
    rises = heated.plain_rises(lag, set_current, exponent.x)
    return Felt(fit, ending(task, heated, fit, rises, noise))


def _at_mark(task: Task[HeatingMeasure], heated: Heated, series: Series, felt: Felt) -> Reduced:
    _refuse(task, task.measure.at.si)
    set_current, exponent = _set_current(task), _exponent(task)
    tau = time_constant(task, felt.fit)
    at = _reading_at_mark(task, heated, series, tau)
    if not heated.driven.covers(at.time):
        raise NoFigure("no-current")
    current = heated.driven.rms(at.time, tau)
    whole = at.rise + _reads_low(task)
    figure = formulas.at_set_current(whole, current, set_current, exponent)
    # A probe draws heat off in proportion to the rise: before the mark its correction is in proportion.
    drawn = whole.x / at.rise.x if at.rise.x else 1.0
    corrected = dict(zip(*heated.plain_rises(tau.value, set_current, exponent.x), strict=True))
    shown = tuple(corrected[time] * drawn if time in corrected else None for time in heated.times)
    told = Series(series.air, series.risen, shown)
    return Reduced(
        number=figure,
        readings=_plain(task, told),
        points=_points(heated, told, at.index, figure),
        resolution=step(task.table, column(task.table, "temperature", task.measure.point)),
        mean_current=current.x,
        correction=figure.x - whole.x,
        tau=felt.fit.tau if felt.fit is not None else None,
        ambient=heated.air.at(at.time).x,
        end=_with_settled(task, heated, series, felt, Corrected(at.rise, whole, figure)),
    )


def _with_settled(
    task: Task[HeatingMeasure], heated: Heated, series: Series, felt: Felt, corrected: Corrected
) -> End | None:
    """The end with the settled rise of the curve, corrected as the figure is."""
    if felt.end is None or felt.fit is None or corrected.read.x == 0:
        return felt.end
    settled = settled_rise(task, heated, felt.fit, series.risen, corrected)
    return replace(felt.end, settled=settled)


def _reading_at_mark(
    task: Task[HeatingMeasure], heated: Heated, series: Series, tau: TimeConstant
) -> formulas.AtMark:
    """The rise at the mark over the air as the item felt it, not yet corrected for the current."""
    key = (task.run.id, task.measure.id)
    mark, within = task.measure.at.si, task.measure.within.si
    try:
        at = formulas.at_mark(task.ledger, heated.times, series.risen, mark, within=within, key=key)
    except formulas.NoReadingAtMark as missing:
        raise NoFigure("no-reading-at-mark") from missing
    # The air as read goes out and the air as felt comes in; the error of the clock stays.
    felt = at.rise + heated.air.at(at.time) - heated.air.lagged(at.time, tau)
    return formulas.AtMark(felt, at.index, at.time, at.slope)


def _points(heated: Heated, series: Series, marked: int, figure: Uncertain) -> tuple[Point, ...]:
    """The series alive, with the uncertainty of the rise as read; at the mark it is the figure itself."""
    return tuple(
        Point(time, figure if row == marked else rise + (shown - rise.x))
        for row, (time, rise, shown) in enumerate(zip(heated.times, series.risen, series.shown, strict=True))
        if rise is not None and shown is not None
    )


def _refuse(task: Task[HeatingMeasure], mark: float) -> None:
    """Raise where the run may not give a figure at the mark."""
    if task.run.stopped is not None and task.run.stopped.at.si < mark:
        raise NoFigure("stopped")
    hot = column(task.table, "temperature", task.measure.point)
    if any(cell.bound for cell in counted(task.table, hot)):
        raise NoFigure("over-range")
    condition = task.method.conditions.get("current")
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    share = condition.value.si if condition.within.quantity == "ratio" else 1.0
    within = condition.within.si * share
    current = counted(task.table, column(task.table, "current"))
    if any(abs(cell.value - condition.value.si) > within for cell in current):
        raise NoFigure("current-outside-tolerance")


def _set_current(task: Task[HeatingMeasure]) -> float:
    condition = task.method.conditions["current"]
    if not isinstance(condition, Toleranced):
        raise NoFigure("no-current")
    return condition.value.si


def _exponent(task: Task[HeatingMeasure]) -> Uncertain:
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


def _reads_low(task: Task[HeatingMeasure]) -> Uncertain:
    point = task.method.points[task.measure.point]
    at_most = point.reads_low_by_at_most.si
    if at_most == 0:
        return task.ledger.exact(0.0)
    wire = point.wire.text if point.wire is not None else ""
    how = (point.held_by, wire, point.reads_low_by_at_most.text)
    place = ("point", task.run.method, task.measure.point, *how)
    return formulas.reads_low(task.ledger, at_most, place, task.owner)


def _plain(task: Task[HeatingMeasure], series: Series) -> tuple[Reading, ...]:
    """The readings as plain numbers, for charts and tables."""
    hot = task.table.column("temperature", task.measure.point)
    driven = task.table.column("current")
    rows = times(task.table)
    return tuple(
        Reading(
            time=time,
            temperature=_value(hot, row),
            ambient=series.air[row] if series.air else None,
            current=_value(driven, row),
            rise=series.shown[row] if series.shown else None,
            half_width=_reach(task, series.risen[row]) if series.risen else None,
            excluded=task.table.excluded.get(row, ""),
            bound=_bound(hot, row),
        )
        for row, time in enumerate(rows)
    )


def _value(read: Column | None, row: int) -> float | None:
    cell = read.cells[row] if read is not None else None
    return None if cell is None else cell.value


def _bound(read: Column | None, row: int) -> str:
    cell = read.cells[row] if read is not None else None
    return "" if cell is None else cell.bound


def _reach(task: Task[HeatingMeasure], rise: Uncertain | None) -> float | None:
    return None if rise is None else half_width(parts(task.ledger.components(rise)))
