"""Prices of a report: the last purchase stands, sets by their weights, each currency by itself."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from generator.evaluation.priced import PriceFinding, priced
from generator.evaluation.prices_as_data import prices_as_data
from generator.records.bench import load
from tests.evaluation.small import Small, table

EURO = {
    "anvo": ("paid: 9.00 EUR, pack: 4, from: web shop, date: 2026-01-10",),
    "belk": (
        "paid: 2.00 EUR, from: chandler, date: 2026-01-02",
        "paid: 2.40 EUR, from: chandler, date: 2026-02-03",
    ),
    "corin": ("paid: 1.00 EUR, date: 2026-01-05",),
}
RATE = "{one: USD, worth: 0.92 EUR, date: 2026-03-01, source: a list of that day}"


def found(root: Path, bought: Mapping[str, tuple[str, ...]], more: str = "") -> PriceFinding:
    bench = Small(root)
    for number, (item, pieces) in enumerate(bought.items()):
        for letter in "ABC"[: len(pieces)]:
            bench.run(item, letter, table(30.0 + number))
    bench.finish()
    for item, pieces in bought.items():
        told = "".join(
            f"  {letter}: {{got: {'bought, ' + paid if paid else 'lent'}}}\n"
            for letter, paid in zip("ABC", pieces, strict=False)
        )
        bench.write(f"items/{item}.yml", f"maker: {item.title()}\nmodel: X\nspecimens:\n{told}")
    text = (root / "reports/r/report.yml").read_text(encoding="utf-8")
    bench.write("r/report.yml", text + more)
    loaded = load(root)
    assert loaded.faults == ()
    return priced(loaded, loaded.reports["r"])


def test_the_last_purchase_stands(tmp_path: Path) -> None:
    prices = found(tmp_path, EURO)
    assert prices.currency == "EUR"
    told = {each.item: each for each in prices.items}
    assert [each.text for each in (told["anvo"].told, told["belk"].told) if each] == ["2.25 EUR", "2.40 EUR"]
    span = told["belk"].span
    assert span is not None
    assert [each.text for each in span] == ["2.00 EUR", "2.40 EUR"]
    assert [each.specimens for each in told["belk"].purchases] == [("A",), ("B",)]
    assert (told["anvo"].last.pack, told["anvo"].last.seller) == (4, "web shop")


def test_a_set_is_its_pieces_by_their_weights(tmp_path: Path) -> None:
    sets = "sets: [{name: a boat, of: {anvo: 3, belk: 2, corin: 4}}]\n"
    (boat,) = found(tmp_path, EURO, sets).sets
    exact = 3 * Fraction(9, 4) + 2 * Fraction("2.4") + 4
    assert [Fraction(each.amount) for each in boat.sums] == [exact]
    assert boat.each is not None
    assert boat.each.amount == Decimal(f"{float(exact / 9):.2f}")
    assert (str(boat.first), str(boat.last)) == ("2026-01-05", "2026-02-03")
    assert boat.of == (("anvo", 3), ("belk", 2), ("corin", 4))


def test_a_set_is_rounded_once_at_the_end(tmp_path: Path) -> None:
    thirds = {"anvo": ("paid: 1.00 EUR, pack: 3",), "belk": ("paid: 1.00 EUR, pack: 3",)}
    (boat,) = found(tmp_path, thirds, "sets: [{name: a boat, of: {anvo: 300, belk: 300}}]\n").sets
    assert boat.sums[0].text == "200.00 EUR"  # 600 times 0.33 would be 198


TWO = {"anvo": ("paid: 2.00 EUR, date: 2026-01-10",), "belk": ("paid: 3.00 USD, date: 2026-01-12",)}
SET = "sets: [{name: a boat, of: {anvo: 2, belk: 3}}]\n"


def test_without_a_rate_currencies_stand_side_by_side(tmp_path: Path) -> None:
    prices = found(tmp_path, TWO, SET)
    assert prices.currency == ""
    assert [each.told for each in prices.items] == [None, None]
    assert [each.text for each in prices.sets[0].sums] == ["4.00 EUR", "9.00 USD"]
    assert prices.sets[0].each is None


def test_with_a_rate_and_its_day_there_is_one_sum(tmp_path: Path) -> None:
    prices = found(tmp_path, TWO, SET + f"rates: [{RATE}]\n")
    assert prices.currency == "EUR"
    assert [each.told.text for each in prices.items if each.told] == ["2.00 EUR", "2.76 EUR"]
    assert [each.rate is None for each in prices.items] == [True, False]
    # 2·2.00 + 3·3.00·0.92 = 12.28.
    assert [each.text for each in prices.sets[0].sums] == ["12.28 EUR"]
    assert [str(each.date) for each in prices.rates] == ["2026-03-01"]


def test_a_rate_that_leads_nowhere_is_not_told_and_mixes_nothing(tmp_path: Path) -> None:
    swedish = {**TWO, "corin": ("paid: 30 SEK",)}
    prices = found(
        tmp_path, swedish, f"sets: [{{name: a boat, of: {{anvo: 1, corin: 1}}}}]\nrates: [{RATE}]\n"
    )
    told = {each.item: each.told for each in prices.items}
    assert told["corin"] is None
    assert [each.text for each in prices.sets[0].sums] == ["2.00 EUR", "30.00 SEK"]
    alone = found(tmp_path / "b", {"anvo": TWO["anvo"]}, f"rates: [{RATE}]\n")
    assert alone.rates == ()


def test_an_item_without_a_price_leaves_its_set_without_a_sum(tmp_path: Path) -> None:
    prices = found(tmp_path, {**EURO, "dorv": ("",)}, "sets: [{name: a boat, of: {anvo: 1, dorv: 2}}]\n")
    assert [each.item for each in prices.items] == ["anvo", "belk", "corin"]
    assert (prices.sets[0].sums, prices.sets[0].each, prices.sets[0].without) == ((), None, ("dorv",))


@pytest.mark.parametrize("rates", ["", f"rates: [{RATE}]\n"])
def test_as_data_nothing_is_rounded_by_a_reader(tmp_path: Path, rates: str) -> None:
    told: Any = prices_as_data(found(tmp_path, TWO, SET + rates))
    assert told["items"][1]["purchases"][0]["paid"] == {"amount": "3.00", "currency": "USD"}
    assert (told["currency"], len(told["rates"])) == (("EUR", 1) if rates else (None, 0))
    assert told["sets"][0]["dates"] == ["2026-01-10", "2026-01-12"]
