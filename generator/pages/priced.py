"""What the part about prices is given: its drawing, a row an item, sets, and the rates that were used."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.charts.description import Name
from generator.charts.prices import PriceChart, PriceStill, price_chart, price_still
from generator.evaluation.findings import ItemFinding, MeasureFinding, ReportFinding
from generator.evaluation.priced import ItemPrice, SetPrice
from generator.evaluation.prices import Purchase
from generator.pages.format import SIGNS, Day, Plus, day, minutes, money
from generator.pages.in_unit import in_unit
from generator.pages.shown import Shown, shown


@dataclass(frozen=True)
class PriceFacts:
    """What the words around the drawing are made of.

    Attributes:
        title: Name of the measure.
        mark: Its time mark; empty without one.
        rise: Whether its figures are rises.
        unit: Their unit.
        unit_us: The same in the other system; empty where it serves everyone.
        currency: Of the prices.
        better: Which way is better; empty where neither is.
        points: How many items are drawn.
        ranges: Whether an item has several prices.
        single: Whether an item of one piece is drawn.
    """

    title: str
    mark: str
    rise: bool
    unit: str
    unit_us: str
    currency: str
    better: str
    points: int
    ranges: bool
    single: bool


@dataclass(frozen=True)
class PriceChartView:
    """The drawing: its id, what is placed, and the facts of its words."""

    id: str
    still: PriceStill
    facts: PriceFacts


@dataclass(frozen=True)
class PurchaseView:
    """Pieces that were paid alike; empty or None what is not recorded."""

    each: str
    paid: str
    pack: int
    day: Day | None
    seller: str


@dataclass(frozen=True)
class PriceRow:
    """One item.

    Attributes:
        id: Its id.
        name: Maker and model.
        each: What a piece cost last, as paid.
        turned: The same in the report's currency, where a rate turned it; else empty.
        plus: Its figure by the main measure; None without one.
        why_not: Why there is none.
        n: Pieces that it rests on.
        purchases: The last first.
    """

    id: str
    name: str
    each: str
    turned: str
    plus: Plus | None
    why_not: str
    n: int
    purchases: tuple[PurchaseView, ...]


@dataclass(frozen=True)
class SetView:
    """A set: its parts as count and name, sums, a piece of it on average, and the days of its prices."""

    name: str
    of: tuple[tuple[int, str], ...]
    sums: tuple[str, ...]
    each: str
    without: tuple[str, ...]
    first: Day | None
    last: Day | None


@dataclass(frozen=True)
class RateView:
    """A rate that was used."""

    one: str
    worth: str
    day: Day
    source: str


@dataclass(frozen=True)
class PricesView:
    """Everything that `fragments/prices.html.jinja` is given.

    Attributes:
        chart: Price against figure; None where fewer than two items have both.
        currency: That prices are told in; empty where nothing leads to one.
        title: Name of the main measure; empty without one that has figures.
        rows: Items that have a price.
        without: Names of items that have none.
        sets: The report's sets.
        rates: Rates that were used.
    """

    chart: PriceChartView | None
    currency: str
    title: str
    rows: tuple[PriceRow, ...]
    without: tuple[str, ...]
    sets: tuple[SetView, ...]
    rates: tuple[RateView, ...]


def prices_view(
    finding: ReportFinding, names: Mapping[str, Name], titles: Mapping[str, str], chart_id: str
) -> PricesView | None:
    """What the part about prices says; None where nothing was paid for.

    Args:
        finding: Of the report.
        names: Of its items, by id.
        titles: Of its measures, by id.
        chart_id: Unique on the page.
    """
    found = finding.prices
    if not found.items:
        return None
    measure = next((each for each in finding.measures if each.measure == finding.main), None)
    unit = shown(measure) if measure else Shown("")
    by_item = {each.item: each for each in measure.items} if measure else {}
    priced = {each.item for each in found.items}
    everyone = [key for key in by_item if key not in priced]
    return PricesView(
        _chart(finding, names, titles, chart_id),
        _sign(found.currency),
        titles[measure.measure] if measure else "",
        tuple(_row(each, names, by_item.get(each.item), unit) for each in found.items),
        tuple(names[key].full for key in everyone),
        tuple(_set(each, names) for each in found.sets),
        tuple(RateView(each.one, money(each.worth), day(each.date), each.source) for each in found.rates),
    )


def _chart(
    finding: ReportFinding, names: Mapping[str, Name], titles: Mapping[str, str], chart_id: str
) -> PriceChartView | None:
    measure = next((each for each in finding.measures if each.measure == finding.main), None)
    if measure is None:
        return None
    described = price_chart(chart_id, in_unit(shown(measure), measure), finding.prices, names)
    if described is None:
        return None
    return PriceChartView(
        described.id, price_still(described), _facts(described, measure, titles[measure.measure])
    )


def _facts(chart: PriceChart, measure: MeasureFinding, title: str) -> PriceFacts:
    told = shown(measure).plus(1.0, 1.0)
    return PriceFacts(
        title=title,
        mark=minutes(measure.at) if measure.at is not None else "",
        rise=told.rise,
        unit=told.unit,
        unit_us=told.unit_us,
        currency=_sign(chart.currency),
        better=chart.better or "",
        points=len(chart.points),
        ranges=any(each.low < each.high for each in chart.points),
        single=any(each.single for each in chart.points),
    )


def _row(price: ItemPrice, names: Mapping[str, Name], found: ItemFinding | None, unit: Shown) -> PriceRow:
    return PriceRow(
        price.item,
        names[price.item].full,
        money(price.last.each),
        money(price.told) if price.told is not None and price.rate is not None else "",
        unit.figure(found.figure) if found else None,
        (found.why_not or "") if found else "",
        found.n if found else 0,
        tuple(map(_purchase, reversed(price.purchases))),
    )


def _purchase(bought: Purchase) -> PurchaseView:
    when = day(bought.day) if bought.day else None
    return PurchaseView(money(bought.each), money(bought.paid), bought.pack, when, bought.seller)


def _set(found: SetPrice, names: Mapping[str, Name]) -> SetView:
    return SetView(
        found.name,
        tuple((count, names[key].full) for key, count in found.of),
        tuple(map(money, found.sums)),
        money(found.each) if found.each else "",
        tuple(names[key].full for key in found.without),
        day(found.first) if found.first else None,
        day(found.last) if found.last else None,
    )


def _sign(currency: str) -> str:
    return SIGNS.get(currency, currency)
