"""The answer to a report's question, as facts; the words are the templates'.

An answer has at most `MOST` words. Names may be long and outcomes many, so it is made several times over,
each time with less told by name and more by count; the first that is short enough is printed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from generator.charts.bars import Bars, Lies
from generator.charts.groups import Code, code_of
from generator.charts.rows import Bar
from generator.pages.format import Both, celsius
from generator.pages.lead import Lead, Naming, lead_of, led
from generator.pages.names import spoken_name
from generator.pages.speech import Speech
from generator.pages.tallied import TallyView

MOST = 45
"""The most words of an answer in one system of units, a number with its ± and unit counted as one."""

FEW = 3
"""So many names at most are told one by one."""

FLAGGED: tuple[Code, ...] = ("beyond", "stopped", "undecided", "not-finished")
"""What is told behind the best, in this order."""

RestCode = Literal["between", "worse", "others"]


@dataclass(frozen=True)
class Flag:
    """Items that are over the limit, stopped, too close to call or not finished.

    Attributes:
        code: Which of these.
        names: Empty where it gives their count.
        count: How many.
        single: How many of them are one piece only.
        stopped: Of one item: how many of its pieces were stopped; 0 where that is not told.
        beyond: Of one item: how many of its pieces are beyond, where others are not; else 0.
        of: How many pieces it had.
        at: Minutes at which the first was stopped; empty where that is not told.
        air: The reference ambient that they are over in; None where it is not told.
    """

    code: Code
    names: tuple[str, ...]
    count: int
    single: int
    stopped: int = 0
    beyond: int = 0
    of: int = 0
    at: str = ""
    air: Both | None = None


@dataclass(frozen=True)
class Tallied:
    """What a count or a question answers, item by item in the report's order: nothing is ranked by it.

    Attributes:
        view: The count or the question.
        what: Whether it is told what was counted.
        named: Whether each item is told by name; else only on how many of them it happened.
        found: How many items these are.
    """

    view: TallyView
    what: bool
    named: bool
    found: int


@dataclass(frozen=True)
class Answer:
    """Everything that `words/answer.jinja` is given.

    Attributes:
        lead: The first sentence; None without a figure.
        flags: What is over, stopped, too close or not finished.
        rest: Where the others lie, and how many they are; None where there are none.
        singles: Names of items of which one piece only was tested, where nothing else says so.
        single: How many these are.
        without: How many have no figure, where nothing else says so.
        missing: Why nothing can be answered; empty where something is.
        better: Which way is better.
        rise: Whether figures are rises above the air.
        claimed: Whether the limits are figures that a maker prints.
        tally: Whether all but the first sentence is told as bare counts.
        lies: On which side of its limits what is beyond them lies.
        tallied: Where a count or a question is what answers; then nothing else is told.
    """

    lead: Lead | None = None
    flags: tuple[Flag, ...] = ()
    rest: tuple[RestCode, int] | None = None
    singles: tuple[str, ...] = ()
    single: int = 0
    without: int = 0
    missing: tuple[str, ...] = ()
    better: Literal["higher", "lower"] | None = "lower"
    rise: bool = True
    claimed: bool = False
    tally: bool = False
    tallied: Tallied | None = None
    lies: Lies = "over"


@dataclass(frozen=True)
class Level:
    """How much is told: names in the first sentence and behind it, figures, the air, minutes."""

    lead: Naming
    others: Naming
    figures: bool = True
    air: bool = True
    minutes: bool = True


LEVELS = (
    Level("full", "short"),
    Level("full", "short", air=False),
    Level("full", "short", air=False, minutes=False),
    Level("short", "short", air=False, minutes=False),
    Level("short", "short", figures=False, air=False, minutes=False),
    Level("short", "count", air=False, minutes=False),
    Level("short", "count", figures=False, air=False, minutes=False),
    Level("short", "tally", air=False, minutes=False),
    Level("short", "tally", figures=False, air=False, minutes=False),
    Level("count", "tally", figures=False, air=False, minutes=False),
)
"""From all that an answer may say to the least."""


def answers(bars: Bars, stops: Mapping[str, Sequence[str]]) -> tuple[Answer, ...]:
    """The answer that figures give, the fullest first.

    Args:
        bars: The figures of the main measure.
        stops: Minutes at which pieces were stopped, by item.
    """
    return tuple(_Telling(bars, stops, level).answer() for level in LEVELS)


def tallied_answers(view: TallyView) -> tuple[Answer, ...]:
    """The answer that a count or a question gives, the fullest first."""
    levels = ((True, True), (False, True), (True, False), (False, False))
    found = sum(row.unwanted for row in view.rows)
    return tuple(Answer(tallied=Tallied(view, what, named, found)) for what, named in levels)


def short_enough(told: Sequence[Answer], count: Callable[[Answer], int]) -> Answer:
    """The fullest of several answers that has no more words than it may, else the last.

    Args:
        told: The fullest first.
        count: The words of an answer, which the templates know.
    """
    return next((each for each in told if count(in_one_system(each)) <= MOST), told[-1])


def in_one_system(answer: Answer) -> Answer:
    """The same answer without its other units: readers see one system at a time."""
    lead, flags = answer.lead, answer.flags
    if lead is not None and lead.speech is not None:
        figures = tuple(
            replace(each, value_us="", half_width_us="", unit_us="") for each in lead.speech.figures
        )
        lead = replace(lead, speech=Speech(lead.speech.about, figures, lead.speech.span))
    flags = tuple(replace(each, air=Both(each.air.metric)) if each.air else each for each in flags)
    return replace(answer, lead=lead, flags=flags)


@dataclass(frozen=True)
class _Telling:
    bars: Bars
    stops: Mapping[str, Sequence[str]]
    level: Level

    def answer(self) -> Answer:
        rows = self.bars.rows
        lead = lead_of(self.bars, self.level.lead, figures=self.level.figures)
        first = led(self.bars)
        flags = tuple(flag for code in FLAGGED if (flag := self._flag(code)) is not None)
        left = [row for row in rows if row not in first and code_of(row) not in FLAGGED]
        single = [row for row in left if row.single and row.figure is not None]
        without = [row for row in left if code_of(row) == "none"]
        silent = lead is None and not flags
        return Answer(
            lead,
            flags,
            self._rest(first, [row for row in left if row.figure is not None and not row.single]),
            self._names(single),
            len(single),
            0 if silent else len(without),
            _reasons(rows) if silent else (),
            self.bars.better,
            self.bars.unit == "K",
            bool(self.bars.posts) and all(post.claimed for post in self.bars.posts),
            self.level.others == "tally",
            lies=self.bars.lies,
        )

    def _flag(self, code: Code) -> Flag | None:
        here = [row for row in self.bars.rows if code_of(row) == code]
        if not here:
            return None
        # Where the first sentence says so of all of them, it need not be said again.
        said = all(row.meter_only for row in self.bars.rows if row.figure is not None)
        names = self._names(here)
        single = 0 if said and not names else sum(row.single for row in here)
        flag = Flag(code, names, len(here), single)
        if code == "beyond":
            airs = {post.reference for post in self.bars.posts} if self.level.air else set()
            air = airs.pop() if len(airs) == 1 else None
            some = here[0] if len(here) == 1 and names and 0 < here[0].beyond < here[0].of else None
            flag = replace(flag, beyond=some.beyond, of=some.of) if some is not None else flag
            return replace(flag, air=celsius(air) if air is not None else None)
        if code == "stopped" and len(here) == 1 and self.stops.get(here[0].item):
            minutes = self.stops[here[0].item]
            soonest = min(minutes, key=float) if self.level.minutes else ""
            return replace(flag, stopped=len(minutes), of=here[0].of, at=soonest)
        return flag

    def _rest(self, first: Sequence[Bar], others: Sequence[Bar]) -> tuple[RestCode, int] | None:
        """Where those lie that nothing else speaks of: behind the best only if each is shown to."""
        if not others:
            return None
        shown = all(row.place is not None for row in (*first, *others)) and not any(
            row.item in best.alike for best in first for row in others
        )
        if not shown or not first:
            return "others", len(others)
        sign = -1.0 if self.bars.better == "higher" else 1.0
        reached = [
            row.figure.value if row.figure else row.end
            for row in self.bars.rows
            if code_of(row) in FLAGGED and row not in first
        ]
        beyond = [sign * value for value in reached if value is not None]
        worst = max(sign * row.figure.value for row in others if row.figure is not None)
        return ("between" if beyond and worst < min(beyond) else "worse"), len(others)

    def _names(self, rows: Sequence[Bar]) -> tuple[str, ...]:
        if self.level.others != "short" or len(rows) > FEW:
            return ()
        return tuple(spoken_name(row.name) for row in rows)


def _reasons(rows: Sequence[Bar]) -> tuple[str, ...]:
    found = dict.fromkeys(row.why_not for row in rows if row.why_not is not None)
    return tuple(found) or ("no-run",)
