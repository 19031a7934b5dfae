"""What can be said of an item: against limits, and where it stands. Plain facts."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from generator.analysis.interval import Estimate
from generator.analysis.mark import TimeTo
from generator.evaluation.ends import State
from generator.records.schema.item import Standing

Better = Literal["higher", "lower"]
"""Which way a figure is better."""

PieceOutcome = Literal["within", "beyond", "undecided", "stopped", "no-figure"]
ItemOutcome = Literal["within", "beyond", "undecided", "stopped", "no-figure"]
"""Of an item: every piece within, at least one beyond, one stopped and none beyond, else undecided."""

GRAVEST: tuple[ItemOutcome, ...] = ("beyond", "stopped", "undecided", "no-figure", "within")
"""Outcomes, gravest first."""

Rule = Literal["three outcomes", "four outcomes", "simple"]
"""How near a limit a statement is made: by at least U; by less, with the side; without regard to U."""

Side = Literal["within", "beyond"]

LimitKind = Literal["temperature", "rise", "at most", "at least"]
"""Of a limit: on what heats, or the most or the least of another quantity."""

CLAIMED: Standing = "claimed"

KeptBy = State | Literal["settled-rise"]
"""What keeps a figure from *within*: how its run ended, or where the run would settle."""


@dataclass(frozen=True)
class PieceAgainst:
    """One piece against a limit.

    Attributes:
        specimen: Letter of the piece.
        value: What is held against the limit, in the limit's own unit: a temperature at the reference ambient
            in °C, a rise in K, or another quantity in SI; of a piece without a figure its last reading. None
            without one.
        half_width: Half-width of its 95 % interval, everything but the spread between pieces in it.
        outcome: What can be said.
        probability: That the limit is kept; None without a value.
        leaning: By four outcomes, the side that an undecided piece is on by less than U; else None.
        kept_by: What alone keeps it from *within*, where the figure at the mark would be; else None.
        reached: When it reaches the limit; None where it does not, or nothing says when.
    """

    specimen: str
    value: float | None
    half_width: float | None
    outcome: PieceOutcome
    probability: float | None
    leaning: Side | None = None
    kept_by: KeptBy | None = None
    reached: TimeTo | None = None


@dataclass(frozen=True)
class LimitFinding:
    """One item against one limit of the report.

    Attributes:
        number: Place of the limit in the report's list, from 0.
        kind: Of the limit.
        limit: °C, K, or SI of the measure.
        reference: The reference ambient that temperatures are told for, °C; None but for a temperature.
        pieces: Each piece of the stock that stands.
        outcome: What can be said of the item.
        share_beyond: Upper bound of the share of pieces beyond (exact, two-sided 95 %) where all are decided.
        carried: The item's own figure with the part that the reference ambient brings, as a rise in K: for
            drawings alone, since no mean is held against a limit. None without a figure or for a rise.
        leaning: By four outcomes, the side that an undecided item is on; None where a piece has none.
        rule: The rule of decision.
        standing: What the limit rests on.
    """

    number: int
    kind: LimitKind
    limit: float
    reference: float | None
    pieces: tuple[PieceAgainst, ...]
    outcome: ItemOutcome
    share_beyond: float | None
    carried: Estimate | None = None
    leaning: Side | None = None
    rule: Rule = "three outcomes"
    standing: Standing = "reviewer's own"

    @property
    def claimed(self) -> bool:
        """Whether it is a figure that maker or seller prints: of that no one is within or over it."""
        return self.standing == CLAIMED


def said_of(outcome: ItemOutcome, kind: LimitKind, standing: Standing) -> str:
    """An outcome as it is told: of a figure that a maker prints on which side of it, else as it is.

    Args:
        outcome: Of an item or a piece.
        kind: Of the limit: the better side of the least lies above it.
        standing: What the limit rests on.
    """
    if standing != CLAIMED:
        return outcome
    better, worse = ("above", "below") if kind == "at least" else ("below", "above")
    return {"within": better, "beyond": worse, "undecided": "not told apart"}.get(outcome, outcome)


def deciding(said: Iterable[LimitFinding]) -> tuple[LimitFinding, ...]:
    """The limits that decide what an item is called: a figure that a maker prints where no other does."""
    found = tuple(said)
    return tuple(each for each in found if not each.claimed) or found


def gravest(said: Iterable[LimitFinding]) -> ItemOutcome | None:
    """The gravest of what is said against the limits that decide; None without a limit."""
    return min((limit.outcome for limit in deciding(said)), key=GRAVEST.index, default=None)


def gravest_told(said: Iterable[LimitFinding]) -> str | None:
    """The same as it is told: of a figure that a maker prints on which side of it."""
    found = min(deciding(said), key=lambda each: GRAVEST.index(each.outcome), default=None)
    return None if found is None else said_of(found.outcome, found.kind, found.standing)


@dataclass(frozen=True)
class Misfit:
    """Something that a limit is for and that was not measured so.

    Attributes:
        what: Its place, or a condition.
        key: Of the condition; empty for a place.
        asked: What the limit is for, as its record has it.
        measured: What the method sets, as its record has it; empty where it does not say.
    """

    what: Literal["place", "condition"]
    key: str
    asked: str
    measured: str


@dataclass(frozen=True)
class NotHeld:
    """A limit of the report that no statement is made against.

    Attributes:
        number: Place of the limit in the report's list, from 0.
        misfits: What it is for and was not measured so.
        no_reference: Whether it is for a temperature, and nothing says which air temperatures are told for.
    """

    number: int
    misfits: tuple[Misfit, ...]
    no_reference: bool


@dataclass(frozen=True)
class Warmest:
    """The hottest piece of an item in air of a temperature.

    Attributes:
        specimen: Letter of the piece.
        value: °C.
        half_width: Half-width of its 95 % interval, everything but the spread between pieces in it, K.
    """

    specimen: str
    value: float
    half_width: float


@dataclass(frozen=True)
class InAir:
    """An item in air of a temperature.

    Attributes:
        air: °C.
        reference: Whether it is the reference ambient.
        warmest: Its hottest piece; None where no piece has a reading.
        outcomes: Against each temperature limit that fits: its place in the report's list, what can be said,
            and the side of an undecided item by four outcomes.
    """

    air: float
    reference: bool
    warmest: Warmest | None
    outcomes: tuple[tuple[int, ItemOutcome, Side | None], ...]


@dataclass(frozen=True)
class Place:
    """Where an item stands among those that can be compared: from first to last.

    Attributes:
        first: 1 + number of items shown better.
        last: Number of items less those shown worse.
        best: Whether it is shown better than every other.
    """

    first: int
    last: int
    best: bool
