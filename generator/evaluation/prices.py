"""What pieces cost: purchases as recorded, exact sums, one currency apart from another."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal
from typing import TYPE_CHECKING

from generator.records.money import Money

if TYPE_CHECKING:
    from generator.records.schema.item import Item, Specimen


@dataclass(frozen=True)
class Purchase:
    """Pieces of one item that were paid alike.

    Attributes:
        specimens: Their letters.
        paid: What a pack cost.
        pack: Pieces in a pack.
        each: What one piece cost: its share of the pack, to the hundredth.
        day: The day; None where it is not recorded.
        seller: From whom, as recorded; empty where it is not.
    """

    specimens: tuple[str, ...]
    paid: Money
    pack: int
    each: Money
    day: date | None
    seller: str


def purchases(item: Item, among: Iterable[str] | None = None) -> tuple[Purchase, ...]:
    """What was paid for an item, oldest first; a purchase without a day stands before all.

    Args:
        item: Its record.
        among: Letters of the pieces that are asked about; all of them where left out.
    """
    letters = sorted(item.specimens if among is None else among)
    alike: dict[tuple[Money, int, date | None, str], list[str]] = {}
    for letter in letters:
        piece = item.specimens[letter]
        if piece.paid is not None:
            key = (piece.paid, int(piece.pack), piece.date, piece.from_ or "")
            alike.setdefault(key, []).append(letter)
    found = [
        Purchase(tuple(of), paid, pack, share(paid, pack), day, seller)
        for (paid, pack, day, seller), of in alike.items()
    ]
    return tuple(sorted(found, key=lambda each: (each.day or date.min, each.specimens)))


def piece_price(specimen: Specimen) -> Money | None:
    """What one piece cost; None where nothing was paid."""
    return None if specimen.paid is None else share(specimen.paid, int(specimen.pack))


def share(paid: Money, pack: int) -> Money:
    """One piece's share of a pack, to the hundredth; the price itself where the pack is of one."""
    if pack == 1:
        return money(paid.amount, paid.currency)
    return money((paid.amount / pack).quantize(Decimal("0.01"), ROUND_HALF_EVEN), paid.currency)


def packs(purchase: Purchase, pieces: int) -> Money:
    """What so many pieces cost, bought as this purchase was: whole packs."""
    return money(purchase.paid.amount * -(-pieces // purchase.pack), purchase.paid.currency)


def by_currency(sums: Iterable[Money]) -> tuple[Money, ...]:
    """Sums added up, one a currency, in order of their letters: no currency is turned into another."""
    found: dict[str, Decimal] = {}
    for each in sums:
        found[each.currency] = found.get(each.currency, Decimal(0)) + each.amount
    return tuple(money(found[currency], currency) for currency in sorted(found))


def money(amount: Decimal, currency: str) -> Money:
    """An amount that was worked out, written as a record would have it."""
    return Money(f"{amount:f} {currency}", amount, currency)
