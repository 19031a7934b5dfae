"""Prices as plain data for other programs."""

from __future__ import annotations

from generator.evaluation.priced import ItemPrice, PriceFinding, SetPrice
from generator.evaluation.prices import Purchase
from generator.records.money import Money


def prices_as_data(found: PriceFinding) -> dict[str, object]:
    """Prices of a report; amounts are texts, so that no program rounds them."""
    return {
        "currency": found.currency or None,
        "items": [_item(each) for each in found.items],
        "sets": [_set(each) for each in found.sets],
        "rates": [
            {
                "one": each.one,
                "worth": money_as_data(each.worth),
                "date": each.date.isoformat(),
                "source": each.source,
            }
            for each in found.rates
        ],
    }


def money_as_data(money: Money | None) -> dict[str, str] | None:
    """An amount and its currency; None without one."""
    return None if money is None else {"amount": f"{money.amount:f}", "currency": money.currency}


def _item(found: ItemPrice) -> dict[str, object]:
    return {
        "item": found.item,
        "each": money_as_data(found.told),
        "purchases": [_purchase(each) for each in found.purchases],
    }


def _purchase(found: Purchase) -> dict[str, object]:
    return {
        "specimens": list(found.specimens),
        "paid": money_as_data(found.paid),
        "pack": found.pack,
        "each": money_as_data(found.each),
        "date": found.day.isoformat() if found.day else None,
        "seller": found.seller or None,
    }


def _set(found: SetPrice) -> dict[str, object]:
    return {
        "name": found.name,
        "of": dict(found.of),
        "sums": [money_as_data(each) for each in found.sums],
        "each": money_as_data(found.each),
        "without_price": list(found.without),
        "dates": [each.isoformat() if each else None for each in (found.first, found.last)],
    }
