"""Which items of the comparison stand in one table: those that a column or a report has in common."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.pages.results import ReportLink

if TYPE_CHECKING:
    from generator.pages.compare import Head, Row

UNTESTED = "untested"
"""Key of the group of items that no report has."""


@dataclass(frozen=True)
class Group:
    """Items that were tested alike, in a table of their own.

    Attributes:
        key: By which an address names it: a method's or a report's id, or `untested`.
        methods: Titles of its columns' methods; empty where no column holds for it.
        reports: That tested its items, the newest first.
        columns: Those that one of its items at least was tried by, in their order.
        rows: Its items, by name; a cell for each of its columns.
        left_out: Titles of the columns that none of its items was tried by.
    """

    key: str
    methods: tuple[str, ...]
    reports: tuple[ReportLink, ...]
    columns: tuple[Head, ...]
    rows: tuple[Row, ...]
    left_out: tuple[str, ...]


def groups(columns: Sequence[Head], rows: Sequence[Row]) -> tuple[Group, ...]:
    """Rows in groups: of the first column's first, then of those without a column, untested items last.

    Args:
        columns: Of the whole comparison.
        rows: Every item, with a cell for each column.
    """
    found = [_group(columns, members) for members in _together(rows)]

    def place(group: Group) -> tuple[int, str]:
        return min((each.number for each in group.columns), default=len(columns)), group.rows[0].name

    tested = [each for each in found if each.key != UNTESTED]
    return (*sorted(tested, key=place), *(each for each in found if each.key == UNTESTED))


def _together(rows: Sequence[Row]) -> tuple[tuple[Row, ...], ...]:
    """Rows that share a tie, directly or through others, in the order that they come in."""
    first: dict[str, str] = {}
    joined = {row.id: row.id for row in rows}
    for row in rows:
        for tie in _ties(row):
            _join(joined, row.id, first.setdefault(tie, row.id))
    members: dict[str, list[Row]] = {}
    for row in rows:
        members.setdefault(_end(joined, row.id), []).append(row)
    return tuple(map(tuple, members.values()))


def _ties(row: Row) -> Iterator[str]:
    """What an item shares with others: columns it was tried by, reports; the lack of both."""
    tried = [f"column {number}" for number, cell in enumerate(row.cells) if cell.result or cell.older]
    reports = [f"report {each.link}".partition("#")[0] for each in row.reports]
    yield from tried + reports or [UNTESTED]


def _end(joined: Mapping[str, str], key: str) -> str:
    while joined[key] != key:
        key = joined[key]
    return key


def _join(joined: dict[str, str], one: str, other: str) -> None:
    joined[_end(joined, one)] = _end(joined, other)


def _group(columns: Sequence[Head], members: tuple[Row, ...]) -> Group:
    used = [each for each in columns if _tried(each.number, members)]
    rows = tuple(each.of_columns([head.number for head in used]) for each in members)
    reports = _once(report for row in rows for report in row.reports)
    key = used[0].key if used else reports[0].id if reports else UNTESTED
    left_out = tuple(each.title for each in columns if each not in used) if reports else ()
    return Group(key, _titles(used), reports, tuple(used), rows, left_out)


def _tried(number: int, rows: Iterable[Row]) -> bool:
    return any(row.cells[number].result or row.cells[number].older for row in rows)


def _titles(heads: Iterable[Head]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.method for each in heads))


def _once(links: Iterable[ReportLink]) -> tuple[ReportLink, ...]:
    """One link a report, to the report as a whole's first item shown here."""
    return tuple({each.id: each for each in reversed(tuple(links))}.values())[::-1]
