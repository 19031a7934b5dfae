"""What has changed since the newest video: facts for the words of the templates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.pages.format import Day

MOST = 3
"""So many changes are told one by one."""


@dataclass(frozen=True)
class Move:
    """One change.

    Attributes:
        what: Of an item's outcome against the limit, of its place, or of the reviewer's choice.
        name: The item; of a choice the one that was chosen then.
        was: The outcome then; `best` of a place that was the first.
        now: The outcome now; of a choice the one that is chosen now, empty without one.
    """

    what: Literal["outcome", "place", "choice"]
    name: str
    was: str = ""
    now: str = ""


@dataclass(frozen=True)
class Changed:
    """What a viewer of the newest video has to know.

    Attributes:
        video: The day of that video.
        moves: Outcomes, places and choices that differ from the edition that it shows.
        why: What the amendment says of itself; empty without.
    """

    video: Day
    moves: tuple[Move, ...]
    why: str = ""

    @property
    def told(self) -> tuple[Move, ...]:
        """The changes that are told one by one."""
        return self.moves[:MOST]

    @property
    def more(self) -> int:
        """How many are not."""
        return len(self.moves) - len(self.told)
