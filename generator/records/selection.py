"""Which runs a report rests on."""

from __future__ import annotations

from collections.abc import Mapping

from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.schema.report import ReportRecord

ALL = "all"


def find_run(report: str, name: str, known: Mapping[str, Draft]) -> Draft | None:
    """The run of a name in a report: its own run, else `<report>/<run>` or `<sitting>/<item>:<piece>`."""
    return known.get(f"{report}/{name}") or known.get(name)


def runs_of(record: ReportRecord, known: Mapping[str, Draft], library: Library) -> tuple[Draft, ...]:
    """The runs of pieces that a report rests on, in the order of `known`.

    Args:
        record: report.yml.
        known: Every run of the bench, by id.
        library: Where the methods are.

    Returns:
        With `runs: all` those of its own folder, and those of sittings with its items and measures; else
        those that it lists. Controls are named by `controls` alone.
    """
    if record.runs != ALL:
        found = (find_run(record.id, name, known) for name in record.runs)
        return tuple(each for each in found if each is not None)
    return tuple(each for each in known.values() if each.item and _belongs(each, record, library))


def _belongs(draft: Draft, record: ReportRecord, library: Library) -> bool:
    if draft.report:
        return draft.report == record.id
    method = library.method(draft.body.method.id, draft.body.method.version)
    measured = {each.id for each in method.measures} if method else set()
    return draft.item in record.items and bool(measured & set(record.measures))


def controls_of(record: ReportRecord, known: Mapping[str, Draft]) -> tuple[Draft, ...]:
    """The control runs that a report names."""
    found = (find_run(record.id, name, known) for name in record.controls)
    return tuple(each for each in found if each is not None)
