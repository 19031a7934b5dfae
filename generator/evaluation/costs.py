"""What the pieces of a planned comparison cost: as they were bought last, or as said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.evaluation.prices import Purchase, by_currency, packs, purchases

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.money import Money


@dataclass(frozen=True)
class Price:
    """What an item costs.

    Attributes:
        item: Its name.
        purchase: How it is bought: as last recorded, or one piece at the price that was said.
        recorded: Whether it is from the records.
    """

    item: str
    purchase: Purchase
    recorded: bool


@dataclass(frozen=True)
class Cost:
    """What so many pieces of each item cost.

    Attributes:
        sums: One a currency; none is turned into another.
        without: Items without a price, which are in no sum.
    """

    sums: tuple[Money, ...]
    without: tuple[str, ...]


def prices_of(bench: Bench, names: Sequence[str], said: Mapping[str, Money]) -> tuple[Price, ...]:
    """The price of each item that has one: as said of it, else as last paid, else as said of the rest."""
    found = []
    for name in names:
        paid = purchases(bench.items[name]) if name in bench.items else ()
        if name in said:
            found.append(Price(name, _one(said[name]), recorded=False))
        elif paid:
            found.append(Price(name, paid[-1], recorded=True))
        elif "" in said:
            found.append(Price(name, _one(said[""]), recorded=False))
    return tuple(found)


def costs(prices: Sequence[Price], names: Sequence[str], pieces: int) -> Cost:
    """What `pieces` of each item cost, in whole packs."""
    known = {each.item for each in prices}
    sums = by_currency(packs(each.purchase, pieces) for each in prices)
    return Cost(sums, tuple(name for name in names if name not in known))


def _one(price: Money) -> Purchase:
    return Purchase((), price, 1, price, None, "")
