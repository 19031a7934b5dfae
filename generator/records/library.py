"""Every record whose form is sound, by type and id; what the rules and the runs are made from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeAlias

from generator.fault import Doubt, Fault
from generator.records import nodes
from generator.records.corrections import (
    Correction,
    Written,
    alone,
    as_file,
    correction,
    goes_round,
    in_order,
    is_correction,
    joined,
)
from generator.records.csv_table import read_csv
from generator.records.schema.base import FileRecord
from generator.records.schema.edition import Edition
from generator.records.schema.imports import ImportHints
from generator.records.schema.instrument import Instrument
from generator.records.schema.item import Item
from generator.records.schema.links import Links
from generator.records.schema.method import Method
from generator.records.schema.older import OlderBatch
from generator.records.schema.readings import CsvFile
from generator.records.schema.report import ReportRecord
from generator.records.schema.run import RunRecord
from generator.records.schema.settings import Settings
from generator.records.schema.sitting import Sitting
from generator.records.source import Source, read, read_text
from generator.records.table import Table
from generator.records.tree import Kind, RecordFile

MODELS: dict[Kind, type[FileRecord]] = {
    "settings": Settings,
    "instruments": Instrument,
    "hints": ImportHints,
    "methods": Method,
    "items": Item,
    "sittings": Sitting,
    "older": OlderBatch,
    "reports": ReportRecord,
    "links": Links,
    "runs": RunRecord,
    "editions": Edition,
}
"""The model of each type of record; editors' schemas are made from the same."""

Readings: TypeAlias = Table | CsvFile | None


@dataclass
class Library:
    """What was read.

    Attributes:
        settings: bench.yml; None where its form is at fault.
        instruments: By id.
        hints: How each instrument's files are imported, by its id.
        methods: By id, then by version.
        items: By id.
        sittings: By id.
        older: By id of the batch.
        reports: By id.
        links: By id of the report.
        runs: By id of the report, then of the run.
        editions: By id of the report, then by number.
        tables: Readings in files of their own, by path; None where such a file is at fault.
        unread: Where readings are named that lie there under a name at fault.
        broken: Type and id of each record whose form is at fault: a reference to one is no fault of its own.
        corrections: What a run corrects, by `<report>/<run>`, the run that was corrected first last.
        written: Every run that corrects another, as its own file has it, by the same.
    """

    settings: Settings | None = None
    instruments: dict[str, Instrument] = field(default_factory=dict)
    hints: dict[str, ImportHints] = field(default_factory=dict)
    methods: dict[str, dict[int, Method]] = field(default_factory=dict)
    items: dict[str, Item] = field(default_factory=dict)
    sittings: dict[str, Sitting] = field(default_factory=dict)
    older: dict[str, OlderBatch] = field(default_factory=dict)
    reports: dict[str, ReportRecord] = field(default_factory=dict)
    links: dict[str, Links] = field(default_factory=dict)
    runs: dict[str, dict[str, RunRecord]] = field(default_factory=dict)
    editions: dict[str, dict[int, Edition]] = field(default_factory=dict)
    tables: dict[Path, Table | None] = field(default_factory=dict)
    unread: set[Path] = field(default_factory=set)
    broken: set[tuple[str, str]] = field(default_factory=set)
    corrections: dict[str, tuple[Correction, ...]] = field(default_factory=dict)
    written: dict[str, Written] = field(default_factory=dict)

    def is_broken(self, kind: Kind, name: str) -> bool:
        """Whether a record of that type and id is there, and its form at fault."""
        return (kind, name) in self.broken

    def table(self, readings: Readings, beside: Path) -> Table | None:
        """The table of a record, inside it or in a file beside it; None without one or where it is at fault.

        Args:
            readings: What the record holds.
            beside: The record's file.
        """
        if isinstance(readings, CsvFile):
            return self.tables.get(beside.parent / readings.name)
        return readings

    def method(self, name: str, version: int) -> Method | None:
        """That version of a method, or None."""
        return self.methods.get(name, {}).get(version)


def fill(
    files: Iterable[RecordFile],
    csv: Iterable[Path],
    meant: Iterable[RecordFile | Path] = (),
    planned: Mapping[Path, str] = MappingProxyType({}),
) -> tuple[Library, list[Fault], list[Doubt]]:
    """Read record files.

    Args:
        files: What each file is.
        csv: Files of readings.
        meant: Records and readings that are not read, because their names are at fault.
        planned: The texts of files that are not written yet.

    Returns:
        The records whose form is sound, and every fault and doubt of the form of the others.
    """
    library, faults, doubts = Library(), list[Fault](), list[Doubt]()
    waiting: dict[str, tuple[RecordFile, Source]] = {}
    for each in meant:
        _lack(library, each)
    for file in files:
        source = read_text(planned[file.path], file.path) if file.path in planned else read(file.path)
        if file.kind == "runs" and source.root is not None and is_correction(source.root):
            waiting[_full_name(file)] = file, source
            continue
        found: FileRecord | tuple[Fault, ...] = source.faults
        if source.root is not None:
            found = _read(file, source.root)
            doubts.extend(_besides(source, found))
        elif source.is_empty:
            found = tuple(replace(each, accepted=MODELS[file.kind].first()) for each in source.faults)
        _take(library, file, found, (faults, doubts))
    for path in csv:
        table = read_csv(path)
        library.tables[path] = table if isinstance(table, Table) else None
        faults.extend(() if isinstance(table, Table) else table)
        doubts.extend(table.doubts if isinstance(table, Table) else ())
    _join(library, waiting, (faults, doubts))
    return library, faults, doubts


