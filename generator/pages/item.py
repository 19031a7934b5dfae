"""What an item's own page is given: its results in every report, its stocks, pieces, prices and names."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from generator.evaluation.older import older_of
from generator.evaluation.prices import purchases
from generator.pages import addresses
from generator.pages.cautions import Cautions, cautions
from generator.pages.disclosure import Disclosure, disclosure
from generator.pages.format import Both, Day, as_printed, day, money, part_day, quantity
from generator.pages.older import OlderView, older_view
from generator.pages.report import Contact, contact
from generator.pages.results import Reported, ReportLink, Result, report_link, results_of, stated_by
from generator.pages.stocks import stock_name
from generator.records.bench import Bench
from generator.records.schema.item import Item, Rating
from generator.records.schema.method import Method


@dataclass(frozen=True)
class StockRow:
    """One stock: how readers know it, since when, how to tell it, the pieces of it that were tested."""

    name: str
    since: Day | None
    tell_by: str
    tested: tuple[str, ...]


@dataclass(frozen=True)
class OtherNameRow:
    """A name that the same product is sold under, and how that is known."""

    name: str
    since: Day | None
    evidence: str


@dataclass(frozen=True)
class RatingRow:
    """A figure printed on the item or said of it, its condition, and what it rests on."""

    limit: str
    value: Both
    condition: str
    standing: str
    source: str


@dataclass(frozen=True)
class PieceRow:
    """One piece: where it came from, what was seen on it; texts are empty where the record says nothing."""

    letter: str
    got: str
    whom: str
    had: Day | None
    marks: str
    mass: Both | None
    condition: str
    chosen: str
    stock: str
    tested: bool


@dataclass(frozen=True)
class PriceRow:
    """What a piece cost on a day: paid for these pieces, or asked by a shop (then without pieces)."""

    day: Day | None
    each: str
    pack: int
    whom: str
    letters: tuple[str, ...]


@dataclass(frozen=True)
class ItemView:
    """Everything that `pages/item.md.jinja` and its fragments are given.

    Attributes:
        id, name, what, notes: Of the item; texts are empty where the record says nothing.
        disclosure: How its tested pieces were had.
        cautions: Of all methods that it was tested by; None where it was not tested.
        found: Its main results, newest report first.
        results: All its results in the same order.
        withdrawn: Reports of it that were withdrawn; their figures stand nowhere here.
        older: Its results from before, the newest first.
        stocks: Its stocks, oldest first; empty where it has one only.
        names: Other names of it.
        ratings: What is said of it.
        pieces: Its pieces.
        prices: Prices by day.
        untested: Measures of its reports, and columns of the comparison, that no run of it has.
        cannot_show: What its tests cannot show.
        compare, corrections: Links.
        contact: How to reach the reviewer.
    """

    id: str
    name: str
    what: str
    notes: str
    demonstration: bool
    disclosure: Disclosure
    cautions: Cautions | None
    found: tuple[Result, ...]
    results: tuple[Result, ...]
    withdrawn: tuple[ReportLink, ...]
    older: tuple[OlderView, ...]
    stocks: tuple[StockRow, ...]
    names: tuple[OtherNameRow, ...]
    ratings: tuple[RatingRow, ...]
    pieces: tuple[PieceRow, ...]
    prices: tuple[PriceRow, ...]
    untested: tuple[str, ...]
    cannot_show: tuple[str, ...]
    compare: Markup
    corrections: Markup
    contact: Contact


def item_view(bench: Bench, key: str, reported: Sequence[Reported]) -> ItemView:
    """From an item's record and every report to what its page is given."""
    here, item, settings = addresses.item(key), bench.items[key], bench.settings
    own = [each for each in reported if key in each.report.record.items]
    gone = tuple(report_link(each, key, here) for each in own if each.view.standing.withdrawn)
    # Of a withdrawn report the figures stand nowhere; its pieces were had and tested all the same, by methods
    # whose cautions hold.
    tested, used = tested_pieces(own, key), methods_on(bench, own, [key])
    reported = [each for each in reported if not each.view.standing.withdrawn]
    results = results_of(bench, key, reported, here)
    methods = methods_on(bench, reported, [key])
    return ItemView(
        id=key,
        name=item.title,
        what=item.what or "",
        notes=item.notes or "",
        demonstration=settings.demonstration,
        disclosure=disclosure({key: item}, {key: tested}, "own", ""),
        cautions=cautions(used) if used else None,
        found=tuple(each for each in results if each.main),
        results=results,
        withdrawn=gone,
        older=tuple(_older(bench, key)),
        stocks=tuple(_stocks(item, tested)),
        names=tuple(
            OtherNameRow(each.name, part_day(each.since) if each.since else None, each.evidence)
            for each in item.also_sold_as
        ),
        ratings=tuple(_rating(each) for each in item.ratings),
        pieces=tuple(_piece(letter, item, tested) for letter in sorted(item.specimens)),
        prices=tuple(_prices(bench, key, item)),
        untested=tuple(dict.fromkeys(_untested(bench, results, key))),
        cannot_show=tuple(dict.fromkeys(text for method in methods for text in method.cannot_show)),
        compare=addresses.markdown_link(here, addresses.COMPARE),
        corrections=addresses.markdown_link(here, addresses.CORRECTIONS),
        contact=contact(settings.contact),
    )


