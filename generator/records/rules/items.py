"""Items: pieces of stocks that exist, ratings in the quantity that they are of."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.dates import as_known
from generator.records.library import Library
from generator.records.rules.common import absent, plainly
from generator.records.schema.item import Item
from generator.records.units import INTERVAL, QUANTITIES

_QUANTITY_OF = {"rise": INTERVAL, **{each: each for each in QUANTITIES}}


def check(library: Library) -> Iterator[Fault]:
    """Everything that one item's record alone can be wrong in."""
    for item in library.items.values():
        yield from _stocks(item)
        yield from _since(item)
        yield from _ratings(item)
        yield from _bought(item)


def _stocks(item: Item) -> Iterator[Fault]:
    for letter, piece in item.specimens.items():
        if piece.stock is not None and piece.stock not in item.stocks:
            place = item.place_of("specimens", letter, "stock")
            yield absent(
                "this item has no stock", piece.stock, item.stocks, place, f"specimens.{letter}.stock"
            )
    used = {piece.stock for piece in item.specimens.values()}
    for stock in item.stocks:
        if stock not in used:
            yield item.doubt(("stocks", stock), "no piece is of this stock")


def _since(item: Item) -> Iterator[Fault]:
    for letter, piece in item.specimens.items():
        stock = item.stocks.get(piece.stock) if piece.stock is not None else None
        if stock is None or stock.since is None or piece.date is None:
            continue
        if as_known(piece.date, stock.since) < stock.since:
            what = f"had on {piece.date}, and '{piece.stock}' is sold since {stock.since}"
            yield item.fault(("specimens", letter, "stock"), what, piece.stock)


def _ratings(item: Item) -> Iterator[Fault]:
    for number, rating in enumerate(item.ratings):
        wanted = _QUANTITY_OF.get(rating.limit)
        if wanted is not None and rating.value.quantity != wanted:
            what = f"{plainly(wanted)} is wanted here; this is {plainly(rating.value.quantity)}"
            yield item.fault(("ratings", number, "value"), what, rating.value.text)


def _bought(item: Item) -> Iterator[Fault]:
    for letter, piece in item.specimens.items():
        if piece.got == "bought" and piece.paid is None:
            what = "bought, and what was paid is not said; the page can then show no price"
            yield item.doubt(("specimens", letter), what)
        if piece.got == "bought" and piece.paid is not None and not piece.paid.amount:
            what = "bought for nothing; `got` says how it was had: sent, lent or from a viewer"
            yield item.fault(("specimens", letter, "paid"), what, piece.paid.text)
        if piece.got != "bought" and piece.paid is not None:
            what = f"paid for, and had as '{piece.got}'; one of the two is not so"
            yield item.fault(("specimens", letter, "paid"), what, piece.paid.text)
