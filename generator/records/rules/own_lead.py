"""The length of lead that a run says itself: its method takes one off, and knows it better than that."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.schema.electrical import ElectricalBase, Leads


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """A length that no measure of the method takes off, or that is as good as not known."""
    body, method = draft.body, library.method(draft.body.method.id, draft.body.method.version)
    if body.lead is None or method is None:
        return
    leads = [each.leads for each in method.measures if isinstance(each, ElectricalBase)]
    taken = [each for each in leads if isinstance(each, Leads)]
    if not taken:
        yield body.fault_of_key(("lead",), f"{body.method} takes no lead off")
    for each in taken[:1]:
        if body.lead.si <= each.within.si:
            what = f"the method lets a length be off by {each.within.text}, so that nothing is known of it"
            yield body.fault(("lead",), what, body.lead.text)
