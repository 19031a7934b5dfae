"""Faults between fields and between files, a module a subject; each record's own form is sound already."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.rules import (
    air,
    beside,
    corrections,
    electrical,
    empty,
    heat,
    heated_before,
    heating,
    heatings,
    hints,
    infrared,
    instruments,
    items,
    meters,
    methods,
    older,
    originals,
    own_lead,
    pairs,
    photos,
    prices,
    probes,
    published,
    readings,
    reports,
    round_a_report,
    runs,
    settings,
    sittings,
    slow_parts,
    spans,
)
from generator.records.selection import Runs

_OF_RECORDS = (
    settings,
    instruments,
    hints,
    items,
    methods,
    heating,
    electrical,
    sittings,
    beside,
    originals,
    round_a_report,
    older,
)
_OF_RUNS = (runs, meters, readings, pairs, spans, infrared, heat, heatings, own_lead, air, empty)
_OF_REPORTS = (reports, corrections, prices, photos, slow_parts, heated_before, probes, published)


def of_records(library: Library) -> Iterator[Fault]:
    """What is wrong in records that are no runs and no reports."""
    for subject in _OF_RECORDS:
        yield from subject.check(library)


def of_run(draft: Draft, library: Library) -> Iterator[Fault]:
    """What is wrong in one run."""
    for subject in _OF_RUNS:
        yield from subject.check(draft, library)


def of_reports(library: Library, known: Runs) -> Iterator[Fault]:
    """What is wrong in reports.

    Args:
        library: The records.
        known: Every run of the bench.
    """
    for subject in _OF_REPORTS:
        yield from subject.check(library, known)
