"""How a heating run ended: settled, rising, disturbed or worsening, and the settled rise of its curve."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.fit import UNSEEN, HeatingFit, why_not_printed
from generator.analysis.interval import error_of, half_width
from generator.analysis.linear import linear
from generator.analysis.settling import Criterion, Limited, Settling, disturbed, settling
from generator.analysis.uncertainty import Uncertain
from generator.analysis.worsening import Coefficient, Electrical, Noise, Trend, trend
from generator.evaluation.ends import Between, End, SettledRise, State
from generator.evaluation.kinds.lagging import Heated, noise_of
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.task import Task, counting, times
from generator.evaluation.noises import reading_noise

if TYPE_CHECKING:
    from generator.records.schema.measures import HeatingMeasure
    from generator.records.table import Column


def ending(
    task: Task[HeatingMeasure],
    heated: Heated,
    fit: HeatingFit | None,
    rises: tuple[tuple[float, ...], tuple[float, ...]],
    noise: float | None,
) -> End | None:
    """How a run ended; None where there are no rises or its meters state no noise.

    Args:
        task: The run.
        heated: What it was read as.
        fit: Its own curve.
        rises: Times in s and rises in K, corrected as the figure is.
        noise: Standard deviation of one reading of the rise, K.
    """
    times, risen = rises
    if noise is None or not times:
        return None
    found = settling(times, risen, noise, _criterion(task), fit)
    slope = _trend(task, heated.hot)
    fell = disturbed(risen, noise) is not None
    return End(
        state=_state(found, slope, fell=fell),
        change=_between(found.change),
        remaining=_between(found.remaining),
        settled=None,
        slope=Between(slope.slope, slope.low, 2 * slope.slope - slope.low) if slope is not None else None,
        allowance=task.measure.worsening.si * 3600,
        over=task.measure.settled.over.si,
    )


@dataclass(frozen=True)
class Corrected:
    """The rise at the mark on its way.

    Attributes:
        read: As read over the air as felt, K.
        whole: With what the probe draws off.
        figure: At the set current.
    """

    read: Uncertain
    whole: Uncertain
    figure: Uncertain


def settled_rise(
    task: Task[HeatingMeasure], heated: Heated, fit: HeatingFit, risen: Cells, corrected: Corrected
) -> tuple[SettledRise, Uncertain]:
    """The settled rise of a curve with every error of the run, widened upwards by what it cannot see.

    Args:
        task: The run.
        heated: What it was read as.
        fit: Its own curve, through corrected rises.
        risen: Rise at each row, as read, alive.
        corrected: The rise at the mark.

    Returns:
        The rise as it is told, and the same alive, without the widening.
    """
    rows = [
        rise
        for time, rise in zip(heated.times, risen, strict=True)
        if rise is not None and heated.air.covers(time)
    ]
    number = _alive(fit, rows, corrected)
    settled = number.x
    reach = half_width(error_of(task.ledger, number))
    slow = task.method.slow_part
    unseen = (UNSEEN if slow is None else slow.share.si) * abs(settled)
    told = SettledRise(
        settled,
        settled - reach,
        settled + reach + unseen,
        fit.tau,
        fit.start * corrected.whole.x / corrected.read.x,
        why_not_printed(fit),
        unseen,
    )
    return told, number


def _alive(fit: HeatingFit, rows: Sequence[Uncertain], corrected: Corrected) -> Uncertain:
    """The settled rise of a curve through rises as read, K, corrected as the figure at the mark is."""
    # A parameter is linear in the readings; what corrects the figure corrects it in the same proportion. The
    # curve is through rises at the set current already, so of that correction its errors alone are taken.
    drawn = corrected.whole.x / corrected.read.x
    settled = fit.settled * drawn
    return linear(
        settled,
        [
            *((drawn * each, row) for each, row in zip(fit.settled_by_reading, rows, strict=True)),
            (settled / corrected.figure.x, corrected.figure),
            (-settled / corrected.read.x, corrected.read),
        ],
    )


def _criterion(task: Task[HeatingMeasure]) -> Criterion:
    stated = task.measure.settled
    within = task.measure.within.si
    return Criterion(stated.change.si, stated.over.si, stated.to_come.si, within)


def _state(found: Settling, slope: Trend | None, *, fell: bool) -> State:
    if slope is not None and slope.worsening:
        return "worsening"
    return "disturbed" if fell else found.verdict


def _trend(task: Task[HeatingMeasure], hot: Cells) -> Trend | None:
    """The slope of the resistance; None without drops."""
    table = task.table
    drop, current = table.column("drop"), table.column("current")
    if drop is None or current is None:
        return None
    rows = zip(times(table), counting(table, drop), counting(table, current), hot, strict=True)
    known = [
        (Electrical(time, one.value, other.value, warm.x), warm)
        for time, one, other, warm in rows
        if one is not None and other is not None and warm is not None
    ]
    if not known:
        return None
    last, warm = known[-1]
    noises = (_stated(task, drop, last.drop), _stated(task, current, last.current), noise_of(task, warm))
    if None in noises:
        return None
    noise = Noise(*(each or 0.0 for each in noises))
    readings = [reading for reading, _ in known]
    return trend(readings, noise, Coefficient(), allowance=task.measure.worsening.si * 3600)


def _stated(task: Task[HeatingMeasure], read: Column, value: float) -> float | None:
    """Noise of one reading of a column, as its meter states it."""
    seen = (read.quantity, value, task.table.last_digit(read))
    return reading_noise(task.bench, task.run, read.name, seen)


def _between(found: Limited | None) -> Between | None:
    return None if found is None else Between(found.value, found.low, found.high)
