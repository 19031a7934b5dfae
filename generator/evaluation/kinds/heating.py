"""Heating: rise over ambient at the method's time mark, corrected to the set current."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.analysis import heating as formulas
from generator.analysis.fit import HeatingFit, why_not_printed
from generator.analysis.linear import deferred
from generator.analysis.mark import between_readings
from generator.analysis.uncertainty import Uncertain
from generator.evaluation.ends import End
from generator.evaluation.kinds.air import air
from generator.evaluation.kinds.ending import Corrected, ending, settled_rise
from generator.evaluation.kinds.hot import hot, seen
from generator.evaluation.kinds.lagging import Heated, curve, noise_of, time_constant
from generator.evaluation.kinds.plain import Series, plain
from generator.evaluation.kinds.records import Record, TimeConstant
from generator.evaluation.kinds.stated import exponent_of, reads_low, refuse, set_current_of, unseen
from generator.evaluation.kinds.task import NoFigure, Task, cells, column, step, times
from generator.evaluation.reduced import Point, Reduced
from generator.evaluation.why_not import WhyNot
from generator.evaluation.worked import By, WorkedRise

if TYPE_CHECKING:
    from generator.records.schema.measures import HeatingMeasure


@dataclass(frozen=True)
class Felt:
    """What a run says of itself, whether or not it gives a figure.

    Attributes:
        fit: Its own curve; None without one.
        end: How it ended; None without rises.
    """

    fit: HeatingFit | None
    end: End | None


@dataclass(frozen=True)
class Marked:
    """The rise at the mark over the air as felt, not yet corrected for the current.

    Attributes:
        rise: K, alive.
        row: The reading that it is; None between two.
        near: The reading nearest to it.
        time: s.
        point: The point that it is of.
        by: Where it comes from.
    """

    rise: Uncertain
    row: int | None
    near: int
    time: float
    point: str
    by: By


UNLIKE = frozenset({"lack-of-fit", "runs"})
"""Why a curve is not the shape of its readings."""


@dataclass(frozen=True)
class AsFelt:
    """What the item followed: its time constant, and the steady current that has warmed it as far, A."""

    tau: TimeConstant
    current: float


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
        heated, points = _heated(task)
    except NoFigure as none:
        return Reduced(None, none.why, plain(task, Series()))
    series = _as_read(heated)
    # What an infra-red meter cannot be trusted with is shown as it was read, and nothing is made of it.
    felt = Felt(None, None) if unseen(task) else _felt(task, heated, series)
    try:
        made = _at_mark(task, heated, points, series, felt)
    except NoFigure as none:
        made = _without_figure(task, heated, points, series, none.why)
    return replace(made, end=made.end or felt.end, fit=felt.fit, ramp=heated.air.ramp)


def _without_figure(
    task: Task[HeatingMeasure], heated: Heated, points: tuple[str, ...], series: Series, why: WhyNot
) -> Reduced:
    """A run that gives no figure, with its last reading."""
    rows = enumerate(zip(heated.times, series.risen, points, strict=True))
    read = [(row, time, rise, point) for row, (time, rise, point) in rows if rise is not None]
    if unseen(task) or not read:
        return Reduced(None, why, plain(task, Series(series.air)))
    row, time, rise, point = read[-1]
    return Reduced(
        None,
        why,
        plain(task, series),
        last=rise + reads_low(task, point),
        ambient=heated.air.at(time).x,
        seen=seen(task, point, row),
    )


def _heated(task: Task[HeatingMeasure]) -> tuple[Heated, tuple[str, ...]]:
    """The run as it was read, and the point that each row is of."""
    read = hot(task)
    rows = tuple(times(task.table))
    driven = Record.of(rows, cells(task, "current"))
    return Heated(rows, read.cells, air(task, read.cells), driven), read.points


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
        set_current, exponent = set_current_of(task), exponent_of(task)
    except NoFigure:
        return Felt(None, None)
    fit = curve(heated, noise, set_current, exponent.x)
    lag = fit.tau if fit is not None else 0.0
    rises = heated.plain_rises(lag, set_current, exponent.x)
    return Felt(fit, ending(task, heated, fit, rises, noise))


def _at_mark(
    task: Task[HeatingMeasure], heated: Heated, points: tuple[str, ...], series: Series, felt: Felt
) -> Reduced:
    refuse(task, task.mark)
    tau = time_constant(task, felt.fit)
    at = _marked(task, heated, points, series, felt)
    if not heated.driven.covers(at.time):
        raise NoFigure("no-current")
    # The air as read goes out and the air as felt comes in; the error of the clock stays.
    around = heated.air.at(at.time), heated.air.lagged(at.time, tau)
    read, felt_air = around
    wandered = heated.air.wandering(task.ledger, (task.run.id,), at.time)
    rise = deferred(
        at.rise.x + read.x - felt_air.x, ((1.0, at.rise), (1.0, read), (-1.0, felt_air), (1.0, wandered))
    )
    current, set_current, exponent = heated.driven.rms(at.time, tau), set_current_of(task), exponent_of(task)
    whole = rise + reads_low(task, at.point)
    figure = formulas.at_set_current(whole, current, set_current, exponent)
    corrected = Corrected(rise, whole, figure)
    optics = seen(task, at.point, at.near)
    end, settled = _with_settled(task, heated, series, felt, corrected)
    told = Series(series.air, series.risen, _shown(heated, corrected, tau.value, set_current, exponent.x))
    return Reduced(
        number=figure,
        readings=plain(task, told),
        points=_points(heated, told, at.row, figure),
        resolution=step(task.table, column(task.table, "temperature", at.point))
        * (1.0 if optics is None else optics.magnified),
        mean_current=current.x,
        correction=figure.x - whole.x,
        ambient=heated.air.at(at.time).x,
        end=end,
        settled=settled,
        worked=_worked(task, heated, at, AsFelt(tau, current.x), corrected),
        seen=optics,
    )


def _worked(
    task: Task[HeatingMeasure], heated: Heated, at: Marked, felt: AsFelt, corrected: Corrected
) -> WorkedRise:
    """The way from the readings to the figure, number by number."""
    air = heated.air.at(at.time).x
    offset = _offset(task, heated, at)
    return WorkedRise(
        mark=task.mark,
        time=at.time,
        by=at.by,
        point=at.point,
        temperature=at.rise.x + air + (offset or 0.0),
        offset=offset,
        air=air,
        air_felt=at.rise.x + air - corrected.read.x,
        tau=felt.tau.value,
        tau_from=felt.tau.origin,
        rise=corrected.read.x,
        probe=corrected.whole.x - corrected.read.x,
        current=felt.current,
        set_current=set_current_of(task),
        exponent=exponent_of(task).x,
        figure=corrected.figure.x,
    )


def _shown(
    heated: Heated, corrected: Corrected, tau: float, set_current: float, exponent: float
) -> tuple[float | None, ...]:
    """The rise at each row, corrected as the figure is."""
    # A probe draws heat off in proportion to the rise: before the mark its correction is in proportion.
    drawn = corrected.whole.x / corrected.read.x if corrected.read.x else 1.0
    rises = dict(zip(*heated.plain_rises(tau, set_current, exponent), strict=True))
    return tuple(rises[time] * drawn if time in rises else None for time in heated.times)


def _offset(task: Task[HeatingMeasure], heated: Heated, at: Marked) -> float | None:
    """What the zero check took from the temperature at the mark, K; None without one or between readings."""
    if task.run.zero_check is None or at.row is None:
        return None
    cell, zeroed = cells(task, "temperature", at.point)[at.row], heated.hot[at.row]
    return None if cell is None or zeroed is None else cell.x - zeroed.x


def _with_settled(
    task: Task[HeatingMeasure], heated: Heated, series: Series, felt: Felt, corrected: Corrected
) -> tuple[End | None, Uncertain | None]:
    """The end with the settled rise of the curve, corrected as the figure is, and that rise alive."""
    if felt.end is None or felt.fit is None or corrected.read.x == 0:
        return felt.end, None
    told, alive = settled_rise(task, heated, felt.fit, series.risen, corrected)
    return replace(felt.end, settled=told), alive


def _marked(
    task: Task[HeatingMeasure], heated: Heated, points: tuple[str, ...], series: Series, felt: Felt
) -> Marked:
    """The rise at the mark over the air as read: a reading within the tolerance, else between two."""
    key = (task.run.id, task.measure.id, f"{task.mark:g} s")
    within = task.measure.within.si
    try:
        at = formulas.at_mark(task.ledger, heated.times, series.risen, task.mark, within=within, key=key)
    except formulas.NoReadingAtMark:
        return _between(task, heated, points, series, felt)
    return Marked(at.rise, at.index, at.index, at.time, points[at.index], "reading")


def _between(
    task: Task[HeatingMeasure], heated: Heated, points: tuple[str, ...], series: Series, felt: Felt
) -> Marked:
    """The rise between the two readings around the mark; never past the last."""
    fit = felt.fit if felt.fit is not None and why_not_printed(felt.fit) not in UNLIKE else None
    key = (task.run.id, task.measure.id, f"{task.mark:g} s")
    try:
        found = between_readings(task.ledger, heated.times, series.risen, task.mark, key=key, fit=fit)
    except formulas.NoReadingAtMark as missing:
        raise NoFigure("no-reading-at-mark") from missing
    near = min(
        (row for row, rise in enumerate(series.risen) if rise is not None),
        key=lambda row: abs(heated.times[row] - task.mark),
    )
    return Marked(found.rise, None, near, task.mark, points[near], found.by)


def _points(heated: Heated, series: Series, marked: int | None, figure: Uncertain) -> tuple[Point, ...]:
    """The series alive, with the uncertainty of the rise as read; at the mark it is the figure itself."""
    return tuple(
        Point(time, figure if row == marked else deferred(shown, ((1.0, rise),)))
        for row, (time, rise, shown) in enumerate(zip(heated.times, series.risen, series.shown, strict=True))
        if rise is not None and shown is not None
    )
