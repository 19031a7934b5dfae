"""Which heating of its piece a run was: only the same heating of each piece is compared."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from generator.records.run import Run


def numbered(runs: Iterable[tuple[Run, bool]]) -> Iterator[int | None]:
    """The number of each run of one piece among its heatings, from 1; None for one that did not complete.

    A run says it where the piece had been heated before, in another report or to condition it; each completed
    run behind it is one more.

    Args:
        runs: In order of date, each with whether it completed.
    """
    last = 0
    for run, completed in runs:
        if completed:
            last = last + 1 if run.heating is None else run.heating
        yield last if completed else None
