"""A planned comparison, as plain facts; what is said of it stands in the templates."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from generator.analysis.multiple import LEVEL
from generator.analysis.planning import Planned
from generator.analysis.specimens import Spread
from generator.evaluation.costs import Cost, Price
from generator.evaluation.expected import Recorded
from generator.evaluation.statements import Better

if TYPE_CHECKING:
    from generator.records.money import Money
    from generator.records.schema.measures import AnyMeasure
    from generator.records.schema.method import Method

Origin = Literal["said", "recorded", "declared"]

Doubtful = Literal[
    "unseen", "one-piece", "single", "resolution", "meters", "few", "apart", "no-meters", "lost",
    "no-direction", "no-control", "split-rounds",
]  # fmt: skip
"""Why a planned comparison may not answer its question; each has its words in the templates."""


@dataclass(frozen=True)
class Asked:
    """What a plan is asked for.

    Attributes:
        names: The items: ids of the bench, or any names.
        pieces: Of each; 0 for the fewest that find the gap, else the usual number.
        gap: The difference that matters, in the figure's unit; 0 where not said.
        spread: Between pieces, in the figure's unit; 0 where not said.
        per_day: Runs of pieces a day; 0 for all in one.
        control: What is run first and last of a day; empty where the method and the records say.
        seed: Of the order.
        prices: What a piece costs that the bench has not bought, by item; under an empty name, of the rest.
    """

    names: tuple[str, ...]
    pieces: int = 0
    gap: float = 0.0
    spread: float = 0.0
    per_day: int = 0
    control: str = ""
    seed: str = "1"
    prices: Mapping[str, Money] = field(default_factory=dict)


@dataclass(frozen=True)
class Warned:
    """Why the comparison may not answer its question, with the number that shows it.

    Attributes:
        what: Which of them.
        value: In the figure's unit, or a count.
        other: A second number.
    """

    what: Doubtful
    value: float = 0.0
    other: float = 0.0


@dataclass(frozen=True)
class Run:
    """One run of the order: an item and the letter of a piece; of a control its name and no letter."""

    item: str
    piece: str


@dataclass(frozen=True)
class Plan:
    """A planned comparison.

    Attributes:
        method: The version that is planned for.
        measure: The measure.
        unit: Unit of differences of its figures.
        better: Which way is better; None where neither is.
        asked: What was asked.
        spread: The spread that is assumed.
        origin: Where it comes from.
        declared: The method's declared spread; None without one.
        recorded: What the bench's own results come to.
        rows: What is found with so many pieces of each: one only by a declared spread, then two to ten.
        costs: What the pieces of each row cost.
        prices: The price of each item that has one.
        enough: The fewest pieces that find the gap asked for; None where none does or none was asked.
        pieces: Of each, as ordered.
        days: The runs of each day, controls among them.
        warned: Why it may not answer its question.
    """

    method: Method
    measure: AnyMeasure
    unit: str
    better: Better | None
    asked: Asked
    spread: Spread
    origin: Origin
    declared: Spread | None
    recorded: Recorded
    rows: tuple[Planned, ...]
    costs: tuple[Cost, ...]
    prices: tuple[Price, ...]
    enough: int | None
    pieces: int
    days: tuple[tuple[Run, ...], ...]
    warned: tuple[Warned, ...]

    @property
    def pairs(self) -> int:
        """Pairs that are held together at 5 %."""
        return math.comb(len(self.asked.names), 2)

    @property
    def level(self) -> float:
        """The level of the strictest of them."""
        return LEVEL / self.pairs

    def row(self, pieces: int) -> Planned | None:
        """What is found with so many pieces of each; None where nothing says."""
        return next((each for each in self.rows if each.pieces == pieces), None)

    @property
    def row_of_most(self) -> Planned:
        """What is found with the most pieces of the table."""
        return max(self.rows, key=lambda each: each.pieces)
