"""A report as it is now → what an edition keeps of it; an edition → the report as it was published."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath
from typing import Any, TypeVar

from generator.evaluation.work import versions_agreeing
from generator.records import nodes
from generator.records.bench import Bench, Report
from generator.records.covered import OF_A_METER, Read
from generator.records.fingerprint import Canonical, canonical, keys_of, marks
from generator.records.rested import DEPTH, Rested, Uses, tables_beside
from generator.records.run import Run
from generator.records.schema.base import FileRecord
from generator.records.schema.edition import Edition
from generator.records.schema.instrument import Instrument
from generator.records.schema.item import Item
from generator.records.schema.method import Method
from generator.records.schema.older import OlderBatch
from generator.records.schema.report import ReportRecord
from generator.records.schema.settings import Settings
from generator.records.source import read

LEFT_OUT = ("site-address", "licence")
"""Keys of bench.yml that no edition keeps: a site may move, and what is published be licensed later."""

R = TypeVar("R", bound=FileRecord)


@dataclass(frozen=True)
class Frozen:
    """What an edition keeps of a report.

    Attributes:
        content: Copy of what keeps changing: `report`, `items`, `instruments`, `bench`.
        runs: Ids of the runs that it rests on.
        rests_on: File below reports/ to its fingerprint.
        marks: File to the marks of its parts.
    """

    content: dict[str, Canonical]
    runs: tuple[str, ...]
    rests_on: dict[str, str]
    marks: dict[str, dict[str, str]]


def frozen(bench: Bench, report: Report) -> Frozen:
    """What an edition of a report would keep, as its records are now.

    Args:
        bench: The records, without faults.
        report: One of its reports.
    """
    reports = bench.root / "reports"
    uses = uses_of(report)
    files = Rested(reports, _node)
    content = _content(bench, report, uses)
    hashes, parts = dict[str, str](), dict[str, dict[str, str]]()
    for name in sorted({*_records(bench, report, reports), *_photos(report, content, files)}):
        found = files.content(name, uses)
        made = files.hash(name, uses)
        if found is not None and made is not None:
            hashes[name] = made
            depth = DEPTH.get(PurePosixPath(name).parts[0], 1)
            parts[name] = marks(found, depth) if isinstance(found, dict | list) else {}
    return Frozen(content, tuple(report.runs), hashes, parts)


def _node(path: Path) -> nodes.Mapping | None:
    return read(path).root if path.is_file() else None


def uses_of(report: Report) -> Uses:
    """What the runs of a report use of files that others use, too."""
    owners: dict[str, set[str]] = {}
    for run in report.runs.values():
        if run.sitting:
            owners.setdefault(run.sitting, set()).add(run.made_as.partition("/")[2])
    reads = {
        Read(use.instrument, use.channel or "", use.probe or "", run.date.isoformat())
        for run in report.runs.values()
        for use in run.uses.values()
    }
    in_order = sorted(reads, key=lambda each: (each.instrument, each.channel, each.probe, each.day))
    return Uses({key: frozenset(each) for key, each in owners.items()}, tuple(in_order))


def _records(bench: Bench, report: Report, reports: Path) -> Iterator[str]:
    """The records and readings that a report rests on, below reports/."""
    for source in {file for run in report.runs.values() for file in run.sources}:
        yield source.relative_to(reports).as_posix()
        node = _node(source)
        for name in tables_beside(node) if node is not None else ():
            yield source.with_name(name).relative_to(reports).as_posix()
    for method, newest in _newest(report.runs.values()):
        for version in versions_agreeing(bench.methods[method], newest):
            if version in bench.methods[method]:
                yield f"methods/{method}/{version}.yml"
    for run in report.runs.values():
        yield f"methods/{run.method}/{run.version}.yml"
        yield from (f"instruments/{use.instrument}.yml" for use in run.uses.values())


def _newest(runs: Any) -> Iterator[tuple[str, int]]:
    found: dict[str, int] = {}
    for run in runs:
        found[run.method] = max(run.version, found.get(run.method, 0))
    yield from found.items()


def _photos(report: Report, content: dict[str, Canonical], files: Rested) -> Iterator[str]:
    """Photos in the report's folder that something it shows names."""
    folder = report.folder / "photos"
    there = {each.name for each in folder.iterdir()} if folder.is_dir() else set()
    named = set(_texts(content))
    for source in {file for run in report.runs.values() for file in run.sources}:
        node = files.node_of(source)
        named |= set(_texts(canonical(node))) if node is not None else set()
    for name in {f"methods/{run.method}/{run.version}.yml" for run in report.runs.values()}:
        node = files.node_of(files.reports / name)
        named |= set(_texts(canonical(node))) if node is not None else set()
    yield from (f"{report.id}/photos/{name}" for name in there & named)


def _texts(content: Any) -> Iterator[str]:
    """Every text of a content, keys among them."""
    if isinstance(content, str):
        yield content
    elif isinstance(content, dict):
        for key, each in content.items():
            yield key
            yield from _texts(each)
    else:
        for each in content:
            yield from _texts(each)


def _content(bench: Bench, report: Report, uses: Uses) -> dict[str, Canonical]:
    meters = sorted({each.instrument for each in uses.reads})
    shown = canonical(bench.settings.node)
    return {
        "report": canonical(report.record.node),
        "items": {item: canonical(bench.items[item].node) for item in report.record.items},
        "instruments": {each: _without(bench.instruments[each].node, OF_A_METER) for each in meters},
        "bench": {key: each for key, each in keys_of(shown).items() if key not in LEFT_OUT},
        "older": dict(_older(bench, report)),
    }


