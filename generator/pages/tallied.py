"""What the tables of counts and of questions are given."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal, TypeAlias

from generator.evaluation.counted import (
    Answer,
    Answered,
    CheckFinding,
    CountFinding,
    ItemCheck,
    ItemCount,
)
from generator.evaluation.findings import ReportFinding
from generator.evaluation.statements import Better
from generator.pages.endured import EnduranceRow, EnduranceView, endurance_view
from generator.pages.format import Day, day
from generator.pages.shares import Of, of_share
from generator.pages.stocks import stock_name
from generator.records.schema.item import Item


@dataclass(frozen=True)
class CountRun:
    """Pieces of which a run came to the same: its day, its count, and whether it stands beside the sum."""

    letters: tuple[str, ...]
    older: str
    day: Day
    k: int
    n: int
    beside: bool


@dataclass(frozen=True)
class CountRow:
    """One item.

    Attributes:
        id: Id of the item, for links to its card.
        name: Maker and model.
        stock: Name of its stock; empty where there is one only.
        pieces: Pieces counted.
        trials: Over all trials; None without one.
        affected: Over the pieces; None without one.
        runs: Each run; pieces that came to the same on one day stand together.
        unwanted: Whether anything was counted that is not the best that could be.
    """

    id: str
    name: str
    stock: str
    pieces: int
    trials: Of | None
    affected: Of | None
    runs: tuple[CountRun, ...]
    unwanted: bool


@dataclass(frozen=True)
class CountView:
    """A count: its id, its name, what is counted and which way is better."""

    kind: ClassVar[Literal["count"]] = "count"
    measure: str
    title: str
    what: str
    better: Better | None
    rows: tuple[CountRow, ...]


@dataclass(frozen=True)
class PieceAnswer:
    """What pieces answer alike, their letters, and what was seen: a day and a note a run that has one."""

    letters: tuple[str, ...]
    answer: Answer
    notes: tuple[tuple[Day, str], ...]


@dataclass(frozen=True)
class CheckRow:
    """One item: its pieces' answers, and how many of those that say yes or no answer as is not hoped for."""

    id: str
    name: str
    stock: str
    answers: tuple[PieceAnswer, ...]
    against: Of | None

    @property
    def pieces(self) -> int:
        """Pieces that answer, if only that it could not be told."""
        return sum(len(each.letters) for each in self.answers)

    @property
    def unwanted(self) -> bool:
        """Whether any piece answers as is not hoped for."""
        return self.against is not None and self.against.k > 0


@dataclass(frozen=True)
class CheckView:
    """A question: its id, its name, the question, the answer that `against` counts."""

    kind: ClassVar[Literal["check"]] = "check"
    measure: str
    title: str
    question: str
    counts: Answer
    rows: tuple[CheckRow, ...]


TallyView: TypeAlias = CountView | EnduranceView | CheckView
TallyRow: TypeAlias = CountRow | EnduranceRow | CheckRow


@dataclass(frozen=True)
class Told:
    """What was counted or asked of one item: its row, and the table that the row is of."""

    view: TallyView
    row: TallyRow

    @property
    def pieces(self) -> int:
        """Pieces that it rests on."""
        return self.row.pieces


@dataclass(frozen=True)
class Names:
    """What things are called: items and measures, by id."""

    items: Mapping[str, Item]
    measures: Mapping[str, str]


def tally_views(finding: ReportFinding, names: Names) -> tuple[TallyView, ...]:
    """Everything that a report counts and asks: counts, endurance, questions, each in the report's order."""
    counts = (count_view(each, names) for each in finding.counts)
    lasted = (
        endurance_view(
            each,
            names.measures[each.measure],
            lambda item: names.items[item].title,
            lambda item, stock: stock_name(names.items[item], stock),
        )
        for each in finding.endurances
    )
    return (*counts, *lasted, *(check_view(each, names) for each in finding.checks))


def told_of(views: Iterable[TallyView], item: str) -> tuple[Told, ...]:
    """What was counted and asked of one item."""
    return tuple(Told(view, row) for view in views for row in view.rows if row.id == item)


def count_view(found: CountFinding, names: Names) -> CountView:
    """From a count to what its table is given."""
    rows = tuple(_count_row(each, found.better, names) for each in found.items)
    return CountView(found.measure, names.measures[found.measure], found.what, found.better, rows)


def check_view(found: CheckFinding, names: Names) -> CheckView:
    """From a question to what its table is given."""
    rows = tuple(_check_row(each, names) for each in found.items)
    counts: Answer = "no" if found.good == "yes" else "yes"
    return CheckView(found.measure, names.measures[found.measure], found.question, counts, rows)


def _count_row(found: ItemCount, better: Better | None, names: Names) -> CountRow:
    item, trials = names.items[found.item], found.trials
    whole = trials is None or trials.k == (trials.n if better == "higher" else 0)
    return CountRow(
        found.item,
        item.title,
        _newest(item, found.stock),
        found.n,
        of_share(found.trials),
        of_share(found.affected),
        _runs(item, found),
        not whole,
    )


def _runs(item: Item, found: ItemCount) -> tuple[CountRun, ...]:
    alike: dict[tuple[str, str, int, int, bool], list[str]] = {}
    for piece in found.pieces:
        older = "" if piece.stock == found.stock else stock_name(item, piece.stock)
        for run in piece.runs:
            alike.setdefault((older, run.date, run.k, run.n, run.beside), []).append(piece.specimen)
    return tuple(
        CountRun(tuple(letters), older, day(date), k, n, beside)
        for (older, date, k, n, beside), letters in alike.items()
    )


def _check_row(found: ItemCheck, names: Names) -> CheckRow:
    seen = {piece.specimen: piece.runs for piece in found.pieces}
    alike: dict[tuple[Answer, tuple[tuple[Day, str], ...]], list[str]] = {}
    for letter, answer in found.answers:
        alike.setdefault((answer, _notes(seen[letter])), []).append(letter)
    answers = tuple(PieceAnswer(tuple(letters), *each) for each, letters in alike.items())
    item = names.items[found.item]
    return CheckRow(found.item, item.title, _newest(item, found.stock), answers, of_share(found.against))


def _newest(item: Item, stock: str) -> str:
    """Name of the stock that a row is of; empty for the first, as on the item's card."""
    return stock_name(item, stock) if stock else ""


def _notes(runs: tuple[Answered, ...]) -> tuple[tuple[Day, str], ...]:
    return tuple((day(run.date), run.note) for run in runs if run.note)
