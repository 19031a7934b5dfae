"""The whole tree of records: `load(folder)` → `Bench`, with every fault of every file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType

from generator.fault import Doubt, Fault, Place, in_order
from generator.records import rules
from generator.records.drafts import Draft, drafts
from generator.records.library import Library, fill
from generator.records.resolve import resolve
from generator.records.rules import settings
from generator.records.run import Run
from generator.records.schema.edition import Edition
from generator.records.schema.imports import ImportHints
from generator.records.schema.instrument import Instrument
from generator.records.schema.item import Item
from generator.records.schema.links import Links
from generator.records.schema.method import Method
from generator.records.schema.older import OlderBatch
from generator.records.schema.report import ReportRecord
from generator.records.schema.settings import FORMAT, Settings
from generator.records.schema.sitting import Sitting
from generator.records.selection import Runs, controls_of, runs_of, waits
from generator.records.store import left_behind
from generator.records.together import LIST, is_unfinished
from generator.records.tree import RecordFile, record_at, survey


class NoBench(Exception):
    """A folder without reports/bench.yml.

    Attributes:
        folder: The folder.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        super().__init__(f"no reports/bench.yml in {folder}")


@dataclass(frozen=True)
class Report:
    """A report and what belongs to it.

    Attributes:
        id: Its folder's name.
        folder: Its folder.
        record: report.yml.
        runs: The runs that it rests on, by id: its own and those of sittings, controls among them.
        own: The runs of its own folder, by the file's name.
        links: links.yml; None without one.
        editions: What was published, by number.
    """

    id: str
    folder: Path
    record: ReportRecord
    runs: dict[str, Run]
    own: dict[str, Run] = field(default_factory=dict)
    links: Links | None = None
    editions: dict[int, Edition] = field(default_factory=dict)


