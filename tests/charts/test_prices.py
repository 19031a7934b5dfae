"""Price against figure: which items are drawn, where, and one drawing held byte for byte."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from generator.charts.description import Name
from generator.charts.prices import PriceChart, price_chart, price_still
from generator.evaluation.findings import ReportFinding
from generator.evaluation.priced import ItemPrice, PriceFinding
from generator.evaluation.prices import Purchase, money
from generator.pages.priced import prices_view
from generator.pages.render import Renderer
from tests.pages.factory import HOLDERS, ROOT

NAMES = {
    "cool": Name("Tessvik T30", "Tessvik"),
    "single": Name("Veldrun V30", "Veldrun"),
    "stops": Name("Grenlo 30", "Grenlo"),
    "plain-cable": Name("plain cable", "plain cable"),
}
GOLDEN = Path(__file__).with_name("prices.svg")


def price(item: str, *amounts: str, currency: str = "EUR") -> ItemPrice:
    paid = [money(Decimal(each), currency) for each in amounts]
    of = tuple(Purchase((), each, 1, each, date(2026, 1, 2), "chandler") for each in paid)
    ordered = sorted(paid, key=lambda each: each.amount)
    return ItemPrice(item, of, paid[-1], None, (ordered[0], ordered[-1]))


PRICES = PriceFinding(
    "EUR", (price("cool", "6.40", "6.15"), price("single", "2.20"), price("stops", "1.20")), (), ()
)


def chart() -> PriceChart:
    found = price_chart("t", HOLDERS, PRICES, NAMES)
    assert found is not None
    return found


def drawn(names: dict[str, Name]) -> str:
    finding = ReportFinding("r", HOLDERS.measure, (HOLDERS,), (), 0, prices=PRICES)
    view = prices_view(finding, names, {HOLDERS.measure: "Hotter than the air"}, "t")
    assert view is not None
    assert view.chart is not None
    return Renderer(ROOT).fragment(
        "charts/prices.svg.jinja", id="t", still=view.chart.still, facts=view.chart.facts
    )


def test_the_drawing_is_the_one_that_was_looked_at() -> None:
    assert drawn(NAMES) == GOLDEN.read_text(encoding="utf-8")


def test_it_is_well_formed_and_names_are_text() -> None:
    made = drawn({**NAMES, "single": Name("A&B <i>", "A&B <i>")})
    root = ET.fromstring(made)  # noqa: S314  # our own
    assert root.get("aria-describedby") == "t-says"
    assert "A&amp;B &lt;i&gt;" in made
    ids = {each.get("id") for each in root.iter() if each.get("id")}
    assert {(each.get("href") or "").removeprefix("#") for each in root.iter("use")} <= ids


def test_only_items_with_price_and_figure_are_drawn() -> None:
    described = chart()
    assert [each.item for each in described.points] == ["cool", "single"]
    assert [each.single for each in described.points] == [False, True]
    first = described.points[0]
    assert (first.price, first.low, first.high) == (6.15, 6.15, 6.4)


def test_a_mark_stands_at_its_price_and_its_figure() -> None:
    described = chart()
    placed = price_still(described)
    for point, mark in zip(described.points, placed.marks, strict=True):
        assert float(mark.x[:-1]) == pytest.approx(100 * point.price / described.x.high, abs=0.01)
        up = (point.figure.value - described.y.low) / (described.y.high - described.y.low)
        assert float(mark.y[:-1]) == pytest.approx(100 * (1 - up), abs=0.01)
        assert float(mark.top[:-1]) < float(mark.y[:-1]) < float(mark.bottom[:-1])
    assert placed.marks[0].right
    assert not placed.marks[1].right
    assert [mark.before for mark in placed.marks] == [True, False]
    assert [mark.filled for mark in placed.marks] == [True, False]


def test_ticks_are_round_in_both_systems() -> None:
    placed = price_still(chart())
    assert placed.y_ticks[0].text == placed.y_ticks_us[0].text == "0"
    assert placed.y_ticks[0].at == placed.y_ticks_us[0].at
    assert [tick.text for tick in placed.y_ticks] != [tick.text for tick in placed.y_ticks_us]


def test_there_is_no_drawing_of_one_item_or_of_two_currencies() -> None:
    one = PriceFinding("EUR", PRICES.items[:1], (), ())
    assert price_chart("t", HOLDERS, one, NAMES) is None
    apart = tuple(ItemPrice(each.item, each.purchases, None, None) for each in PRICES.items)
    assert price_chart("t", HOLDERS, PriceFinding("", apart, (), ()), NAMES) is None
