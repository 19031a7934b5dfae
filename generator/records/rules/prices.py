"""Prices of a report: sets of its own items, and rates that lead to one currency."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.library import Library
from generator.records.rules.common import absent, twice
from generator.records.schema.report import ReportRecord
from generator.records.selection import Runs


def check(library: Library, _: Runs) -> Iterator[Fault]:
    """Everything that sets and rates can be wrong in."""
    for record in library.reports.values():
        yield from _sets(record, library)
        yield from _rates(record)


def _sets(record: ReportRecord, library: Library) -> Iterator[Fault]:
    for number, _ in twice(each.name for each in record.sets):
        yield record.fault(("sets", number, "name"), "named twice", record.sets[number].name)
    for one in record.sets:
        for name in one.of:
            place, path = one.key_place_of("of", name), one.path_of("of", name)
            if name not in record.items:
                what = "this report compares no item"
                yield absent(what, name, record.items, place, path)
            elif name in library.items and not any(
                piece.paid for piece in library.items[name].specimens.values()
            ):
                what = "no price of this item is recorded, so the set has none"
                yield one.doubt(("of", name), what, name)


def _rates(record: ReportRecord) -> Iterator[Fault]:
    """Each currency has one rate, and all lead to one and the same."""
    for number, currency in twice(each.one for each in record.rates):
        yield record.fault(("rates", number, "one"), "this currency has a rate already", currency)
    for number, rate in enumerate(record.rates):
        own = record.rates[0].worth.currency
        if rate.worth.currency == rate.one:
            what = "a currency is worth one of itself; a rate is in another"
            yield record.fault(("rates", number, "worth"), what, rate.worth.text)
        elif rate.worth.currency != own:
            what = f"the other rates of this report are in {own}; all prices are told in one currency"
            yield record.fault(("rates", number, "worth"), what, rate.worth.text)
        elif not rate.worth.amount:
            yield record.fault(("rates", number, "worth"), "a rate above nought is needed", rate.worth.text)
