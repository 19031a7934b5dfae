"""The files of a parcel, laid out in a folder → its edition, and a bench that holds nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from generator.fault import Doubt, Fault, in_order
from generator.history.frozen import copies
from generator.history.parcel.archive import Unsound
from generator.history.parcel.contents import FOLDER
from generator.records.bench import Bench, Report, sound_runs
from generator.records.drafts import drafts
from generator.records.library import Library, fill
from generator.records.rested import is_readings
from generator.records.rules.published import itself, resting
from generator.records.run import Run
from generator.records.schema.edition import Edition
from generator.records.selection import Runs
from generator.records.tree import RecordFile, record_at

_EDITION = re.compile(rf"{FOLDER}/([^/]+)/editions/([1-9]\d{{0,4}})\.yml")
NOT_AS_PUBLISHED = "not as it was when this edition was published"
"""Said to a person who verifies, and can put nothing back."""

_PHOTO = re.compile(r"[a-z0-9-]+/photos/[^/]+")


@dataclass(frozen=True)
class Alone:
    """One edition with its files and nothing else.

    Attributes:
        report: Id of the report.
        number: Number of the edition, which is the last of those at hand.
        edition: It; None where its form is at fault.
        faults: Whatever is not as it was published, or can't be read, in the order of files and lines.
        gone: Files that it rests on and that are not at hand, but for photos.
        photos: Photos that it rests on, to their fingerprints; none is at hand.
        whole: The bench and the report as published; None where they can't be had.
        why: Why not, where no fault tells.
    """

    report: str
    number: int
    edition: Edition | None = None
    faults: tuple[Fault, ...] = ()
    gone: tuple[str, ...] = ()
    photos: dict[str, str] = field(default_factory=dict)
    whole: tuple[Bench, Report] | None = None
    why: str = ""


def alone(folder: Path, names: Iterable[str]) -> Alone:
    """Read an edition from the files that it came with.

    Args:
        folder: Where they were laid out; it holds nothing that is not theirs.
        names: Their names, `reports/…` those of records.

    Raises:
        Unsound: They are no edition: none of one report from the first on.
    """
    there = {name.removeprefix(f"{FOLDER}/") for name in names if name.startswith(f"{FOLDER}/")}
    report, number = _which(there)
    reports = folder / FOLDER
    past, faults = _read([f"{report}/editions/{each}.yml" for each in range(1, number + 1)], reports)
    editions = past.editions.get(report, {})
    for each, edition in sorted(editions.items()):
        faults += _plainly(itself(edition, editions.get(each - 1), report))
    last = editions.get(number)
    if last is None:
        return Alone(report, number, faults=in_order(faults))
    at_hand = [name for name in last.rests_on if name in there]
    absent = [name for name in last.rests_on if name not in there]
    library, found = _read(at_hand, reports)
    faults += found
    photos = {name: last.rests_on[name].hash for name in absent if _PHOTO.fullmatch(name)}
    gone = tuple(name for name in absent if name not in photos)
    return _filled(Alone(report, number, last, (), gone, photos), library, reports, at_hand, faults)


def _which(there: Iterable[str]) -> tuple[str, int]:
    found = [each for name in there if (each := _EDITION.fullmatch(f"{FOLDER}/{name}"))]
    numbers = sorted(int(each[2]) for each in found)
    if len({each[1] for each in found}) != 1 or numbers != list(range(1, len(numbers) + 1)):
        raise Unsound("no-edition")
    return found[0][1], numbers[-1]


def _read(names: Sequence[str], reports: Path) -> tuple[Library, list[Fault]]:
    """Some records and tables; what is no record's place is told with the rest of its file's faults."""
    at = [(name, record_at(reports / name, reports)) for name in names]
    records = [each for _, each in at if isinstance(each, RecordFile)]
    csv = [reports / name for name, _ in at if is_readings(name)]
    library, faults, _ = fill(records, csv)
    return library, [*faults]


def _filled(
    found: Alone, library: Library, reports: Path, at_hand: Sequence[str], faults: list[Fault]
) -> Alone:
    """The same with its bench, where everything that it rests on can be read."""
    edition = found.edition
    if edition is None:
        return found
    library.editions = {found.report: {found.number: edition}}
    try:
        copy = copies(edition, library.instruments)
    except ValueError as error:
        # Runs are read against their items, so that what is not as it was is told without them.
        edited = _plainly(resting(edition, library, Runs.of(drafts(library)), reports, at_hand))
        return _told(found, [*faults, *edited], str(error))
    library.settings, library.items = copy.settings, copy.items
    library.instruments |= copy.instruments
    known = Runs.of(drafts(library))
    runs, against = sound_runs(library, known)
    faults += _plainly(resting(edition, library, known, reports, at_hand))
    missing = [name for name in edition.runs if name not in runs]
    if missing:
        doubtless = [each for each in against if not isinstance(each, Doubt)]
        return _told(found, [*faults, *doubtless], f"{missing[0]} cannot be read")
    bench = Bench(
        reports.parent,
        copy.settings,
        instruments=library.instruments,
        methods=library.methods,
        items=library.items,
        sittings=library.sittings,
        runs=runs,
    )
    used: dict[str, Run] = {name: runs[name] for name in edition.runs}
    own = {name.partition("/")[2]: run for name, run in used.items() if name.startswith(f"{found.report}/")}
    editions = library.editions[found.report]
    report = Report(found.report, reports / found.report, copy.record, used, own, None, editions)
    return replace(_told(found, faults, ""), whole=(bench, report))


def _plainly(faults: Iterable[Fault]) -> Iterator[Fault]:
    """The same without what the reviewer might do."""
    return (replace(each, what=NOT_AS_PUBLISHED, found=None, accepted=()) for each in faults)


def _told(found: Alone, faults: Iterable[Fault], why: str) -> Alone:
    return replace(found, faults=in_order(dict.fromkeys(faults)), why=why)