def _take(
    library: Library,
    file: RecordFile,
    found: FileRecord | tuple[Fault, ...],
    told: tuple[list[Fault], list[Doubt]],
) -> None:
    """Keep a record, or what its form has against it."""
    if isinstance(found, FileRecord):
        told[1].extend(found.doubts)
        _keep(library, file, found)
    else:
        told[0].extend(found)
        library.broken.add((file.kind, _full_name(file)))


def _join(
    library: Library, waiting: Mapping[str, tuple[RecordFile, Source]], told: tuple[list[Fault], list[Doubt]]
) -> None:
    """Join each correction with the run that it corrects; what cannot be joined is told by a rule."""
    known = {
        run: Written(run, source.root, _corrected(run, source.root, library, waiting))
        for run, (_, source) in waiting.items()
        if source.root is not None
    }
    for each in in_order(known):
        before = _before(library, each.corrects)
        if before is not None:
            file, source = waiting[each.run]
            found = _read(file, joined(before, each.record))
            told[1].extend(_besides(source, found))
            _take(library, file, found, told)
            library.written[each.run] = each
            above = each.corrects.partition("/")[0]
            made = correction(each, before, above if above in library.sittings else "")
            library.corrections[each.run] = (made, *library.corrections.get(each.corrects, ()))
    for run, each in known.items():
        if run not in library.written:
            why = "round" if goes_round(run, known) else "form" if each.corrects else "absent"
            library.written[run] = replace(each, why=why)
            library.broken.add(("runs", run))
            found = _read(waiting[run][0], alone(each.record))
            told[0].extend(() if isinstance(found, FileRecord) else found)


def _corrected(run: str, root: nodes.Mapping, library: Library, waiting: Mapping[str, object]) -> str:
    """The id of the run that a correction names; empty where there is none of the name."""
    report, name = run.partition("/")[0], str(root["corrects"]).strip()
    for known in (f"{report}/{name}", name):
        above, _, key = known.partition("/")
        sitting = library.sittings.get(above)
        there = key in library.runs.get(above, {}) or (sitting is not None and key in sitting.runs)
        if (
            there
            or known in waiting
            or ("runs", known) in library.broken
            or ("sittings", above) in library.broken
        ):
            return known
    return ""


def _before(library: Library, run: str) -> nodes.Mapping | None:
    """The run of an id as its file has it, joined with what it corrects itself; None without a sound one."""
    above, _, key = run.partition("/")
    if above in library.sittings and key in library.sittings[above].runs:
        return as_file(library.sittings[above], key)
    found = library.runs.get(above, {}).get(key)
    return found.node if found is not None else None


def _besides(source: Source, found: FileRecord | tuple[Fault, ...]) -> Iterator[Doubt]:
    """What is doubtful in the text of a file, where no fault is told of the same place."""
    told = () if isinstance(found, FileRecord) else found
    yield from (each for each in source.doubts if each.place not in {one.place for one in told})


def _lack(library: Library, meant: RecordFile | Path) -> None:
    if isinstance(meant, RecordFile):
        library.broken.add((meant.kind, _full_name(meant)))
    else:
        library.unread.add(meant)


PLACES: dict[Kind, tuple[str, str]] = {
    "settings": ("the settings of the bench", "reports/bench.yml"),
    "instruments": ("an instrument", "reports/instruments/"),
    "methods": ("a method", "reports/methods/<id>/<version>.yml"),
    "items": ("an item", "reports/items/"),
    "sittings": ("a sitting", "reports/sittings/"),
    "older": ("a batch of older results", "reports/older/"),
    "reports": ("a report", "reports/<id>/report.yml"),
    "runs": ("a run", "reports/<report-id>/runs/"),
}
"""What types of record are called in a message, and where they stand."""


def _read(file: RecordFile, root: nodes.Mapping) -> FileRecord | tuple[Fault, ...]:
    """The record, or what its form has against it; a record of another type is told as one thing."""
    model = MODELS[file.kind]
    found = model.from_nodes(root, file.name)
    if isinstance(found, FileRecord) or any(key in root for key in model.required()):
        return found
    for kind, (name, place) in PLACES.items():
        if set(MODELS[kind].required()) <= set(root):
            what = f"these are the keys of {name}, which has its place at {place}; move the file there"
            return (Fault(root.place, "", what),)
    return found


def _full_name(file: RecordFile) -> str:
    return f"{file.report}/{file.name}" if file.kind in {"runs", "editions"} else file.name


def _keep(library: Library, file: RecordFile, record: Any) -> None:
    match file.kind:
        case "settings":
            library.settings = record
        case "methods":
            library.methods.setdefault(record.id, {})[record.version] = record
        case "runs":
            library.runs.setdefault(file.report, {})[file.name] = record
        case "editions":
            library.editions.setdefault(file.report, {})[record.number] = record
        case kind:
            shelf: dict[str, Any] = getattr(library, kind)
            shelf[file.name] = record
