"""Which stock of an item is the newest, and how readers know a stock."""

from __future__ import annotations

from collections.abc import Iterable

from generator.records.schema.item import Item

FIRST_STOCK = "first"
"""Stands for the stock that no record names: pieces from before any change."""


def newest_stock(item: Item, stocks: Iterable[str]) -> str:
    """The newest of some stocks, by id: a record lists them oldest first, behind the first of all."""
    order = ["", *item.stocks]
    return max(stocks, key=order.index, default="")


def stock_name(item: Item, stock: str) -> str:
    """How readers know a stock; empty for an item that has one only."""
    if not item.stocks:
        return ""
    return item.stocks[stock].name if stock else FIRST_STOCK
