"""What the table of endurance is given: how many failed, or the share that lasts beyond each count."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import ClassVar, Literal

from generator.charts.numerals import numeral
from generator.evaluation.counted import EnduranceFinding, ItemEndurance, Lasted, PieceOf
from generator.pages.format import Day, day
from generator.pages.shares import Of, of_share, percents


@dataclass(frozen=True)
class LifeRun:
    """One run of a piece: its day, its cycles, whether it failed there, and whether it stands beside."""

    letter: str
    older: str
    day: Day
    cycles: int
    failed: bool
    beside: bool


@dataclass(frozen=True)
class StepRow:
    """The share that lasts beyond a number of cycles, in percent, with its interval."""

    cycles: str
    share: str
    low: str
    high: str
    at_risk: int
    failed: int


@dataclass(frozen=True)
class EnduranceRow:
    """One item.

    Attributes:
        id: Id of the item, for links to its card.
        name: Maker and model.
        stock: Name of its stock; empty where there is one only.
        pieces: Pieces counted.
        broken: How many of them failed.
        failed: The same with the exact interval, where every survivor was watched to one count.
        until: That count; empty without.
        steps: Else the share that lasts beyond each failing count.
        runs: Each run.
    """

    id: str
    name: str
    stock: str
    pieces: int
    broken: int
    failed: Of | None
    until: str
    steps: tuple[StepRow, ...]
    runs: tuple[LifeRun, ...]

    @property
    def unwanted(self) -> bool:
        """Whether any piece failed."""
        return self.broken > 0


@dataclass(frozen=True)
class EnduranceView:
    """A measure of endurance: its id, its name, what is done again and again, what counts as failed."""

    kind: ClassVar[Literal["endurance"]] = "endurance"
    measure: str
    title: str
    cycles: str
    failure: str
    rows: tuple[EnduranceRow, ...]


def endurance_view(
    found: EnduranceFinding, title: str, name_of: Callable[[str], str], stock_of: Callable[[str, str], str]
) -> EnduranceView:
    """From endurance to what its table is given.

    Args:
        found: The measure over all items.
        title: Its name.
        name_of: From an item's id to its name.
        stock_of: From an item's id and a stock's to the stock's name.
    """
    rows = tuple(_row(each, name_of(each.item), partial(stock_of, each.item)) for each in found.items)
    return EnduranceView(found.measure, title, found.cycles, found.failure, rows)


def _row(item: ItemEndurance, name: str, stock_of: Callable[[str], str]) -> EnduranceRow:
    exact = item.failed if item.until is not None else None
    return EnduranceRow(
        item.item,
        name,
        stock_of(item.stock) if item.stock else "",
        len(item.lives),
        sum(each.failed for _, each in item.lives),
        of_share(exact),
        "" if item.until is None else str(item.until),
        tuple(
            StepRow(
                numeral(each.cycles, 0),
                percents(each.surviving),
                percents(each.low),
                percents(each.high),
                each.at_risk,
                each.failed,
            )
            for each in item.steps
        ),
        tuple(
            _run(piece, run, "" if piece.stock == item.stock else stock_of(piece.stock))
            for piece in item.pieces
            for run in piece.runs
        ),
    )


def _run(piece: PieceOf[Lasted], run: Lasted, older: str) -> LifeRun:
    return LifeRun(piece.specimen, older, day(run.date), run.cycles, run.failed, run.beside)
