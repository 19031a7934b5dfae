"""The part about prices: each currency by itself, a rate with its day, sets, the drawing and its file."""

from __future__ import annotations

import csv
import dataclasses
import io
from datetime import date
from typing import Any

from generator.pages.site import Site
from generator.records.bench import Bench
from generator.records.money import parse_money
from generator.records.schema.report import Rate, SetOfPieces
from tests.pages.factory import demo, demo_site
from tests.pages.rendered import Parsed, parsed
from tests.pages.sites import made

REPORT = "r/fuse-holders-30a/index.md"
NB = "\N{NO-BREAK SPACE}"
SET = SetOfPieces.model_construct(name="one boat", of={"okvarn-ih30": 4, "veldrun-v30": 2})
RATE = Rate.model_construct(
    one="USD", worth=parse_money("0.92 EUR"), date=date(2026, 3, 1), source="a list of that day"
)


def bench(paid: str | None, *, sets: tuple[Any, ...] = (), rates: tuple[Any, ...] = ()) -> Bench:
    """The demo, what was paid for each piece of one item changed."""
    whole = demo()
    item, report = whole.items["okvarn-ih30"], whole.reports["fuse-holders-30a"]
    money = parse_money(paid) if paid else None
    pieces = {
        letter: each.model_copy(update={"paid": money, "pack": 3}) for letter, each in item.specimens.items()
    }
    items = {**whole.items, "okvarn-ih30": item.model_copy(update={"specimens": pieces})}
    record = report.record.model_copy(update={"sets": sets, "rates": rates})
    return dataclasses.replace(
        whole, items=items, reports={report.id: dataclasses.replace(report, record=record, editions={})}
    )


def page_of(site: Site) -> Parsed:
    return parsed(next(page for page in site.pages if page.uri == REPORT))


def part(page: Parsed) -> str:
    text = page.text.replace(NB, " ")
    return text.split("Price#", 1)[1].split("How sure?#", 1)[0]


def table(site: Site) -> list[dict[str, str]]:
    content = next(each.content for each in site.downloads if each.uri.endswith("/prices.csv"))
    return list(csv.DictReader(io.StringIO(content.decode())))


def test_the_demo_tells_price_day_seller_and_figure_of_each_item() -> None:
    page = page_of(demo_site())
    told = part(page)
    # Of a changed product what the changed pieces cost.
    assert "Okvarn IH304.75 €" in told
    assert "13 August 2026, web shop" in told
    # Of Tessvik the last purchase stands, and both are told.
    assert "6.15 €, 10 February 2026, web shop" in told
    assert "6.40 €, 3 February 2026, chandler" in told
    assert "4 items: Hotter than the air after 60 min, up, against what a piece cost last, across." in told
    assert "Towards the bottom is better, towards the left is cheaper." in told
    assert len(page.all("div", class_="scatter")) == 1
    # One of the five was stopped: it has a price, no figure and no mark.
    assert [each.attributes["href"] for each in page.all("a") if each.text == "Grenlo 30"]
    assert "Turned into" not in told


def test_the_file_has_every_purchase() -> None:
    rows = table(demo_site())
    tessvik = [row for row in rows if row["item"] == "tessvik-t30"]
    assert [(row["pieces"], row["each"], row["stands"]) for row in tessvik] == [
        ("A B C", "6.40", "no"),
        ("D E", "6.15", "yes"),
    ]
    assert {row["currency"] for row in rows} == {"EUR"}
    assert {row["rate"] for row in rows} == {""}


def test_two_currencies_stand_side_by_side_and_make_no_drawing() -> None:
    site = made(bench("15.00 USD", sets=(SET,)))
    page, told = page_of(site), part(page_of(site))
    assert page.all("div", class_="scatter") == []
    assert "none is turned into another" in told
    assert "Okvarn IH305.00 USD" in told
    assert "pack of 3 at 15.00 USD" in told
    assert "one boat: 4 Okvarn IH30 and 2 Veldrun V30. 6.20 € + 20.00 USD, at prices of 17 " in told
    assert "a piece, at prices" not in told


def test_a_rate_turns_them_and_is_told_with_its_day_and_source() -> None:
    site = made(bench("15.00 USD", sets=(SET,), rates=(RATE,)))
    told = part(page_of(site))
    assert "4.60 € (paid 5.00 USD)" in told
    # 4·5.00·0.92 + 2·3.10 = 24.60, over 6 pieces 4.10.
    assert "24.60 €, 4.10 € a piece, at prices of 17 February to 13 August 2026" in told
    assert "Turned into € at 1 USD = 0.92 € on 1 March 2026 (a list of that day)." in told
    assert len(page_of(site).all("div", class_="scatter")) == 1
    row = next(row for row in table(site) if (row["item"], row["stands"]) == ("okvarn-ih30", "yes"))
    assert (row["each"], row["currency"]) == ("5.00", "USD")
    assert (row["each, turned"], row["turned into"], row["rate"]) == ("4.60", "EUR", "0.92")
    assert row["day of the rate"] == "2026-03-01"


def test_an_item_without_a_price_is_named_and_its_set_has_no_sum() -> None:
    told = part(page_of(made(bench(None, sets=(SET,)))))
    assert "No price is recorded of Okvarn IH30." in told
    assert "No sum, since no price is recorded of Okvarn IH30." in told
