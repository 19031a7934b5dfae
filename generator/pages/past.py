"""The editions of every report as pages tell them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from generator.charts.description import Name
from generator.history.change import WITHDRAWAL
from generator.history.frozen import as_published
from generator.history.past import past
from generator.pages.cautions import Cautions, cautions
from generator.pages.names import names_of
from generator.pages.parts import titles_of
from generator.pages.past_views import EditionView
from generator.pages.past_words import Words, units_of_measures
from generator.pages.report import methods_of
from generator.pages.shown import Shown
from generator.records.bench import Bench, Report


@dataclass(frozen=True)
class Told:
    """A report with its editions, and what its latest one has of names.

    Attributes:
        report: The report, with its records as they are now.
        editions: Its editions, oldest first; one at least.
        names: Names of the items in the latest edition's order.
        main: Id of the measure that answers the question.
        title: Its name.
        method: Id of the method that measures it; empty where no run does.
        units: In which unit the figures of a measure stand, by the measure and the unit they have.
        cautions: Those of the methods.
    """

    report: Report
    editions: tuple[EditionView, ...]
    names: dict[str, Name]
    main: str
    title: str
    method: str
    units: dict[tuple[str, str], Shown]
    cautions: Cautions

    @property
    def latest(self) -> EditionView:
        """The newest edition."""
        return self.editions[-1]

    @property
    def withdrawn(self) -> bool:
        """Whether the newest edition withdraws it."""
        return self.latest.reason == WITHDRAWAL


def told_editions(bench: Bench) -> tuple[Told, ...]:
    """Every report that has an edition, by id.

    Args:
        bench: The records, without faults: what editions rest on is as it was.
    """
    with_editions = (report for _, report in sorted(bench.reports.items()) if report.editions)
    return tuple(_told(bench, report) for report in with_editions)


def newest_editions(told: Iterable[Told]) -> tuple[EditionView, ...]:
    """Every edition of every report, newest first; of one day, by report, its newest first."""
    every = [edition for each in told for edition in reversed(each.editions)]
    return tuple(sorted(every, key=lambda each: each.day.iso, reverse=True))


def _told(bench: Bench, report: Report) -> Told:
    units = units_of_measures(report)
    made = []
    was, then = bench, report
    for each in past(bench, report):
        was, then = as_published(bench, report, report.editions[each.number])
        # A run that it no longer rests on is told by name, too.
        made.append(Words(replace(was, runs=bench.runs), then, units).edition(each))
    methods, main = methods_of(was, then), then.record.main
    by = [each.id for each in methods if each.measure(main)]
    return Told(
        report,
        tuple(made),
        names_of({key: was.items[key] for key in then.record.items}, ()),
        main,
        titles_of(then, methods)[main],
        by[-1] if by else "",
        units,
        cautions(methods),
    )
