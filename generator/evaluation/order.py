"""In which order a report's runs were made, and whether that order is one with the items."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import TYPE_CHECKING

from generator.fault import Doubt

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.run import Run

FEWEST = 2
"""An item with one run has no order of its own."""


@dataclass(frozen=True)
class Together:
    """Runs of one day: of one sitting, made together, or of files of their own, in an order not recorded.

    Attributes:
        day: The day.
        sitting: Its id; empty for files of their own.
        runs: Their ids, in order.
    """

    day: date
    sitting: str
    runs: tuple[str, ...]


def in_order(runs: Iterable[Run]) -> tuple[Together, ...]:
    """Runs by day, and within a day by sitting; sittings of a day stand in the order of their ids."""

    def when(run: Run) -> tuple[date, str]:
        return run.date, run.sitting

    made = sorted(runs, key=lambda run: (*when(run), run.id))
    return tuple(
        Together(day, sitting, tuple(run.id for run in each)) for (day, sitting), each in groupby(made, when)
    )


def on_days_of_their_own(runs: Iterable[Run]) -> tuple[str, ...]:
    """Items whose runs by a method were all made before or after those of every other item.

    What drifts from day to day is then in the difference of such an item from the others: the order is
    confounded with the item (NIST/SEMATECH e-Handbook 5.3.3, on randomization and blocking).

    Args:
        runs: Of one report; items with one run alone by a method are not told of.

    Returns:
        Their ids, each once, in order of their days.
    """
    by_method: dict[str, dict[str, list[date]]] = {}
    for run in sorted(runs, key=lambda each: (each.date, each.id)):
        if run.item:
            by_method.setdefault(run.method, {}).setdefault(run.item, []).append(run.date)
    found = (item for items in by_method.values() for item in _apart(items))
    return tuple(dict.fromkeys(found))


def _apart(items: dict[str, list[date]]) -> list[str]:
    def beside(days: Sequence[date], others: Sequence[date]) -> bool:
        return days[-1] < others[0] or others[-1] < days[0]

    return [
        item
        for item, days in items.items()
        if len(days) >= FEWEST
        and len(items) > 1
        and all(beside(days, others) for other, others in items.items() if other != item)
    ]


def doubts(bench: Bench) -> Iterator[Doubt]:
    """Reports in which the order of runs is one with the items."""
    for report in bench.reports.values():
        listed = report.record.items
        for item in (each for each in on_days_of_their_own(report.runs.values()) if each in listed):
            what = (
                "all its runs were made on days before or after those of every other item, so what drifts"
                " from day to day is in its difference from them; mix the items where pieces are yet to run"
            )
            yield report.record.doubt(("items", listed.index(item)), what, item)
