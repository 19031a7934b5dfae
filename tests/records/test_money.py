"""Prices: exact amounts, and currencies that can be told apart."""

from __future__ import annotations

from decimal import Decimal

import pytest
from babel.numbers import list_currencies
from hypothesis import given
from hypothesis import strategies as st

from generator.records.money import CURRENCIES, parse_money
from generator.records.quantity import QuantityError


@pytest.mark.parametrize(
    ("text", "amount", "currency"),
    [
        ("4.80 EUR", "4.80", "EUR"),
        ("EUR 4.80", "4.80", "EUR"),
        ("€4.80", "4.80", "EUR"),
        ("4.80 €", "4.80", "EUR"),
        ("£3", "3", "GBP"),
        ("0 EUR", "0", "EUR"),
        ("1200 JPY", "1200", "JPY"),
        ("4.80\u00a0EUR", "4.80", "EUR"),
    ],
)
def test_prices(text: str, amount: str, currency: str) -> None:
    found = parse_money(text)
    assert (found.text, str(found.amount), found.currency) == (text, amount, currency)


@given(st.decimals(0, 99999, places=2), st.sampled_from(sorted(CURRENCIES)))
def test_a_price_reads_back_to_the_cent(amount: Decimal, currency: str) -> None:
    found = parse_money(f"{amount} {currency}")
    assert (found.amount, found.currency) == (amount, currency)


@pytest.mark.parametrize(
    ("text", "what", "accepted"),
    [
        ("4,80 EUR", "a decimal comma; write 4.80 EUR", ("4.80 EUR",)),
        ("€4,8", "a decimal comma; write €4.8", ("4.80 EUR",)),
        ("$4", "'$' may be several currencies; write which", ("USD", "AUD", "CAD", "NZD")),
        ("12 kr", "'kr' may be several currencies; write which", ("SEK", "NOK", "DKK")),
        ("4.80 eur", "'eur' is no currency of ISO 4217", ("4.80 EUR",)),
        ("3 XYZ", "'XYZ' is no currency of ISO 4217", ("4.80 EUR",)),
        ("4.8", "not a price: an amount and three letters for the currency", ("4.80 EUR",)),
        ("-4 EUR", "not a price: an amount and three letters for the currency", ("4.80 EUR",)),
        ("about 4 EUR", "not a price: an amount and three letters for the currency", ("4.80 EUR",)),
    ],
)
def test_what_is_no_price(text: str, what: str, accepted: tuple[str, ...]) -> None:
    with pytest.raises(QuantityError) as raised:
        parse_money(text)
    assert (raised.value.what, raised.value.accepted) == (what, accepted)


def test_every_currency_is_one_of_unicodes_list() -> None:
    """Unicode's CLDR, as the babel library carries it, holds the codes of ISO 4217 old and new."""
    known = set(list_currencies())
    assert len(CURRENCIES) > 150
    assert {code for code in CURRENCIES if code not in known} <= {"ZWG"}, "ZWG is newer than older releases"
