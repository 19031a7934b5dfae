"""How a heating run ended: settled, rising, disturbed or worsening, and the settled rise of its curve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.fit import UNSEEN, HeatingFit, why_not_printed
from generator.analysis.interval import half_width, parts
from generator.analysis.settling import Criterion, Limited, Settling, disturbed, settling
from generator.analysis.uncertainty import Uncertain, weighted
from generator.analysis.worsening import Coefficient, Electrical, Noise, Trend, trend
from generator.evaluation.ends import Between, End, SettledRise, State
from generator.evaluation.kinds.lagging import Heated, noise_of
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.task import Task, cells

if TYPE_CHECKING:
    from generator.records.schema.measures import HeatingMeasure


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
) -> SettledRise:
    """The settled rise of a curve with every error of the run, widened upwards by what it cannot see.

    Args:
        task: The run.
        heated: What it was read as.
        fit: Its own curve, through corrected rises.
        risen: Rise at each row, as read, alive.
        corrected: The rise at the mark.
    """
    rows = [
        rise
        for time, rise in zip(heated.times, risen, strict=True)
        if rise is not None and heated.air.covers(time)
    ]
    # A parameter is linear in the readings; what corrects the figure corrects it in the same proportion. The
    # curve is through rises at the set current already, so of that correction its errors alone are taken.
    factor = corrected.figure / corrected.read
    drawn = corrected.whole.x / corrected.read.x
    read = weighted(fit.sensitivities[1], rows)
    number = (read + (fit.settled - read.x)) * (factor * (drawn / factor.x))
    reach = half_width(parts(task.ledger.components(number)))
    slow = task.method.slow_part
    unseen = (UNSEEN if slow is None else slow.share.si) * abs(number.x)
    return SettledRise(
        number.x,
        number.x - reach,
        number.x + reach + unseen,
        fit.tau,
        fit.start * drawn,
        why_not_printed(fit),
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
    if task.table.column("drop") is None or task.table.column("current") is None:
        return None
    drop, current = cells(task, "drop"), cells(task, "current")
    rows = zip(task.table.column("time").cells, drop, current, hot, strict=True)  # type: ignore[union-attr]
    known = [
        (time.value, one, other, warm)
        for time, one, other, warm in rows
        if time is not None and one is not None and other is not None and warm is not None
    ]
    if not known:
        return None
    _, one, other, warm = known[-1]
    noises = [noise_of(task, each) for each in (one, other, warm)]
    if None in noises:
        return None
    readings = [Electrical(time, drop.x, current.x, warm.x) for time, drop, current, warm in known]
    noise = Noise(*(each or 0.0 for each in noises))
    return trend(readings, noise, Coefficient(), allowance=task.measure.worsening.si * 3600)


def _between(found: Limited | None) -> Between | None:
    return None if found is None else Between(found.value, found.low, found.high)