@dataclass(frozen=True)
class Bench:
    """Everything that the records say. Where there are faults, what they stand in is left out.

    Attributes:
        root: The folder that holds reports/.
        settings: bench.yml.
        instruments: By id.
        hints: How each instrument's files are imported, by its id.
        methods: By id, then by version.
        items: By id.
        sittings: By id.
        older: Batches of older results, by id.
        reports: By id; one whose runs all wait for their readings is left out.
        runs: By id: `<report>/<run>`, `<sitting>/<item>:<specimen>`, `<sitting>/control`.
        corrected: Id of a run to that of the one that corrects it.
        faults: What must be mended, in the order of files and lines.
        doubts: What may stay, in the same order.
        left_out: How many records and runs are left out until mended.
        files: Every file that was read, sorted.
    """

    root: Path
    settings: Settings
    instruments: dict[str, Instrument] = field(default_factory=dict)
    hints: dict[str, ImportHints] = field(default_factory=dict)
    methods: dict[str, dict[int, Method]] = field(default_factory=dict)
    items: dict[str, Item] = field(default_factory=dict)
    sittings: dict[str, Sitting] = field(default_factory=dict)
    older: dict[str, OlderBatch] = field(default_factory=dict)
    reports: dict[str, Report] = field(default_factory=dict)
    runs: dict[str, Run] = field(default_factory=dict)
    corrected: dict[str, str] = field(default_factory=dict)
    faults: tuple[Fault, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    left_out: int = 0
    files: tuple[Path, ...] = ()

    @property
    def standing(self) -> tuple[Run, ...]:
        """The runs that no other one corrects."""
        return tuple(run for name, run in self.runs.items() if name not in self.corrected)


def load(folder: Path, planned: Mapping[Path, str] = MappingProxyType({})) -> Bench:
    """Read a bench.

    Args:
        folder: The folder that holds reports/.
        planned: Texts of records that are not written yet, by their files; they are read as if they were.

    Returns:
        Every sound record, and every fault and doubt of every file.

    Raises:
        NoBench: There is no reports/bench.yml in it.
    """
    root = folder.absolute()
    if not (root / "reports" / "bench.yml").is_file():
        raise NoBench(root)
    tree = survey(root / "reports")
    there = {each.path for each in tree.records}
    more = (record_at(path, root / "reports") for path in sorted(planned) if path not in there)
    records = [*tree.records, *(each for each in more if isinstance(each, RecordFile))]
    library, faults, doubts = fill(records, tree.csv, tree.meant, planned)
    newer = settings.newer_format(library.settings) if library.settings else None
    if newer is not None:
        return Bench(root, library.settings or EMPTY, faults=(newer,))
    found = [*tree.faults, *_left_behind(root), *faults, *doubts, *rules.of_records(library)]
    known = Runs.of(drafts(library))
    runs, against = sound_runs(library, known)
    found.extend(against)
    found.extend(rules.of_reports(library, known))
    files = sorted([*(each.path for each in records), *tree.csv])
    bench = Bench(root, library.settings or EMPTY, files=tuple(files))
    return _filled(bench, library, known, runs, found)


def sound_runs(library: Library, known: Runs) -> tuple[dict[str, Run], list[Fault]]:
    """The runs against which there is nothing and that wait for nothing, by id; and all that there is.

    Args:
        library: The records.
        known: Every run of theirs.
    """
    runs: dict[str, Run] = {}
    found: list[Fault] = []
    for draft in known.by_id.values():
        against = tuple(rules.of_run(draft, library))
        found.extend(_faults(against) if draft.id in known.corrected else against)
        method = library.method(draft.body.method.id, draft.body.method.version)
        if method is not None and not _faults(against) and not draft.waits and _complete(draft, library):
            runs[draft.id] = resolve(draft, method, library)
    return runs, found


def _left_behind(root: Path) -> Iterator[Fault]:
    if is_unfinished(root / "reports"):
        what = (
            "a command was stopped before all of its files were written; `provebook check` writes the others"
        )
        yield Fault(Place(root / "reports" / LIST), "", what)
    for path in left_behind(root / "reports"):
        what = "left here when writing was stopped; nothing reads it, and it may be deleted"
        yield Doubt(Place(path), "", what)


EMPTY = Settings.model_construct(format=FORMAT, reviewer="", contact="")
"""Stands where bench.yml is at fault."""


def _complete(draft: Draft, library: Library) -> bool:
    """Whether everything that a run names is there and sound."""
    metered = all(bound.binding.instrument in library.instruments for bound in draft.bound.values())
    read = draft.table is not None or not draft.has_readings
    return metered and read and (bool(draft.control) or draft.item in library.items)


def _faults(found: Iterable[Fault]) -> tuple[Fault, ...]:
    return tuple(each for each in found if not isinstance(each, Doubt))


def _filled(
    bench: Bench, library: Library, known: Runs, runs: dict[str, Run], found: Iterable[Fault]
) -> Bench:
    told = in_order(dict.fromkeys(found))
    faults = _faults(told)
    held_up = {draft.record.place_of().file for name, draft in known.by_id.items() if name not in runs}
    held_up |= {each.record.place.file for each in library.written.values() if each.why}
    return replace(
        bench,
        instruments=library.instruments,
        hints=library.hints,
        methods=library.methods,
        items=library.items,
        sittings=library.sittings,
        older=library.older,
        reports={
            name: _report(record, library, known, runs)
            for name, record in library.reports.items()
            if not waits(runs_of(record, known, library))
        },
        runs=runs,
        corrected=known.corrected,
        faults=faults,
        doubts=tuple(each for each in told if isinstance(each, Doubt)),
        left_out=len({each.place.file for each in faults} | held_up),
    )


def _report(record: ReportRecord, library: Library, known: Runs, runs: dict[str, Run]) -> Report:
    used = (*controls_of(record, known), *runs_of(record, known, library))
    return Report(
        id=record.id,
        folder=record.place_of().file.parent,
        record=record,
        runs={draft.id: runs[draft.id] for draft in used if draft.id in runs},
        own={
            name: runs[f"{record.id}/{name}"]
            for name in library.runs.get(record.id, {})
            if f"{record.id}/{name}" in runs
        },
        links=library.links.get(record.id),
        editions=library.editions.get(record.id, {}),
    )
