"""Which heating of its piece a run was, where its record says so."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.schema.measures import HeatingMeasure


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """A number of a heating belongs to a piece and to a method that heats it."""
    body, method = draft.body, library.method(draft.body.method.id, draft.body.method.version)
    if body.heating is None or method is None:
        return
    if draft.control:
        yield body.fault_of_key(("heating",), "a control is no piece: its heatings are not counted")
    elif not any(isinstance(each, HeatingMeasure) for each in method.measures):
        what = f"{body.method} measures no heating, so no number of one"
        yield body.fault_of_key(("heating",), what)
