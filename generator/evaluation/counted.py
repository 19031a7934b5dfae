"""What was counted and what was asked: k of n with exact intervals, and yes, no or could not tell.

They carry no unit and no ranking: what is counted on three pieces says little of all pieces, and the interval
says how little.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, Literal, TypeVar

from generator.analysis.counts import Share
from generator.analysis.survival import Step
from generator.evaluation.statements import Better

Answer = Literal["yes", "no", "could not tell", "differs"]
"""What a piece's runs answer to a question; "differs" where they disagree."""


@dataclass(frozen=True)
class Counted:
    """A count of one run: k of n. `beside` where its method's version does not agree: shown, not added."""

    run: str
    date: str
    k: int
    n: int
    beside: bool


@dataclass(frozen=True)
class Answered:
    """An answer of one run, what was seen and a photo of it, or empty. `beside` as in Counted."""

    run: str
    date: str
    answer: Answer
    note: str
    photo: str
    beside: bool


@dataclass(frozen=True)
class Lasted:
    """How many cycles a piece had done, from new, when it failed or, whole, when its run ended."""

    run: str
    date: str
    cycles: int
    failed: bool
    beside: bool


Told = TypeVar("Told", Counted, Answered, Lasted)


@dataclass(frozen=True)
class PieceOf(Generic[Told]):
    """One piece and what its runs told, in order of date. `stock` is empty for the first."""

    specimen: str
    stock: str
    runs: tuple[Told, ...]


@dataclass(frozen=True)
class ItemCount:
    """A count over the pieces of an item's newest stock.

    Attributes:
        item: Its id.
        stock: The stock that is counted; empty where there is one only.
        pieces: All its pieces with a count.
        n: Pieces counted.
        trials: k of all trials on them, with the exact interval; None without one. It takes each trial for
            itself: trials on one piece are no further pieces.
        affected: Pieces on which it happened at least once, of the pieces counted.
    """

    item: str
    stock: str
    pieces: tuple[PieceOf[Counted], ...]
    n: int
    trials: Share | None
    affected: Share | None


@dataclass(frozen=True)
class ItemCheck:
    """Answers to a question over the pieces of an item's newest stock.

    Attributes:
        item: Its id.
        stock: The stock that is meant; empty where there is one only.
        pieces: All its pieces with an answer.
        answers: What each piece of that stock answers, by its letter.
        against: Pieces with the answer that is not hoped for (the answer "yes" where neither is), of those
            that say yes or no, with the exact interval; None where none does.
    """

    item: str
    stock: str
    pieces: tuple[PieceOf[Answered], ...]
    answers: tuple[tuple[str, Answer], ...]
    against: Share | None


@dataclass(frozen=True)
class CountFinding:
    """A count over all items of a report that have one; `what` is counted, `better` which way is better."""

    measure: str
    what: str
    better: Better | None
    method: str
    versions: tuple[int, ...]
    items: tuple[ItemCount, ...]


@dataclass(frozen=True)
class CheckFinding:
    """A question over all items of a report that answer it; `good` is the answer that one hopes for."""

    measure: str
    question: str
    good: Literal["yes", "no"] | None
    method: str
    versions: tuple[int, ...]
    items: tuple[ItemCheck, ...]


@dataclass(frozen=True)
class ItemEndurance:
    """How long the pieces of an item's newest stock last.

    Attributes:
        item: Its id.
        stock: The stock that is meant; empty where there is one only.
        pieces: All its pieces with a count of cycles.
        lives: What each piece of that stock came to, by its letter: it has one life, whatever its runs.
        failed: Of these, those that failed within the test, with the exact interval of the share, where
            every survivor was watched to one count; None where that is not so.
        until: That count; None without survivors.
        steps: The share that lasts beyond each failing count (Kaplan and Meier), where `failed` is None or
            no piece survived.
    """

    item: str
    stock: str
    pieces: tuple[PieceOf[Lasted], ...]
    lives: tuple[tuple[str, Lasted], ...]
    failed: Share | None
    until: int | None
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class EnduranceFinding:
    """Endurance over all items of a report that have a count of `cycles`; `failure` is what ends a life."""

    measure: str
    cycles: str
    failure: str
    method: str
    versions: tuple[int, ...]
    items: tuple[ItemEndurance, ...]
