"""What the comparison page is given: a row an item, the columns of bench.yml, a reason in each empty cell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.evaluation.older import older_beside
from generator.evaluation.prices import purchases
from generator.evaluation.work import versions_agreeing
from generator.pages import addresses
from generator.pages.cautions import Cautions, cautions
from generator.pages.compare_groups import Group, groups
from generator.pages.disclosure import Disclosure, disclosure
from generator.pages.format import minutes, money
from generator.pages.item import methods_on, tested_pieces
from generator.pages.older import OlderView, older_view
from generator.pages.results import (
    Reported,
    ReportLink,
    Result,
    newest_first,
    report_link,
    result_of,
    stated_by,
)
from generator.records.bench import Bench
from generator.records.run import Run
from generator.records.schema.measures import HeatingMeasure, quantity_of
from generator.records.schema.settings import Column


@dataclass(frozen=True)
class Head:
    """A column.

    Attributes:
        title: Its title.
        mark: Its time mark; empty without.
        method: Title of its method.
        link: To the newest version that states it.
        number: Its place, from 0.
        sorts: Whether items can be put in order by it: not by counts, which rank nothing.
        key: Id of its method.
    """

    title: str
    mark: str
    method: str
    link: Markup
    number: int
    sorts: bool
    key: str


@dataclass(frozen=True)
class Cell:
    """What a column says of an item.

    Attributes:
        result: The newest report's result; None where none has one.
        why_not: Why there is no figure; empty with one.
        sort: The figure in its unit, for scripts; empty without one.
        older: Results from before, the newest first; in no order and no sorting.
        versions: Of the method that its figure is by, where others of the column are by another; else empty.
    """

    result: Result | None
    why_not: str
    sort: str
    older: tuple[OlderView, ...] = ()
    versions: tuple[int, ...] = ()


@dataclass(frozen=True)
class Row:
    """An item: its name, what it is, its own page, a cell a column.

    Attributes:
        reports: That tested it and stand, the newest first.
        price: What a piece of the last purchase cost; empty where nothing was paid.
        paid: The same as a bare number, for scripts.
        currency: Of it, by its letters.
    """

    id: str
    name: str
    what: str
    link: Markup
    cells: tuple[Cell, ...]
    reports: tuple[ReportLink, ...] = ()
    price: str = ""
    paid: str = ""
    currency: str = ""

    def of_columns(self, numbers: Sequence[int]) -> Row:
        """The same item with the cells of some columns alone."""
        return replace(self, cells=tuple(self.cells[number] for number in numbers))


@dataclass(frozen=True)
class CompareView:
    """Everything that `pages/compare.md.jinja` and its fragment are given.

    Attributes:
        version: Of the columns; 0 where none are set.
        columns: As bench.yml names them.
        rows: Every item, by name.
        groups: The same rows, those that were tested alike together.
        currency: That every price is in, for a reader's bound; empty where there are several.
        disclosure: How the tested pieces were had.
        cautions: Of every method that an item was tested by; None where none was.
    """

    demonstration: bool
    version: int
    columns: tuple[Head, ...]
    rows: tuple[Row, ...]
    groups: tuple[Group, ...]
    currency: str
    disclosure: Disclosure
    cautions: Cautions | None


def compare_view(bench: Bench, reported: Sequence[Reported]) -> CompareView:
    """From the settings' columns and every report to the comparison."""
    withdrawn = [each for each in reported if each.view.standing.withdrawn]
    reported = [each for each in reported if not each.view.standing.withdrawn]
    comparison = bench.settings.comparison
    columns = comparison.columns if comparison else ()
    order = sorted(bench.items, key=lambda key: (bench.items[key].title.casefold(), key))
    tested = {key: tested_pieces(reported, key) for key in order}
    methods = methods_on(bench, reported, order)
    heads = tuple(_head(bench, each, number) for number, each in enumerate(columns))
    rows = _with_versions(tuple(_row(bench, key, columns, reported, withdrawn) for key in order))
    currencies = {row.currency for row in rows if row.currency}
    return CompareView(
        bench.settings.demonstration,
        comparison.version if comparison else 0,
        heads,
        rows,
        groups(heads, rows),
        currencies.pop() if len(currencies) == 1 else "",
        disclosure(bench.items, tested, "own", ""),
        cautions(methods) if methods else None,
    )


