"""What a piece cost: exact sums, never converted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.evaluation.prices import piece_price
from generator.pages.format import money
from generator.records.money import Money
from generator.records.schema.item import Specimen


@dataclass(frozen=True)
class Price:
    """What a piece cost, as text: one price, or the lowest (bare) and the highest of several.

    `also` is the same in each other currency that was paid: sums of two do not compare.
    """

    low: str
    high: str = ""
    also: tuple[Price, ...] = ()


def price_each(specimens: Iterable[Specimen]) -> Price | None:
    """What one piece cost, over several, each currency by itself; None where nothing was paid."""
    paid: dict[str, list[Money]] = {}
    for each in map(piece_price, specimens):
        if each is not None:
            paid.setdefault(each.currency, []).append(each)
    if not paid:
        return None
    first, *others = (_over(prices) for prices in paid.values())
    return Price(first.low, first.high, tuple(others))


def _over(prices: Iterable[Money]) -> Price:
    ordered = sorted(prices, key=lambda each: each.amount)
    low, high = ordered[0], ordered[-1]
    return Price(money(low)) if low.amount == high.amount else Price(f"{low.amount:f}", money(high))
