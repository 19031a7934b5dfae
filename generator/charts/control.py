"""A control chart: single results in their order, their mean, and limits of three standard deviations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.control import Limits
from generator.charts.numerals import tick_texts
from generator.charts.scales import Scale, near_scale
from generator.charts.still import Tick, percent
from generator.charts.systems import Unit, units_of


@dataclass(frozen=True)
class ControlDrawing:
    """Everything that `charts/control.svg.jinja` draws, in percent of its box.

    Attributes:
        y_ticks: Ticks of the figures.
        y_ticks_us: The same where figures are round in the US unit; empty where one unit serves everyone.
        unit: Unit of the figures.
        unit_us: The US unit; empty without one.
        centre: How far down the mean lies.
        limits: How far down the limits lie, the upper first.
        within: Results within the limits: across and down.
        beyond: Results beyond them.
    """

    y_ticks: tuple[Tick, ...]
    y_ticks_us: tuple[Tick, ...]
    unit: str
    unit_us: str
    centre: str
    limits: tuple[str, str]
    within: tuple[tuple[str, str], ...]
    beyond: tuple[tuple[str, str], ...]


def control_drawing(values: Sequence[float], limits: Limits, unit: str) -> ControlDrawing:
    """Place the results of a control.

    Args:
        values: In order of time, two at least.
        limits: Their limits.
        unit: Of all of them; `K` is taken for a rise.
    """
    scale = near_scale([*values, limits.low, limits.high])
    metric, us = units_of(unit)
    placed = [
        (percent((place + 0.5) / len(values)), percent(1 - scale.part(value)), limits.beyond(value))
        for place, value in enumerate(values)
    ]
    low, high = (percent(1 - scale.part(each)) for each in (limits.low, limits.high))
    return ControlDrawing(
        near_ticks(scale, metric),
        near_ticks(scale, us) if us is not None else (),
        metric.symbol,
        us.symbol if us is not None else "",
        percent(1 - scale.part(limits.centre)),
        (high, low),
        tuple((across, down) for across, down, out in placed if not out),
        tuple((across, down) for across, down, out in placed if out),
    )


def near_ticks(scale: Scale, unit: Unit, at_most: int = 6) -> tuple[Tick, ...]:
    """Ticks of a scale that runs upwards, where figures are round in a unit; the most of them wanted."""
    own = near_scale([unit.of(scale.low), unit.of(scale.high)], at_most)
    places = [1 - scale.part((tick - unit.offset) / unit.factor) for tick in own.ticks]
    texts = tick_texts(own.ticks)
    told = zip(places, texts, strict=True)
    return tuple(Tick(percent(place), text) for place, text in told if 0 <= place <= 1)