def _older(bench: Bench, report: Report) -> Iterator[tuple[str, Canonical]]:
    """Results from before that stand on the report's page, each with its method named."""
    record, methods = report.record, {run.method for run in report.runs.values()}
    for name, batch in bench.older.items():
        found: list[Canonical] = []
        for row in batch.results:
            method = row.measured_by(bench.methods)[0]
            if row.item in record.items and row.measure in record.measures and method in methods:
                found.append({**keys_of(canonical(row.node)), "method": method})
        if found:
            yield name, {"title": batch.title, "method": batch.method, "results": found}


def _without(node: nodes.Mapping, covered: tuple[str, ...]) -> Canonical:
    return {key: each for key, each in keys_of(canonical(node)).items() if key not in covered}


def as_published(bench: Bench, report: Report, edition: Edition) -> tuple[Bench, Report]:
    """A report as an edition has it: its copy of what keeps changing, and the runs that it rests on.

    Args:
        bench: The records, without faults, so that what the edition rests on is as it was.
        report: The report as it is now.
        edition: One of its editions.

    Returns:
        Both as they were, to be evaluated as they are.
    """
    copy = copies(edition, bench.instruments)
    runs: dict[str, Run] = {run: bench.runs[run] for run in edition.runs}
    was = replace(
        bench,
        settings=copy.settings,
        instruments={**bench.instruments, **copy.instruments},
        methods=_methods(bench, edition),
        items={**bench.items, **copy.items},
        older=copy.older,
        runs=runs,
    )
    own = {name: run for name, run in report.own.items() if run.id in runs}
    before = {number: each for number, each in report.editions.items() if number < edition.number}
    then = replace(report, record=copy.record, runs=runs, own=own, editions=before)
    return replace(was, reports={report.id: then}), then


def _methods(bench: Bench, edition: Edition) -> dict[str, dict[int, Method]]:
    """The versions that an edition rests on; one that came later is not told by it."""
    found: dict[str, dict[int, Method]] = {}
    for name in edition.rests_on:
        if name.startswith("methods/"):
            _, method, file = name.split("/")
            version = int(file.removesuffix(".yml"))
            found.setdefault(method, {})[version] = bench.methods[method][version]
    return found


@dataclass(frozen=True)
class Copies:
    """What an edition keeps a copy of, read.

    Attributes:
        settings: What it shows of bench.yml.
        instruments: Its meters by id, what never changes of each from the meter's own record.
        items: Its items by id.
        record: The report.
        older: Batches of older results that stand beside its figures, by id.
    """

    settings: Settings
    instruments: dict[str, Instrument]
    items: dict[str, Item]
    record: ReportRecord
    older: dict[str, OlderBatch]


def copies(edition: Edition, meters: Mapping[str, Instrument]) -> Copies:
    """Read what an edition keeps a copy of.

    Args:
        edition: The edition.
        meters: The meters as they are now, by id.

    Raises:
        ValueError: It is no copy that `publish` writes.
    """
    content = {key: each for key, each in edition.content.items() if isinstance(each, nodes.Mapping)}
    if missing := [key for key in ("bench", "instruments", "items", "report") if key not in content]:
        raise ValueError(f"an edition has no copy of {missing[0]}")
    return Copies(
        _read(Settings, content["bench"], "bench"),
        {key: _meter(key, node, meters) for key, node in content["instruments"].items()},
        {key: _read(Item, node, key) for key, node in content["items"].items()},
        _read(ReportRecord, content["report"], edition.report),
        {key: _read(OlderBatch, node, key) for key, node in content.get("older", {}).items()},
    )


def _meter(key: str, copy: nodes.Node, meters: Mapping[str, Instrument]) -> Instrument:
    if key not in meters or not isinstance(copy, nodes.Mapping):
        raise ValueError(f"an edition has a copy of {key}, and there is no such meter")
    return _read(Instrument, _joined(copy, meters[key].node), key)


def _read(model: type[R], node: nodes.Node, name: str) -> R:
    if not isinstance(node, nodes.Mapping):
        raise ValueError(f"the copy of {name} in an edition cannot be read")  # noqa: TRY004  # a stranger's value
    found = model.from_nodes(_plainly(node), name)
    if isinstance(found, FileRecord):
        return found
    raise ValueError(f"the copy of {name} in an edition cannot be read: {found[0].what}")


def _joined(copy: nodes.Mapping, now: nodes.Mapping) -> nodes.Mapping:
    """A meter: what never changes from its record, the rest from the copy."""
    whole = nodes.Mapping(now.place, now.path)
    for source, keys in ((now, [key for key in now if key in OF_A_METER]), (copy, list(copy))):
        for key in keys:
            whole[key] = source[key]
            whole.key_places[key] = source.key_places[key]
    return whole


def _plainly(node: Any) -> Any:
    """A copy's nodes with its truth values as a record has them, without quotes."""
    if isinstance(node, nodes.Mapping):
        made = nodes.Mapping(node.place, node.path)
        made.key_places.update(node.key_places)
        made.update({key: _plainly(each) for key, each in node.items()})
        return made
    if isinstance(node, nodes.Sequence):
        listed = nodes.Sequence(node.place, node.path)
        listed.extend(_plainly(each) for each in node)
        return listed
    return nodes.Scalar(node.text, node.place, node.path) if node.text in {"true", "false"} else node
