"""What templates are told of editions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.pages.corrected import ChangedKey
from generator.pages.disclosure import Disclosure
from generator.pages.format import Day, Plus


@dataclass(frozen=True)
class FigureView:
    """A figure as an edition has it.

    Attributes:
        plus: With its ±; None without a figure.
        counted: So many of so many, in place of one; empty without.
        outcome: What was said of it, or why there is none.
        place: Its place among the items; empty without.
        ends: How its runs ended, and how many did.
        pieces: Pieces that it rests on.
        stock: Name of its stock; empty where the item has one only.
    """

    plus: Plus | None
    counted: str
    outcome: str
    place: str
    ends: tuple[tuple[str, int], ...]
    pieces: int
    stock: str


@dataclass(frozen=True)
class MovedView:
    """An item by a measure that is told otherwise than in the edition before.

    Attributes:
        item: Name of the item.
        measure: Name of the measure.
        rise: Whether its figures are rises above the air.
        was: Its figure then; None where there was none.
        now: Its figure now; None where it is no longer told.
        main: Whether the measure is the one that answers the report's question.
        figure, outcome, place, ends: Which of these is another.
        difference: Of two figures that may differ because the product does; None without.
        outside: Of one figure read anew: whether it left the interval that was published; None without.
    """

    item: str
    measure: str
    rise: bool
    was: FigureView | None
    now: FigureView | None
    main: bool
    figure: bool
    outcome: bool
    place: bool
    ends: bool
    difference: Plus | None
    outside: bool | None


@dataclass(frozen=True)
class RunView:
    """A run: its item or control by name, its piece, its day."""

    name: str
    piece: str
    day: Day


@dataclass(frozen=True)
class PartView:
    """Keys of a record that say something else: of the report, the bench, an item or a meter by name."""

    of: Literal["report", "items", "instruments", "bench"]
    name: str
    keys: tuple[str, ...]


@dataclass(frozen=True)
class CorrectedView:
    """A run in whose place its correction stands: what was wrong, and what is otherwise."""

    run: RunView
    because: str
    changed: tuple[ChangedKey, ...]


@dataclass(frozen=True)
class ChangeView:
    """What an amendment changed; of `choice` each name is empty where none was chosen."""

    moved: tuple[MovedView, ...]
    choice: tuple[str, str] | None
    new_runs: tuple[RunView, ...]
    gone_runs: tuple[RunView, ...]
    parts: tuple[PartView, ...]
    withdrawn: bool
    corrected: tuple[CorrectedView, ...] = ()


@dataclass(frozen=True)
class ScatteredView:
    """How many times as much as before an item's pieces scatter, from where to where that may lie.

    Attributes:
        item: Name of the item.
        measure: Name of the measure.
        pieces: How many pieces then and now.
        ratio, low, high: The ratio and its interval, as text.
        shown: Whether they are found to scatter otherwise.
    """

    item: str
    measure: str
    pieces: tuple[int, int]
    ratio: str
    low: str
    high: str
    shown: bool


@dataclass(frozen=True)
class EditionView:
    """An edition.

    Attributes:
        report: Id of its report.
        question: The report's question as this edition has it.
        number: Its number.
        day: The day of publishing.
        reason: Why; empty at the first.
        summary: What changed, in a sentence; may be empty at the first.
        authorised: Who authorised it.
        hash: Its fingerprint.
        disclosure: Who got the pieces and how, as this edition has it.
        change: What it changed; None at the first.
        scattered: Of a retest: how its pieces scatter beside those before.
    """

    report: str
    question: str
    number: int
    day: Day
    reason: str
    summary: str
    authorised: str
    hash: str
    disclosure: Disclosure
    change: ChangeView | None
    scattered: tuple[ScatteredView, ...] = ()
