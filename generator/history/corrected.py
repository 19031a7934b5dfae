"""What corrections of runs would move: every edition that rests on them, and the reports as they would be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.history.change import Change
from generator.history.past import change_now
from generator.records.bench import Bench


@dataclass(frozen=True)
class Effect:
    """What moves in one report.

    Attributes:
        report: Its id.
        editions: Numbers of its editions that rest on a corrected run.
        latest: Number of its latest edition; 0 without one.
        change: What would be otherwise than in its latest edition; None without one.
    """

    report: str
    editions: tuple[int, ...]
    latest: int
    change: Change | None


def effects(before: Bench, after: Bench, corrected: Iterable[str]) -> tuple[Effect, ...]:
    """What moves, in order of the reports' ids.

    Args:
        before: The records as they are.
        after: The records as they would be.
        corrected: Ids of the runs that are corrected or changed.
    """
    wrong = frozenset(corrected)
    found = []
    for name, report in sorted(before.reports.items()):
        editions = tuple(
            number for number, each in sorted(report.editions.items()) if wrong & frozenset(each.runs)
        )
        if (editions or wrong & set(report.runs)) and name in after.reports:
            made = change_now(after, after.reports[name])
            found.append(Effect(name, editions, max(report.editions, default=0), made))
    return tuple(found)
