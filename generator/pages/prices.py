"""What a piece cost: exact sums, never converted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.evaluation.prices import piece_price
from generator.pages.format import money
from generator.records.schema.item import Specimen


@dataclass(frozen=True)
class Price:
    """What a piece cost, as text: one price, or the lowest (bare) and the highest of several."""

    low: str
    high: str = ""


def price_each(specimens: Iterable[Specimen]) -> Price | None:
    """What one piece cost, over several; None where nothing was paid.

    Where pieces were paid in several currencies, those of the first are told: sums of two do not compare.
    """
    paid = [each for each in map(piece_price, specimens) if each is not None]
    same = sorted((each for each in paid if each.currency == paid[0].currency), key=lambda each: each.amount)
    if not same:
        return None
    low, high = same[0], same[-1]
    return Price(money(low)) if low.amount == high.amount else Price(f"{low.amount:f}", money(high))
