"""Price against figure: what each item costs and what it was found to be; the still's places among it.

Nothing is said of one going with the other: each mark is an item.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from generator.analysis.interval import Estimate
from generator.charts.description import Name
from generator.charts.looks import Look, look_of
from generator.charts.numerals import tick_texts
from generator.charts.scales import Scale, label_places, value_scale
from generator.charts.still import HEIGHT, LABEL_GAP, Tick, percent
from generator.charts.systems import ticked, units_of
from generator.evaluation.findings import MeasureFinding
from generator.evaluation.priced import ItemPrice, PriceFinding

FEWEST = 2
"""Items that a drawing needs."""

LEFT_FROM = 0.5
"""From this part of the width on a name stands left of its mark."""


@dataclass(frozen=True)
class PricePoint:
    """One item.

    Attributes:
        item: Its id.
        name: Its name.
        look: Colour role and marker.
        price: What a piece cost last, in the chart's currency.
        low: The lowest of its prices.
        high: The highest.
        figure: What it was found to be.
        single: Whether one piece stands for it.
    """

    item: str
    name: Name
    look: Look
    price: float
    low: float
    high: float
    figure: Estimate
    single: bool


@dataclass(frozen=True)
class PriceChart:
    """A figure against the price of a piece.

    Attributes:
        id: Unique on its page.
        currency: Of the prices.
        unit: Of the figures; K for a rise.
        better: Which way a figure is better; None where neither is.
        x: Prices.
        y: Figures.
        points: In the report's order.
    """

    id: str
    currency: str
    unit: str
    better: Literal["higher", "lower"] | None
    x: Scale
    y: Scale
    points: tuple[PricePoint, ...]


@dataclass(frozen=True)
class PriceMark:
    """A mark, in percent across and down: its ± from top to bottom, its prices from left to right, its name.

    Attributes:
        look: Colour role and marker.
        filled: Whether several pieces stand for it.
        x, y: Where it stands.
        top, bottom: Ends of its ±.
        left, right: Ends of its prices; empty where there is one.
        name: Its short name.
        name_y: How far down the name stands.
        before: Whether the name stands left of it.
    """

    look: Look
    filled: bool
    x: str
    y: str
    top: str
    bottom: str
    left: str
    right: str
    name: str
    name_y: str
    before: bool


@dataclass(frozen=True)
class PriceStill:
    """Everything that the template draws."""

    x_ticks: tuple[Tick, ...]
    y_ticks: tuple[Tick, ...]
    y_ticks_us: tuple[Tick, ...]
    marks: tuple[PriceMark, ...]


def price_chart(
    chart_id: str, measure: MeasureFinding, prices: PriceFinding, names: Mapping[str, Name]
) -> PriceChart | None:
    """Describe a measure against prices; None where fewer than two items have both in one currency.

    Args:
        chart_id: An id, unique on the page.
        measure: What was found, in the unit that it is told in.
        prices: What the items cost.
        names: Names of all items by id.
    """
    told = {each.item: each for each in prices.items if each.told is not None and each.span is not None}
    points = tuple(
        _point(told[each.item], each.figure, names[each.item], each.order, single=each.n == 1)
        for each in measure.items
        if each.figure is not None and each.item in told
    )
    if len(points) < FEWEST:
        return None
    ends = [end for each in points for end in (each.figure.low, each.figure.high)]
    x = value_scale([each.high for each in points])
    return PriceChart(chart_id, prices.currency, measure.unit, measure.better, x, value_scale(ends), points)


def _point(price: ItemPrice, figure: Estimate, name: Name, order: int, *, single: bool) -> PricePoint:
    assert price.told is not None and price.span is not None  # noqa: S101, PT018
    low, high = price.span
    last, lowest, highest = (float(each.amount) for each in (price.told, low, high))
    return PricePoint(price.item, name, look_of(order), last, lowest, highest, figure, single)


def price_still(chart: PriceChart) -> PriceStill:
    """Place a drawing."""
    metric, us = units_of(chart.unit)
    heights = [1 - chart.y.part(each.figure.value) for each in chart.points]
    named = label_places(heights, LABEL_GAP / HEIGHT, 0.0, 1.0)
    return PriceStill(
        tuple(Tick(percent(chart.x.part(tick)), text) for tick, text in _texts(chart.x)),
        _down(chart, ticked(chart.y, metric), metric.factor, metric.offset),
        _down(chart, ticked(chart.y, us), us.factor, us.offset) if us else (),
        tuple(_mark(chart, each, place) for each, place in zip(chart.points, named, strict=True)),
    )


def _texts(scale: Scale) -> zip[tuple[float, str]]:
    return zip(scale.ticks, tick_texts(scale.ticks), strict=True)


def _down(chart: PriceChart, scale: Scale, factor: float, offset: float) -> tuple[Tick, ...]:
    texts = tick_texts([tick * factor + offset for tick in scale.ticks])
    places = [percent(1 - chart.y.part(tick)) for tick in scale.ticks]
    return tuple(Tick(place, text) for place, text in zip(places, texts, strict=True))


def _mark(chart: PriceChart, point: PricePoint, name_y: float) -> PriceMark:
    across, several = chart.x.part(point.price), point.low < point.high
    return PriceMark(
        point.look,
        not point.single,
        percent(across),
        percent(1 - chart.y.part(point.figure.value)),
        percent(1 - chart.y.part(point.figure.high)),
        percent(1 - chart.y.part(point.figure.low)),
        percent(chart.x.part(point.low)) if several else "",
        percent(chart.x.part(point.high)) if several else "",
        point.name.short,
        percent(name_y),
        across >= LEFT_FROM,
    )
