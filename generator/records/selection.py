"""Which runs a report rests on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.schema.report import ReportRecord

ALL = "all"


@dataclass
class Runs:
    """Every run of the bench, found by what a report asks for.

    Attributes:
        by_id: By id, in the order of the bench.
        by_report: The runs of each report's own folder.
        by_item: The runs of sittings, by their item.
        corrected: Id of a run to that of the one that corrects it.
    """

    by_id: dict[str, Draft] = field(default_factory=dict)
    by_report: dict[str, list[Draft]] = field(default_factory=dict)
    by_item: dict[str, list[Draft]] = field(default_factory=dict)
    corrected: dict[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, drafts: Iterable[Draft]) -> Runs:
        """Sort runs; their order is kept."""
        found = cls()
        for draft in drafts:
            found.by_id[draft.id] = draft
            if draft.corrections:
                found.corrected.setdefault(draft.corrections[0].run, draft.id)
            if draft.report:
                found.by_report.setdefault(draft.report, []).append(draft)
            elif draft.item:
                found.by_item.setdefault(draft.item, []).append(draft)
        return found

    def find(self, report: str, name: str) -> Draft | None:
        """The run of a name in a report: its own run, else `<report>/<run>` or `<sitting>/<item>:<piece>`."""
        return self.by_id.get(f"{report}/{name}") or self.by_id.get(name)

    def latest(self, draft: Draft) -> Draft:
        """The run itself, or the one that corrects it in the end."""
        name = draft.id
        while name in self.corrected:
            name = self.corrected[name]
        return self.by_id[name]


def runs_of(record: ReportRecord, known: Runs, library: Library) -> tuple[Draft, ...]:
    """The runs of pieces that a report rests on.

    Args:
        record: report.yml.
        known: Every run of the bench.
        library: Where the methods are.

    Returns:
        With `runs: all` those of its own folder, then those of sittings with its items and measures, in the
        order of its items, in place of a corrected run the one that corrects it; else those that it lists.
        Controls are named by `controls` alone.
    """
    report = record.id
    if record.runs != ALL:
        found = (known.find(report, name) for name in record.runs)
        return tuple(each for each in found if each is not None)
    own = (each for each in known.by_report.get(report, ()) if each.item)
    items = dict.fromkeys(record.items)
    sat = (each for item in items for each in known.by_item.get(item, ()) if _measured(each, record, library))
    latest = {each.id: each for each in map(known.latest, (*own, *sat))}
    return tuple(latest.values())


def waits(used: Iterable[Draft]) -> bool:
    """Whether a report that rests on these runs has nothing to tell yet: each waits, or there is none."""
    return all(each.waits for each in used)


def _measured(draft: Draft, record: ReportRecord, library: Library) -> bool:
    method = library.method(draft.body.method.id, draft.body.method.version)
    return method is not None and any(each.id in record.measures for each in method.measures)


def controls_of(record: ReportRecord, known: Runs) -> tuple[Draft, ...]:
    """The control runs that a report names."""
    found = (known.find(record.id, name) for name in record.controls)
    return tuple(each for each in found if each is not None)