def _older(bench: Bench, key: str) -> Iterator[OlderView]:
    for each in older_of(bench, key):
        _, stated = stated_by(bench.methods[each.method], each.measure)
        yield older_view(each, stated.name or stated.id)


def methods_on(bench: Bench, reported: Iterable[Reported], items: Iterable[str]) -> tuple[Method, ...]:
    """Every version of a method that these items were tested by, in order of id and version."""
    known = set(items)
    used = {
        (run.method, run.version)
        for each in reported
        for run in each.report.runs.values()
        if run.item in known
    }
    return tuple(bench.methods[key][version] for key, version in sorted(used))


def tested_pieces(reported: Iterable[Reported], key: str) -> tuple[str, ...]:
    """Letters of the pieces of an item that a report has a run of."""
    runs = (run for each in reported for run in each.report.runs.values())
    return tuple(sorted({run.specimen for run in runs if run.item == key}))


def _stocks(item: Item, tested: Sequence[str]) -> Iterator[StockRow]:
    """The stocks of an item that has more than one, oldest first; the first of all has no record."""
    for key in item.stock_order if item.stocks else ():
        own = tuple(letter for letter in tested if (item.specimens[letter].stock or "") == key)
        stock = item.stocks.get(key)
        since = part_day(stock.since) if stock is not None and stock.since is not None else None
        yield StockRow(stock_name(item, key), since, (stock.tell_by if stock else None) or "", own)


def _rating(rating: Rating) -> RatingRow:
    return RatingRow(
        rating.limit,
        quantity(rating.value),
        as_printed(rating.condition or ""),
        rating.standing,
        as_printed(rating.source),
    )


def _piece(letter: str, item: Item, tested: Sequence[str]) -> PieceRow:
    piece = item.specimens[letter]
    return PieceRow(
        letter,
        piece.got,
        piece.from_ or "",
        day(piece.date) if piece.date else None,
        ", ".join(part for part in (piece.marks, piece.lot) if part),
        quantity(piece.mass) if piece.mass else None,
        piece.condition or "",
        piece.chosen or "",
        stock_name(item, piece.stock or ""),
        letter in tested,
    )


def _prices(bench: Bench, key: str, item: Item) -> Iterator[PriceRow]:
    """Prices by day, the day not known first: pieces of one purchase together, then what shops asked."""
    rows = [
        (bought.day or date.min, money(bought.each), bought.pack, bought.seller, bought.specimens)
        for bought in purchases(item)
    ]
    for report in bench.reports.values():
        rows += [
            (shop.date, money(shop.price), 1, shop.shop, ())
            for shop in (report.links.shops if report.links else ())
            if shop.item == key and shop.price is not None
        ]
    for when, each, pack, whom, letters in sorted(rows):
        yield PriceRow(None if when == date.min else day(when), each, pack, whom, letters)


def _untested(bench: Bench, results: Sequence[Result], key: str) -> Iterator[str]:
    """Names of measures that others were held by, and this item was not."""
    yield from (each.measure for each in results if each.why_not == "no-run")
    runs = [run for run in bench.standing if run.item == key]
    for column in bench.settings.comparison.columns if bench.settings.comparison else ():
        if not any(
            run.method == column.method and bench.methods[run.method][run.version].measure(column.measure)
            for run in runs
        ):
            _, stated = stated_by(bench.methods[column.method], column.measure)
            yield stated.name or stated.id
