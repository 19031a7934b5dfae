"""The files that can be taken away from a report: which there are, and what each holds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from generator.evaluation.findings import ReportFinding
from generator.pages import downloads
from generator.pages.conductance import heat_rows
from generator.records.bench import Report

OLDER = "older"
"""The file of results from before."""


@dataclass(frozen=True)
class DataFile:
    """A file to take away: its name, and what makes its bytes."""

    name: str
    content: Callable[[], bytes]


def data_files(report: Report, finding: ReportFinding) -> Iterator[DataFile]:
    """The files of a report; one that would be empty is none, but for those that every report has."""
    yield DataFile("readings", lambda: downloads.readings(finding, report.runs))
    yield DataFile("results", lambda: downloads.results(finding))
    yield DataFile("pairs", lambda: downloads.pairs(finding))
    if any(item.limits for measure in finding.measures for item in measure.items):
        yield DataFile("limits", lambda: downloads.limits(finding, report.record.limits))
    if any(True for _ in heat_rows(finding.measures)):
        yield DataFile("heat", lambda: downloads.heat(finding))
    if finding.counts or finding.checks or finding.endurances:
        yield DataFile("counts", lambda: downloads.counts(finding))
    if finding.prices.items:
        yield DataFile("prices", lambda: downloads.prices(finding))
    if any(measure.older for measure in finding.measures):
        yield DataFile(OLDER, lambda: downloads.older(finding))


def rested_tables(report: Report, finding: ReportFinding) -> dict[str, bytes]:
    """The same by name, but for results from before, on which no edition rests."""
    return {each.name: each.content() for each in data_files(report, finding) if each.name != OLDER}
