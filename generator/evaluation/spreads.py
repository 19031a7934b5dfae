"""What is found of pieces beside their mean: how far they spread, what others may be like."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.analysis.future import MostPieces, NextPiece

SpreadOrigin = Literal["pooled", "own", "declared", "none"]


@dataclass(frozen=True)
class Spread:
    """The spread between pieces that an item's figure rests on.

    Attributes:
        origin: pooled over the report's items, the item's own, declared by the method, or none.
        deviation: Standard deviation between pieces, in the figure's unit; 0 where the origin is none.
        dof: Degrees of freedom.
        declared_from: Where a declared spread comes from.
    """

    origin: SpreadOrigin
    deviation: float
    dof: float
    declared_from: str = ""


@dataclass(frozen=True)
class Repeats:
    """What a figure rests on beside its pieces.

    Attributes:
        runs: Runs that count.
        terminations: How often their pieces were connected for them.
    """

    runs: int
    terminations: int


@dataclass(frozen=True)
class Apart:
    """A piece that lies away from the other pieces of its item. It stays in the mean.

    Attributes:
        specimen: Its letter.
        tested: Whether Grubbs' test says so; else there are too few pieces for a test.
        statistic: G, its distance from the mean over the standard deviation; 0 without a test.
        critical: What G exceeds in 5 % of samples of a normal law; 0 without a test.
    """

    specimen: str
    tested: bool
    statistic: float = 0.0
    critical: float = 0.0


@dataclass(frozen=True)
class Ahead:
    """What pieces of the same purchase that were not tested may be like.

    Attributes:
        next: Where the next one is to be expected, 95 %.
        most: The limit that 90 % of them keep, with 95 % confidence; None below five pieces, and where
            neither way is better.
    """

    next: NextPiece
    most: MostPieces | None


@dataclass(frozen=True)
class Loosest:
    """The item that scatters more than the others whose spread is pooled with its own (Cochran's test, 5 %).

    Attributes:
        item: Its id.
        deviation: Its own standard deviation, in the figure's unit.
        others: That of the others together.
        ratio: Its variance over theirs, F.
        critical: What F exceeds in 5 % of cases where all scatter alike.
    """

    item: str
    deviation: float
    others: float
    ratio: float
    critical: float