def _head(bench: Bench, column: Column, number: int = 0) -> Head:
    method, stated = stated_by(bench.methods[column.method], column.measure)
    return Head(
        column.title or stated.name or stated.id,
        minutes(stated.at.si) if isinstance(stated, HeatingMeasure) else "",
        method.title,
        addresses.link(addresses.COMPARE, addresses.version(method.id, method.version)),
        number,
        bool(quantity_of(stated)),
        method.id,
    )


def _row(
    bench: Bench,
    key: str,
    columns: Sequence[Column],
    reported: Sequence[Reported],
    withdrawn: Sequence[Reported],
) -> Row:
    item = bench.items[key]
    bought = purchases(item)
    paid = bought[-1].each if bought else None
    return Row(
        key,
        item.title,
        item.what or "",
        addresses.link(addresses.COMPARE, addresses.item(key)),
        tuple(
            replace(_cell(bench, key, each, reported, withdrawn), older=tuple(_older(bench, key, each)))
            for each in columns
        ),
        tuple(
            report_link(each, key, addresses.COMPARE)
            for each in newest_first(reported)
            if key in each.report.record.items
        ),
        money(paid) if paid else "",
        f"{paid.amount:f}" if paid else "",
        paid.currency if paid else "",
    )


def _with_versions(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """Rows whose figures say by which version they are, in columns that have figures by several."""
    several = [
        len({version for cell in cells for version in _versions(cell)}) > 1
        for cells in zip(*(row.cells for row in rows), strict=True)
    ]
    return tuple(
        replace(
            row,
            cells=tuple(
                replace(cell, versions=_versions(cell)) if told else cell
                for cell, told in zip(row.cells, several, strict=True)
            ),
        )
        for row in rows
    )


def _versions(cell: Cell) -> tuple[int, ...]:
    return cell.result.versions if cell.result is not None and not cell.why_not else ()


def _older(bench: Bench, key: str, column: Column) -> Iterator[OlderView]:
    _, stated = stated_by(bench.methods[column.method], column.measure)
    for each in older_beside(bench, [key], column.method, column.measure):
        yield older_view(each, stated.name or stated.id)


def _cell(
    bench: Bench,
    key: str,
    column: Column,
    reported: Sequence[Reported],
    withdrawn: Sequence[Reported],
) -> Cell:
    """The item's newest stock in the newest report that tried it by the column's method."""
    tried = [each for each in newest_first(reported) if _newest_stock(bench, key, column, each) >= 0]
    if not tried:
        gone = any(_newest_stock(bench, key, column, each) >= 0 for each in withdrawn)
        return Cell(None, "withdrawn" if gone else "no-run", "")
    shown = max(tried, key=lambda each: _newest_stock(bench, key, column, each))
    result = result_of(bench, shown, column.measure, key, addresses.COMPARE)
    newest = max(run.version for run in _runs(bench, column, reported))
    # What a report ranks agrees with the newest version that ran in it.
    own = max(run.version for run in _runs(bench, column, [shown]))
    if own not in versions_agreeing(bench.methods[column.method], newest):
        return Cell(result, "other-method", "")
    return Cell(result, result.why_not, _sorted_by(result, bench, column))


def _newest_stock(bench: Bench, key: str, column: Column, reported: Reported) -> int:
    """Place of the newest stock of an item that a report tried by a column's method; -1 for none."""
    item = bench.items[key]
    pieces = [item.specimens[run.specimen] for run in _runs(bench, column, [reported]) if run.item == key]
    return max((item.stock_order.index(piece.stock or "") for piece in pieces), default=-1)


def _sorted_by(result: Result, bench: Bench, column: Column) -> str:
    """The figure by which scripts sort; none for one at another mark than the column's."""
    mark = _head(bench, column).mark
    return f"{result.value:.6g}" if result.value is not None and result.mark == mark else ""


def _runs(bench: Bench, column: Column, reported: Iterable[Reported]) -> list[Run]:
    """The runs that have a column's measure, in reports that show it."""
    return [
        run
        for each in reported
        if column.measure in each.report.record.measures
        for run in each.report.runs.values()
        if run.method == column.method and bench.methods[run.method][run.version].measure(column.measure)
    ]
