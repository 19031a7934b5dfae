"""What has changed since the newest video: facts for the words of the templates."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from generator.history.change import Change, change, state_of
from generator.pages.format import Day, day
from generator.records.bench import Bench, Report
from generator.records.schema.edition import Edition

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


def changed_since(bench: Bench, now: Report, names: Mapping[str, str], main: str) -> Changed | None:
    """What differs between the edition that the newest video shows and the latest.

    Args:
        bench: Where the methods are.
        now: The report with all its editions.
        names: Names of items by id.
        main: The measure that answers its question: places are told by it alone.

    Returns:
        None where there is no such video, or nothing of this kind differs.
    """
    videos = now.links.videos if now.links is not None else ()
    shown = [each for each in videos if each.edition in now.editions]
    if not shown:
        return None
    newest = max(shown, key=lambda each: each.date)
    last = now.editions[max(now.editions)]
    then = now.editions[newest.edition or last.number]
    moves = tuple(_moves(change(bench, state_of(then), state_of(last)), names, main))
    why = _why(bench, [now.editions[each] for each in sorted(now.editions) if each >= then.number], main)
    return Changed(day(newest.date.isoformat()), moves, why) if moves else None


def _why(bench: Bench, editions: Sequence[Edition], main: str) -> str:
    """What the newest of these editions says of itself that moved anything of this kind."""
    for was, each in reversed(tuple(pairwise(editions))):
        if any(_moves(change(bench, state_of(was), state_of(each)), {}, main)):
            return each.summary or ""
    return ""


def _moves(made: Change, names: Mapping[str, str], main: str) -> Iterator[Move]:
    for each in made.moved:
        name = names.get(each.item, each.item)
        if each.was is not None and each.now is not None and each.outcome:
            yield Move("outcome", name, each.was.outcome, each.now.outcome)
        elif each.was is not None and each.now is not None and each.measure == main and each.place:
            yield Move("place", name, "best" if each.was.place == "1" else "")
    if made.choice is not None:
        was, chosen = (names.get(each, each) for each in made.choice)
        yield Move("choice", was, now=chosen)
