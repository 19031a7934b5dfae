"""What a site shows: of each report its editions as published, and drafts where they are asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from generator.history.change import WITHDRAWAL, state_of
from generator.history.frozen import as_published, frozen
from generator.records.bench import Bench, Report
from generator.records.schema.edition import Edition
from generator.records.schema.item import Item
from generator.records.schema.method import Method
from generator.records.schema.older import OlderBatch
from generator.records.schema.settings import Column, Settings


@dataclass(frozen=True)
class Told:
    """A report as one address of the site tells it.

    Attributes:
        bench: The records as they were.
        report: The report as it was; its editions are those before this one.
        number: Number of the edition.
        edition: What was published; None of a draft.
    """

    bench: Bench
    report: Report
    number: int
    edition: Edition | None

    @property
    def withdrawn(self) -> bool:
        """Whether this edition takes the report back."""
        return self.edition is not None and self.edition.reason == WITHDRAWAL


@dataclass(frozen=True)
class Shelf:
    """Everything that a site shows.

    Attributes:
        bench: What the pages beside reports are made from; its reports are as the site tells them last.
        reports: Each report's editions by its id, the oldest first; a draft stands last.
        records: The records as they are now; its reports are these, with all their editions.
        left_out: Ids of reports of which something is unpublished and not shown.
    """

    bench: Bench
    reports: dict[str, tuple[Told, ...]]
    records: Bench
    left_out: tuple[str, ...] = ()


def drafts_too(bench: Bench) -> Shelf:
    """Everything, what no edition has published as the draft of the next.

    Args:
        bench: The records, without faults.
    """
    told: dict[str, tuple[Told, ...]] = {}
    for name, report in sorted(bench.reports.items()):
        editions = _editions(bench, report)
        draft = (Told(bench, report, max(report.editions, default=0) + 1, None),)
        told[name] = (*editions, *draft) if is_draft(bench, report) else editions
    reports = {name: each[-1].report for name, each in told.items()}
    return Shelf(replace(bench, reports=reports), told, bench)


def published(bench: Bench) -> Shelf:
    """What editions have published, and nothing else: no item, method or run of a draft alone.

    Args:
        bench: The records, without faults.
    """
    now = {name: each for name, each in sorted(bench.reports.items()) if each.editions}
    told = {name: _editions(bench, each) for name, each in now.items()}
    every = sorted((each for several in told.values() for each in several), key=_by_day)
    last = {name: each[-1].report for name, each in told.items()}
    methods = _methods(every)
    items = {key: item for each in every for key, item in _items(each).items()}
    shown = replace(
        bench,
        settings=_settings(bench.settings, methods),
        items=items,
        methods=methods,
        older=dict(_older(bench, items, methods)),
        runs={run.id: run for _, report in sorted(last.items()) for run in report.runs.values()},
        reports=last,
    )
    drafts = tuple(name for name, each in sorted(bench.reports.items()) if is_draft(bench, each))
    return Shelf(shown, told, replace(bench, reports=now), drafts)


def is_draft(bench: Bench, report: Report) -> bool:
    """Whether something of a report is unpublished: its text, its runs or what they rest on."""
    if not report.editions:
        return True
    was, now = state_of(report.editions[max(report.editions)]), frozen(bench, report)
    return (was.content, was.runs, was.rests_on) != (now.content, now.runs, now.rests_on)


def _editions(bench: Bench, report: Report) -> tuple[Told, ...]:
    return tuple(
        Told(*as_published(bench, report, edition), number, edition)
        for number, edition in sorted(report.editions.items())
    )


def _by_day(told: Told) -> tuple[str, str, int]:
    day = told.edition.date.isoformat() if told.edition is not None else ""
    return day, told.report.id, told.number


def _items(told: Told) -> dict[str, Item]:
    return {key: told.bench.items[key] for key in told.report.record.items}


def _methods(every: list[Told]) -> dict[str, dict[int, Method]]:
    found: dict[str, dict[int, Method]] = {}
    for each in every:
        for name, versions in each.bench.methods.items():
            found.setdefault(name, {}).update(versions)
    return {name: dict(sorted(found[name].items())) for name in sorted(found)}


def _settings(settings: Settings, methods: dict[str, dict[int, Method]]) -> Settings:
    """The settings with those columns of the comparison that a published method states."""
    asked = settings.comparison
    if asked is None:
        return settings
    columns = tuple(_stated(asked.columns, methods))
    return settings.model_copy(update={"comparison": asked.model_copy(update={"columns": columns})})


def _stated(columns: Iterable[Column], methods: dict[str, dict[int, Method]]) -> Iterator[Column]:
    for column in columns:
        versions = methods.get(column.method, {}).values()
        if any(version.measure(column.measure) for version in versions):
            yield column


def _older(
    bench: Bench, items: dict[str, Item], methods: dict[str, dict[int, Method]]
) -> Iterator[tuple[str, OlderBatch]]:
    """Results from before, which no edition publishes: those of items and methods that are published."""
    for name, batch in bench.older.items():
        rows = tuple(row for row in batch.results if row.item in items and row.measured_by(methods))
        if rows:
            yield name, batch.model_copy(update={"results": rows})
