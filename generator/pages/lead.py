"""The first sentence of an answer: which items are best, if any are shown to be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from generator.charts.bars import Bars
from generator.charts.rows import Bar
from generator.pages.names import spoken_name
from generator.pages.speech import Speech, spoken

Naming = Literal["full", "short", "count", "tally"]
"""By maker and model, by the shortest name that tells them apart, by how many, by bare counts."""

MANY = 4
"""More names than this are told by their count."""

LeadCode = Literal["best", "none-better", "untold", "alone", "one-piece", "unranked"]
"""What the first sentence says.

best: each was shown better than every other item that can be compared.
none-better: no item was shown better than these, but they were not shown better than all the others.
untold: of all that can be compared no two were told apart.
alone: there is one figure and none to compare it with.
one-piece: there are figures of single pieces alone, which say nothing of each other's items.
unranked: there are figures, and neither way is better or nothing can be compared.
"""


@dataclass(frozen=True)
class Lead:
    """The first sentence.

    Attributes:
        code: What it says.
        names: Of the items that it speaks of, and whether each is one piece only; empty where it gives their
            count.
        count: How many they are.
        single: How many of them are one piece only.
        compared: How many can be compared; 0 where that is every item.
        speech: Their figures; None where they are not told.
    """

    code: LeadCode
    names: tuple[tuple[str, bool], ...]
    count: int
    single: int
    compared: int
    speech: Speech | None


def lead_of(bars: Bars, naming: Naming, *, figures: bool) -> Lead | None:
    """The first sentence that figures give; None without any figure.

    Args:
        bars: The figures.
        naming: How items are named.
        figures: Whether figures are told.
    """
    told = led(bars)
    if not told:
        return None
    code = _code(bars, told)
    standing = [row for row in bars.rows if row.place is not None]
    all_stand = len(standing) == len(bars.rows)
    names = (
        ()
        if naming in {"count", "tally"} or len(told) > MANY
        else tuple((_name(row, naming), row.single) for row in told)
    )
    return Lead(
        code,
        names,
        len(told),
        sum(row.single for row in told),
        0 if all_stand else len(standing),
        spoken(told, bars) if figures else None,
    )


def led(bars: Bars) -> tuple[Bar, ...]:
    """The rows that the first sentence speaks of.

    They are those that no other was shown better than. Where none can be compared, they are the one item of
    which more than a single piece speaks, or else all.
    """
    figures = [row for row in bars.rows if row.figure is not None]
    first = [row for row in figures if row.place is not None and row.place.first == 1]
    if first:
        return tuple(first)
    several = [row for row in figures if not row.meter_only]
    if several or bars.better is None:
        return tuple(several or figures)
    sign = -1.0 if bars.better == "higher" else 1.0
    return tuple(sorted(figures, key=lambda row: sign * row.figure.value if row.figure else 0.0))


def _code(bars: Bars, told: Sequence[Bar]) -> LeadCode:
    others = [row for row in bars.rows if row.place is not None and row not in told]
    if told[0].place is None:
        if len(told) == 1:
            return "alone"
        return "one-piece" if all(row.meter_only for row in told) else "unranked"
    if not others:
        return "untold" if len(told) > 1 else "alone"
    clear = not any(row.item in best.alike for best in told for row in others)
    return "best" if clear else "none-better"


def _name(row: Bar, naming: Naming) -> str:
    return row.name.full if naming == "full" else spoken_name(row.name)
