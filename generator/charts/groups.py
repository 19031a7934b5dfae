"""Rows in groups by what can be said of their pieces, and brackets that join those not told apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from generator.charts.rows import OWN_DOING, Bar

Code = Literal["plain", "within", "undecided", "beyond", "stopped", "not-finished", "single", "older", "none"]
"""The groups in their order: without a limit, then by outcome, then those without a figure of their own.

Where no item of several pieces stands first, those of one piece do, so that the best begin the page.
"""

COLUMNS = 2
"""So many brackets find room beside each other; what overlaps more is told in words alone."""


@dataclass(frozen=True)
class Bracket:
    """A bracket that joins rows which were not told apart.

    Attributes:
        first: Place of its first row in the group, from 0.
        last: Of its last.
        column: 0, or 1 where it overlaps another.
    """

    first: int
    last: int
    column: int


@dataclass(frozen=True)
class Group:
    """Rows of which the same can be said.

    Attributes:
        code: What.
        rows: Better figures first; those without one by their place, then in the report's order.
        brackets: From the first row down.
    """

    code: Code
    rows: tuple[Bar, ...]
    brackets: tuple[Bracket, ...]

    @property
    def untold(self) -> bool:
        """Whether none of its rows could be told from any other of them."""
        whole = (0, len(self.rows) - 1)
        return any((each.first, each.last) == whole for each in self.brackets)


def groups(rows: Sequence[Bar], *, better: Literal["higher", "lower"] | None = "lower") -> tuple[Group, ...]:
    """Rows by group; a group without a row is left out.

    Args:
        rows: In the report's order.
        better: Which figures stand first; the smaller ones where neither way is better.
    """
    sign = -1.0 if better == "higher" else 1.0
    order = list(get_args(Code))
    if not {"plain", "within"} & {code_of(row) for row in rows}:
        order.sort(key=lambda code: code != "single")
    found = []
    for code in order:
        here = sorted((row for row in rows if code_of(row) == code), key=lambda row: _order(row, sign))
        if here:
            found.append(Group(code, tuple(here), brackets(here)))
    return tuple(found)


def code_of(row: Bar) -> Code:
    """The group of a row: by its pieces, never by its mean.

    One piece can show that the limit is passed, or that it comes too near; that an item keeps within it, one
    piece cannot show.
    """
    if row.figure is None:
        return _without_figure(row)
    if row.outcome in {"beyond", "undecided"}:
        return row.outcome
    if row.outcome == "within":
        return "single" if row.meter_only else "within"
    return "plain"


def _without_figure(row: Bar) -> Code:
    if row.older and row.why_not in {None, "no-run"}:
        return "older"
    if row.why_not == "stopped":
        return "stopped"
    if row.outcome == "beyond" or (row.outcome == "undecided" and row.why_not in OWN_DOING):
        return row.outcome
    return "not-finished" if row.why_not == "not-finished" else "none"


def brackets(rows: Sequence[Bar]) -> tuple[Bracket, ...]:
    """The longest runs of neighbours of which no two were told apart, each as far as it goes."""
    found: list[Bracket] = []
    ends = [-1] * COLUMNS
    last = 0
    for first in range(len(rows)):
        reach = first
        while reach + 1 < len(rows) and all(
            rows[reach + 1].item in row.alike for row in rows[first : reach + 1]
        ):
            reach += 1
        free = [column for column in range(COLUMNS) if ends[column] < first]
        if reach > max(first, last) and free:
            found.append(Bracket(first, reach, free[0]))
            ends[free[0]] = reach
        last = max(last, reach)
    return tuple(found)


def _order(row: Bar, sign: float) -> tuple[bool, float]:
    if row.figure is not None:
        return False, sign * row.figure.value
    return True, float(row.place.first) if row.place is not None else float("inf")
