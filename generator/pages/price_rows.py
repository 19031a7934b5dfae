"""The rows of the file of prices: every purchase of the stock that stands."""

from __future__ import annotations

from collections.abc import Iterator

from generator.evaluation.findings import ReportFinding
from generator.evaluation.priced import ItemPrice
from generator.pages.us_columns import Cell

PRICES = (
    "item",
    "pieces",
    "day",
    "from",
    "paid",
    "currency",
    "pack",
    "each",
    "stands",
    "each, turned",
    "turned into",
    "rate",
    "day of the rate",
)


def price_rows(finding: ReportFinding) -> Iterator[tuple[Cell, ...]]:
    """A row a purchase; what a rate turned it into stands behind the last of an item."""
    for item in finding.prices.items:
        for each in item.purchases:
            yield (
                item.item,
                " ".join(each.specimens),
                each.day.isoformat() if each.day else "",
                each.seller,
                each.paid.amount,
                each.paid.currency,
                each.pack,
                each.each.amount,
                "yes" if each is item.last else "no",
                *(_turned(item) if each is item.last else (None,) * 4),
            )


def _turned(item: ItemPrice) -> tuple[Cell, ...]:
    if item.rate is None or item.told is None:
        return (None,) * 4
    return item.told.amount, item.told.currency, item.rate.worth.amount, item.rate.date.isoformat()
