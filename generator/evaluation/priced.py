"""Prices of a report: what a piece of each item cost, and what sets of them cost, each currency by itself."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal
from typing import TYPE_CHECKING

from generator.evaluation.prices import Purchase, by_currency, money, purchases
from generator.records.money import Money

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from generator.records.bench import Bench, Report
    from generator.records.schema.report import Rate, SetOfPieces

CENT = Decimal("0.01")


@dataclass(frozen=True)
class ItemPrice:
    """What a piece of an item cost.

    Attributes:
        item: Its id.
        purchases: What was paid for its tested pieces of the stock that stands, oldest first.
        told: The last of them, a piece, in the report's currency; None where nothing leads to it.
        rate: By which rate; None where it was paid in that currency.
        span: The lowest and the highest of its prices that lead to that currency; None without one.
    """

    item: str
    purchases: tuple[Purchase, ...]
    told: Money | None
    rate: Rate | None
    span: tuple[Money, Money] | None = None

    @property
    def last(self) -> Purchase:
        """The purchase that stands."""
        return self.purchases[-1]


@dataclass(frozen=True)
class SetPrice:
    """What pieces that are bought together cost.

    Attributes:
        name: What they make up.
        of: How many pieces of each item.
        sums: Their price: one sum in the report's currency, or one a currency side by side; empty where an
            item has no price.
        each: What a piece of them costs on average by these weights; None without one sum.
        without: Items that have no price.
        first: Day of the oldest of the prices; None where no day is recorded.
        last: Day of the newest.
    """

    name: str
    of: tuple[tuple[str, int], ...]
    sums: tuple[Money, ...]
    each: Money | None
    without: tuple[str, ...]
    first: date | None
    last: date | None


@dataclass(frozen=True)
class PriceFinding:
    """Prices of a report.

    Attributes:
        currency: That prices are told in; empty where there are several and nothing leads to one.
        items: Items that have a price, in the report's order.
        sets: Its sets.
        rates: Rates that were used.
    """

    currency: str
    items: tuple[ItemPrice, ...]
    sets: tuple[SetPrice, ...]
    rates: tuple[Rate, ...]


NO_PRICES = PriceFinding("", (), (), ())


def priced(bench: Bench, report: Report) -> PriceFinding:
    """The prices of a report's items, by the last purchase of the pieces that were tested."""
    bought = {key: found for key in report.record.items if (found := _bought(bench, report, key))}
    rates = {each.one: each for each in report.record.rates}
    paid = {of[-1].each.currency for of in bought.values()}
    currency = report.record.rates[0].worth.currency if rates else next(iter(paid)) if len(paid) == 1 else ""
    items = [_item(key, of, currency, rates) for key, of in bought.items()]
    used = {each.rate.one for each in items if each.rate is not None}
    return PriceFinding(
        currency,
        tuple(items),
        tuple(_set(each, items, currency) for each in report.record.sets),
        tuple(rate for rate in report.record.rates if rate.one in used),
    )


def _item(key: str, of: tuple[Purchase, ...], currency: str, rates: Mapping[str, Rate]) -> ItemPrice:
    told = [_told(each, currency, rates.get(each.paid.currency)) for each in of]
    known = sorted((each for each in told if each is not None), key=lambda each: each.amount)
    own = of[-1].paid.currency
    rate = None if own == currency else rates.get(own)
    return ItemPrice(key, of, told[-1], rate, (known[0], known[-1]) if known else None)


def _told(purchase: Purchase, currency: str, rate: Rate | None) -> Money | None:
    """One piece in a currency, to the hundredth where it was worked out."""
    if purchase.paid.currency == currency:
        return purchase.each
    exact = _worth(purchase, currency, rate)
    return None if exact is None else _rounded(exact, currency)


def _bought(bench: Bench, report: Report, key: str) -> tuple[Purchase, ...]:
    item = bench.items[key]
    tested = {run.specimen for run in report.runs.values() if run.item == key}
    stock = item.newest_stock(item.specimens[each].stock or "" for each in tested)
    return purchases(item, (each for each in tested if (item.specimens[each].stock or "") == stock))


def _worth(purchase: Purchase, currency: str, rate: Rate | None) -> Decimal | None:
    """One piece in a currency, not rounded; None where nothing leads to it."""
    each = purchase.paid.amount / purchase.pack
    if purchase.paid.currency == currency:
        return each
    return None if rate is None else each * rate.worth.amount


def _set(stated: SetOfPieces, items: Sequence[ItemPrice], currency: str) -> SetPrice:
    known = {each.item: each for each in items}
    of = tuple((key, int(count)) for key, count in stated.of.items())
    without = tuple(key for key, _ in of if key not in known)
    parts = [(known[key], count) for key, count in of if key in known]
    days = [each.last.day for each, _ in parts if each.last.day is not None]
    sums = () if without else _sums(parts, currency)
    pieces = sum(count for _, count in of)
    alone = sums[0] if len(sums) == 1 else None
    each = None if alone is None else _rounded(alone.amount / pieces, alone.currency)
    return SetPrice(
        name=stated.name,
        of=of,
        sums=sums,
        each=each,
        without=without,
        first=min(days, default=None),
        last=max(days, default=None),
    )


def _sums(parts: Sequence[tuple[ItemPrice, int]], currency: str) -> tuple[Money, ...]:
    """One sum where all parts lead to the currency; else what was paid, a sum a currency."""
    told = [(_worth(each.last, currency, each.rate), currency, count) for each, count in parts]
    if any(worth is None for worth, *_ in told):
        paid = [(each.last.paid, each.last.pack, count) for each, count in parts]
        told = [(of.amount / pack, of.currency, count) for of, pack, count in paid]
    sums = by_currency(money(worth * count, of) for worth, of, count in told if worth is not None)
    return tuple(_rounded(each.amount, each.currency) for each in sums)


def _rounded(exact: Decimal, currency: str) -> Money:
    return money(exact.quantize(CENT, ROUND_HALF_EVEN), currency)
