"""What can be said of an item: against limits, and where it stands. Plain facts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.analysis.interval import Estimate
from generator.analysis.mark import TimeTo

Better = Literal["higher", "lower"]
"""Which way a figure is better."""

PieceOutcome = Literal["within", "beyond", "undecided", "stopped", "no-figure"]
ItemOutcome = Literal["within", "beyond", "undecided", "stopped", "no-figure"]
"""Of an item: every piece within, at least one beyond, one stopped and none beyond, else undecided."""


@dataclass(frozen=True)
class PieceAgainst:
    """One piece against a limit.

    Attributes:
        specimen: Letter of the piece.
        value: What is held against the limit, in the limit's own unit: a temperature at the reference ambient
            in °C, or a rise in K; of a piece without a figure its last reading. None without one.
        half_width: Half-width of its 95 % interval, everything but the spread between pieces in it, K.
        outcome: What can be said.
        probability: That the limit is kept; None without a value.
        reached: When it reaches the limit; None where it does not, or nothing says when.
    """

    specimen: str
    value: float | None
    half_width: float | None
    outcome: PieceOutcome
    probability: float | None
    reached: TimeTo | None = None


@dataclass(frozen=True)
class LimitFinding:
    """One item against one limit of the report.

    Attributes:
        number: Place of the limit in the report's list, from 0.
        kind: Of the limit: a temperature or a rise.
        limit: °C or K.
        reference: The reference ambient that temperatures are told for, °C; None for a rise.
        pieces: Each piece of the stock that stands.
        outcome: What can be said of the item.
        share_beyond: Upper bound of the share of pieces beyond (exact, two-sided 95 %) where all are decided.
        carried: The item's own figure with the part that the reference ambient brings, as a rise in K: for
            drawings alone, since no mean is held against a limit. None without a figure or for a rise.
    """

    number: int
    kind: Literal["temperature", "rise"]
    limit: float
    reference: float | None
    pieces: tuple[PieceAgainst, ...]
    outcome: ItemOutcome
    share_beyond: float | None
    carried: Estimate | None = None


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
