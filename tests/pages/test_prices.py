"""What a piece cost."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from generator.evaluation.prices import piece_price
from generator.pages.prices import Price, price_each
from generator.records.money import parse_money
from tests.pages.factory import demo


def piece(paid: str | None, pack: int = 1) -> Any:
    like = demo().items["grenlo-30"].specimens["A"]
    return like.model_copy(update={"paid": parse_money(paid) if paid else None, "pack": pack})


def test_one_price_is_told_once_and_two_as_lowest_and_highest() -> None:
    assert price_each([piece("6.40 EUR"), piece("6.40 EUR")]) == Price("6.40\N{NO-BREAK SPACE}€")
    assert price_each([piece("6.40 EUR"), piece("6.15 EUR")]) == Price("6.15", "6.40\N{NO-BREAK SPACE}€")


def test_a_piece_of_a_pack_costs_its_share_to_the_cent() -> None:
    found = piece_price(piece("10.00 EUR", 3))
    assert found is not None
    assert found.amount == Decimal("3.33")


def test_nothing_paid_is_no_price() -> None:
    assert price_each([piece(None)]) is None


def test_sums_of_two_currencies_stand_side_by_side() -> None:
    found = price_each([piece("6.40 EUR"), piece("1.00 USD"), piece("6.00 EUR"), piece("1.00 USD")])
    assert found == Price("6.00", "6.40\N{NO-BREAK SPACE}€", (Price("1.00\N{NO-BREAK SPACE}USD"),))
