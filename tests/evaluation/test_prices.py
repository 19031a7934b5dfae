"""Purchases: what was paid alike, a piece's share, whole packs, one sum a currency."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from generator.evaluation.prices import by_currency, packs, purchases, share
from generator.records.money import parse_money
from tests.pages.factory import demo


def item(**pieces: dict[str, Any]) -> Any:
    like = demo().items["grenlo-30"]
    bare = like.specimens["A"].model_copy(
        update={"paid": None, "pack": 1, "date": date(2026, 1, 2), "from_": None}
    )
    return like.model_copy(
        update={"specimens": {letter: bare.model_copy(update=facts) for letter, facts in pieces.items()}}
    )


def test_pieces_paid_alike_are_one_purchase_oldest_first() -> None:
    paid, later = parse_money("6.40 EUR"), parse_money("7.00 EUR")
    found = purchases(
        item(
            A={"paid": later, "date": date(2026, 5, 1)},
            B={"paid": paid, "from_": "web shop"},
            C={"paid": paid, "from_": "web shop"},
            D={"paid": paid},
            E={},
        )
    )
    assert [each.specimens for each in found] == [("B", "C"), ("D",), ("A",)]
    assert [each.seller for each in found] == ["web shop", "", ""]
    assert purchases(item(A={"paid": paid}, B={"paid": later}), ["B"])[0].paid == later
    assert purchases(item(A={})) == ()


@pytest.mark.parametrize(
    ("paid", "pack", "each"),
    [
        ("10.00 EUR", 3, "3.33 EUR"),
        ("0.05 EUR", 2, "0.02 EUR"),
        ("4.8 EUR", 1, "4.8 EUR"),
        ("100 JPY", 8, "12.50 JPY"),
    ],
)
def test_a_piece_costs_its_share_of_the_pack(paid: str, pack: int, each: str) -> None:
    assert share(parse_money(paid), pack).text == each


def test_packs_are_bought_whole() -> None:
    (found,) = purchases(item(A={"paid": parse_money("10.00 EUR"), "pack": 3}))
    assert [packs(found, pieces).text for pieces in (1, 3, 4)] == ["10.00 EUR", "10.00 EUR", "20.00 EUR"]


def test_no_currency_is_turned_into_another() -> None:
    sums = by_currency(map(parse_money, ("1.10 USD", "2.20 EUR", "3.30 USD")))
    assert [each.text for each in sums] == ["2.20 EUR", "4.40 USD"]
