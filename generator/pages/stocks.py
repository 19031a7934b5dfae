"""How readers know a stock of an item."""

from __future__ import annotations

from generator.records.schema.item import Item

FIRST_STOCK = "first"
"""Stands for the stock that no record names: pieces from before any change."""


def stock_name(item: Item, stock: str) -> str:
    """How readers know a stock; empty for an item that has one only."""
    if not item.stocks:
        return ""
    return item.stocks[stock].name if stock else FIRST_STOCK
