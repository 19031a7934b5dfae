"""Columns of a table in which nothing was read."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Doubt, Fault
from generator.records.drafts import Draft
from generator.records.library import Library


def check(draft: Draft, _: Library) -> Iterator[Fault]:
    """Each column of a run that has readings holds some."""
    table = draft.table
    if table is None or draft.waits:
        return
    for column in table.columns:
        if not any(column.cells):
            what = f"nothing was read in '{column.head.label}'; fill it in, or take the column out"
            yield Doubt(column.place, draft.record.path_of("readings"), what)
