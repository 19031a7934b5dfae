"""What a published edition rests on is as it was, and so is the edition itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import zip_longest
from pathlib import Path, PurePosixPath
from typing import Any

from generator.fault import Fault, Place
from generator.records.covered import Read
from generator.records.drafts import Draft
from generator.records.fingerprint import ROWS, canonical, marks
from generator.records.library import Library
from generator.records.nodes import Mapping, Node, Scalar
from generator.records.rested import DEPTH, Rested, Uses
from generator.records.schema.base import FileRecord
from generator.records.schema.edition import Edition, Resting
from generator.records.seal import HASH, edition_hash, edition_marks
from generator.records.selection import Runs
from generator.records.tree import Kind, RecordFile, kind_of, record_at

_WAYS: dict[Kind | None, str] = {
    "runs": "write what is right as a new run and publish an amendment",
    "sittings": "write what is right as a new run and publish an amendment",
    "methods": "write the change as the next version",
    "instruments": "write it as another instrument, or as a calibration of its own day",
    None: "put the other one beside it under a name of its own",
}
"""What would do instead, by the type of record; without one it is a photo."""


def check(library: Library, known: Runs) -> Iterator[Fault]:
    """Every edition: itself, and what it rests on. What several rest on is told once."""
    told: set[tuple[Path, str]] = set()
    every = [each for editions in library.editions.values() for each in editions.values()]
    if not every:
        return
    reports = every[0].place_of().file.parents[2]
    files = Rested(reports, lambda path: _node(path, reports, library))
    for report, editions in sorted(library.editions.items()):
        for number, edition in sorted(editions.items()):
            yield from itself(edition, editions.get(number - 1), report)
            resting = _Resting(edition, library, known, files)
            for fault in resting.faults(edition.rests_on):
                if (fault.place.file, fault.path) not in told:
                    told.add((fault.place.file, fault.path))
                    yield fault


def resting(
    edition: Edition, library: Library, known: Runs, reports: Path, names: Iterable[str]
) -> Iterator[Fault]:
    """What one edition rests on, as far as it is at hand: every part that is not as it was.

    Args:
        edition: The edition.
        library: Its records.
        known: Its runs.
        reports: The folder that they lie in.
        names: Files of those that it rests on; no other is opened.
    """
    files = Rested(reports, lambda path: _node(path, reports, library))
    yield from _Resting(edition, library, known, files).faults(names)


def itself(edition: Edition, before: Edition | None, report: str) -> Iterator[Fault]:
    """Whether an edition is as it was written, by its own fingerprint and that of the one before.

    Args:
        edition: The edition.
        before: The edition before it; None at the first, or where it is at fault.
        report: Id of the report in whose folder it lies.
    """
    content = canonical(edition.node)
    if not isinstance(content, dict):
        return
    if (edition.report, edition.edition) != (report, edition.number):
        what = f"this is edition {edition.edition} of {edition.report}, and stands as another; move it back"
        yield edition.fault(("report",), what)
        return
    if edition.number == 1 and edition.follows is not None:
        yield edition.fault(("follows",), "the first edition follows none")
    if before is not None and edition.follows != before.hash:
        what = f"this is not the fingerprint of edition {before.number}, so one of the two was edited"
        yield edition.fault(("follows",), f"{what}; put it back", edition.follows)
    if edition_hash(content) != edition.hash:
        now = edition_marks(content)
        for path in _unlike(edition.marks, now) or [HASH]:
            what = f"edited after it was published on {edition.date}; put it back, or publish an amendment"
            yield _at(edition, path, what)


def _unlike(was: dict[str, str], now: dict[str, str]) -> list[str]:
    """The parts whose marks are other ones, in their order, those that are gone last."""
    return [path for path in dict.fromkeys((*now, *was)) if was.get(path) != now.get(path)]


def _at(record: FileRecord, path: str, what: str) -> Fault:
    steps = tuple(path.split("."))
    return Fault(record.place_of(*steps), path, what)


@dataclass
class _Resting:
    """What one edition rests on."""

    edition: Edition
    library: Library
    known: Runs
    files: Rested
    uses: Uses = field(init=False)

    def __post_init__(self) -> None:
        self.uses = Uses(self._owners(), tuple(self._reads()))

    def faults(self, names: Iterable[str]) -> Iterator[Fault]:
        """What is no longer as it was, of some files that it rests on."""
        for name in names:
            kind = kind_of(PurePosixPath(name))
            if kind in {"instruments", "sittings"} and None in self._drafts():
                continue  # What is covered of it hangs on runs that are at fault themselves.
            found = self.files.hash(name, self.uses)
            if found is None:
                yield from self._gone(name)
            elif found != self.edition.rests_on[name].hash:
                yield from self._edited(name, self.edition.rests_on[name])

    def _gone(self, name: str) -> Iterator[Fault]:
        path = self.files.reports / name
        file = record_at(path, self.files.reports)
        broken = isinstance(file, RecordFile) and self.library.is_broken(file.kind, _full_name(file))
        if not broken and not path.exists():
            what = f"edition {self.edition.number} rests on this file, and it is gone; put it back"
            place = self.edition.key_place_of("rests_on", name)
            yield Fault(place, f"rests-on.{name}", what)

    def _edited(self, name: str, resting: Resting) -> Iterator[Fault]:
        content = self.files.content(name, self.uses)
        kind, path = kind_of(PurePosixPath(name)), self.files.reports / name
        by = f"edition {self.edition.number} of {self.edition.report}"
        way = _WAYS["runs" if name.endswith(".csv") else kind]
        what = f"{by} rests on this as it was on {self.edition.date}; put it back, or {way}"
        now = marks(content, DEPTH.get(kind or "", 1)) if isinstance(content, dict | list) else {}
        node = self.files.node_of(path)
        for part in _unlike(resting.marks, now) or [""]:
            steps = tuple(part.split(".")) if part and node is not None else ()
            was, rows = resting.marks.get(part, "").split(" "), now.get(part, "").split(" ")
            number = next((at for at, pair in enumerate(zip_longest(was, rows)) if len(set(pair)) > 1), 0)
            numbers = self.files.row_numbers(name, steps, self.uses) if len(rows) > 1 else []
            line = numbers[min(number, len(numbers) - 1)] if numbers else None
            yield Fault(_place(path, node, steps, line), "" if part == ROWS else part, what)

    def _drafts(self) -> list[Draft | None]:
        return [self.known.by_id.get(run) for run in self.edition.runs]

    def _owners(self) -> dict[str, frozenset[str]]:
        """The runs of sittings by their sittings; a run of a report has a file of its own."""
        found: dict[str, set[str]] = {}
        corrected = (each.run for run in self.edition.runs for each in self.library.corrections.get(run, ()))
        for run in (*self.edition.runs, *corrected):
            above, _, key = run.partition("/")
            if f"{above}/runs/{key}.yml" not in self.edition.rests_on:
                found.setdefault(above, set()).add(key)
        return {sitting: frozenset(keys) for sitting, keys in found.items()}

    def _reads(self) -> Iterator[Read]:
        for draft in self._drafts():
            for bound in draft.bound.values() if draft else ():
                meter, channel = bound.binding.instrument, bound.binding.channel or ""
                instrument = self.library.instruments.get(meter)
                plugged = instrument.channels.get(channel, "") if instrument else ""
                yield Read(meter, channel, bound.binding.probe or plugged, str(draft.date if draft else ""))


def _node(path: Path, reports: Path, library: Library) -> Mapping | None:
    """The nodes of a record as it was read; None of one whose form is at fault."""
    file = record_at(path, reports)
    found: Any = None
    match file:
        case RecordFile(kind="runs", name=name, report=report):
            found = library.runs.get(report, {}).get(name)
            if f"{report}/{name}" in library.corrections:
                return library.written[f"{report}/{name}"].record
        case RecordFile(kind="methods", name=name):
            method, _, version = name.partition("/")
            found = library.method(method, int(version))
        case RecordFile(kind="sittings" | "instruments" as kind, name=name):
            found = getattr(library, kind).get(name)
    return found.node if isinstance(found, FileRecord) else None


def _full_name(file: RecordFile) -> str:
    return f"{file.report}/{file.name}" if file.kind == "runs" else file.name


def _place(path: Path, node: Mapping | None, steps: tuple[str, ...], line: int | None) -> Place:
    """Where a part stands: a row of a table, a value, or the whole file."""
    if node is None:
        if line is None:
            return Place(path)
        lines = path.read_bytes().decode("utf-8-sig", "replace").split("\n")
        return Place(path, line + 1, 1, lines[line].rstrip("\r"))
    found: Node = node
    for step in steps:
        if not isinstance(found, Mapping) or step not in found:
            return found.place
        found = found[step]
    if line is not None and isinstance(found, Scalar):
        return found.within(line, 0)
    return found.place
