"""Numbers of the heatings of a piece: they rise with the days, over all reports and sittings."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.selection import Runs


def check(library: Library, known: Runs) -> Iterator[Fault]:  # noqa: ARG001  # every check is given both
    """A heating whose number is not above that of one before it."""
    last: dict[tuple[str, str], tuple[Draft, int]] = {}
    for draft in sorted(known.by_id.values(), key=lambda each: (each.date, each.id)):
        number = draft.body.heating
        if number is None or draft.control:
            continue
        before = last.get((draft.item, draft.specimen))
        if before is not None and number <= before[1]:
            run, of_it = before
            what = f"{run.id} of {run.date} was heating {of_it} of this piece already"
            yield draft.body.fault(("heating",), what, str(number), (str(of_it + 1),))
        last[draft.item, draft.specimen] = draft, number
