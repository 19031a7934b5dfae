"""Which files of a bench are records, and what their names say."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path, PurePosixPath
from typing import Literal, TypeAlias

from generator.fault import Fault, Place
from generator.records.files import CSV_ENDING, HIDDEN_ENDING, RECORD_ENDINGS, is_record_name, walk
from generator.records.header import CONTROL
from generator.records.schema.fields import ID, ID_HINT

Kind: TypeAlias = Literal[
    "settings",
    "instruments",
    "hints",
    "methods",
    "items",
    "sittings",
    "older",
    "reports",
    "links",
    "runs",
    "editions",
]

KEPT = ("methods", "items", "instruments", "sittings", "older", "pages", "site_templates")
"""Folders under reports/ that are no reports, so that no report may be called so."""

_OWN = ("pages", "site_templates")
"""Folders that hold no records at all."""

_BESIDE = ("photos", "originals")
"""Folders of a report that hold no records."""

_PLACES = (
    "below reports/ stand items/, instruments/, methods/, sittings/, older/ and a folder for each report"
)
_OF_A_REPORT = "a report has report.yml, links.yml, runs/, editions/"

_ID = re.compile(ID)
_NUMBER = re.compile(r"[1-9]\d{0,4}")
_SITTING = re.compile(r"\d{4}-\d{2}-\d{2}(?:-[b-z])?")
_HINTS = ".import.yml"


@dataclass(frozen=True)
class RecordFile:
    """A record file by its place in the tree.

    Attributes:
        path: The file.
        kind: What record it is.
        name: Its id: the file's name without ending; `id/version` of a method, the folder's of a report.
        report: Id of the report whose folder it is in; empty elsewhere.
    """

    path: Path
    kind: Kind
    name: str
    report: str = ""


@dataclass(frozen=True)
class Misnamed:
    """A file in a place, or of a name, that no record has.

    Attributes:
        what: What is wrong and what would do.
        meant: The record that it probably was to be, of readings their path; None where nothing can be told.
        at: The folder, where that is what is at fault, and not the file.
    """

    what: str
    meant: RecordFile | Path | None = None
    at: Path | None = None


@dataclass(frozen=True)
class Tree:
    """What was found under reports/.

    Attributes:
        records: The record files, sorted by path.
        csv: Files of readings beside runs and sittings, sorted by path.
        faults: Names and places that no record may have.
        meant: What the files of such names were probably to be: who refers to one is not at fault. A path is
            one of readings.
    """

    records: tuple[RecordFile, ...]
    csv: tuple[Path, ...]
    faults: tuple[Fault, ...]
    meant: tuple[RecordFile | Path, ...] = ()


def record_at(path: Path, reports: Path) -> RecordFile | Misnamed:
    """What a record file would be at a place below reports/, or why none may stand there."""
    return _place_of(path, path.relative_to(reports).parts)


def survey(reports: Path) -> Tree:
    """Look through reports/ and tell what each file is.

    Args:
        reports: The folder that holds bench.yml.
    """
    records: list[RecordFile] = []
    csv: list[Path] = []
    odd: list[Fault] = []
    faults: list[Fault] = []
    meant: list[RecordFile | Path] = []
    for path in walk(reports, odd, lambda folder: folder.parent == reports and folder.name in _OWN):
        if any(fault.place.file == path for fault in odd):
            continue
        match _told(path, path.relative_to(reports).parts):
            case RecordFile() as record:
                records.append(record)
            case Path():
                csv.append(path)
            case Misnamed() as wrong:
                faults.append(Fault(Place(wrong.at or path), "", wrong.what))
                meant.extend([wrong.meant] if wrong.meant else [])
    known = [*records, *(each for each in meant if isinstance(each, RecordFile))]
    faults.extend(_without_report(reports, known))
    for fault in odd:
        meant.extend(_behind(fault.place.file, reports))
    return Tree(tuple(records), tuple(csv), tuple(dict.fromkeys((*odd, *faults))), tuple(meant))


def kind_of(name: PurePosixPath) -> Kind | None:
    """What record a path below reports/ is of; None where it is none, or at fault."""
    found = _told(Path(name), name.parts)
    return found.kind if isinstance(found, RecordFile) else None


def _behind(path: Path, reports: Path) -> Iterator[RecordFile | Path]:
    """What lies under a name that cannot be read: of a folder some record that belongs there."""
    path = path if is_record_name(path.name) else path / "any.yml"
    found = _told(path, path.relative_to(reports).parts)
    meant = found.meant if isinstance(found, Misnamed) else found
    if meant is not None:
        yield meant


def _told(path: Path, parts: tuple[str, ...]) -> RecordFile | Path | Misnamed | None:
    """What a file is: a record, readings (its path), either with a wrong name, or nothing of ours."""
    name = path.name.lower().removesuffix(HIDDEN_ENDING)
    stem, _, ending = name.rpartition(".")
    beside = len(parts) > 2 and parts[1] in _BESIDE and parts[0] not in KEPT
    if beside or not is_record_name(path.name):
        return None
    if f".{ending}" == CSV_ENDING:
        return _readings(path, path.name[: len(stem)])
    right = f"{path.name[: len(stem)]}{RECORD_ENDINGS[0]}"
    ours = _place_of(path.with_name(right), (*parts[:-1], right))
    if path.name == right or (isinstance(ours, Misnamed) and ours.at):
        return ours
    meant = ours if isinstance(ours, RecordFile) else ours.meant
    return Misnamed(f"records end in .yml; rename it to {right}", meant)


def _readings(path: Path, stem: str) -> Path | Misnamed | None:
    # Elsewhere a CSV file is a meter's own and no table of ours.
    if path.parent.name not in {"runs", "sittings"}:
        return None
    right = f"{stem}{CSV_ENDING}"
    if path.name == right:
        return path
    return Misnamed(f"readings end in {CSV_ENDING}; rename it to {right}", path.with_name(right))


def _place_of(path: Path, parts: tuple[str, ...]) -> RecordFile | Misnamed:
    """What a YAML file is by its path below reports/, or why it is none."""
    found: RecordFile | Misnamed = Misnamed(f"no record has its place here; {_PLACES}")
    match parts:
        case ("bench.yml",):
            found = RecordFile(path, "settings", "bench")
        case ("instruments", name) if name.endswith(_HINTS):
            found = _called(path, "hints", name.removesuffix(_HINTS), _ID)
        case (folder, "report.yml") if folder in KEPT:
            found = Misnamed(f"'{folder}' is kept for other records; a report needs another name")
        case ("instruments" | "items" | "older" as kind, _):
            found = _called(path, kind, path.stem, _ID)
        case ("sittings", _):
            found = _called(path, "sittings", path.stem, _SITTING)
        case ("methods", _):
            name = slug(path.stem) or "<id>"
            what = f"a method is a folder with a file for each version; move it to methods/{name}/1.yml"
            found = Misnamed(what, RecordFile(path, "methods", f"{name}/1"))
        case ("methods", folder, _):
            found = _method(path, folder)
        case (folder, *below) if folder not in KEPT and below:
            found = _below(path, folder, tuple(below))
    return found


def _below(path: Path, folder: str, below: tuple[str, ...]) -> RecordFile | Misnamed:
    """What a file is in a folder that should be a report's."""
    near = get_close_matches(folder.casefold(), KEPT[:5], n=1, cutoff=0.8)
    at = path.parents[len(below) - 1]
    if near and not (at / "report.yml").exists():
        right = _place_of(path, (near[0], *below))
        meant = right if isinstance(right, RecordFile) else right.meant
        return Misnamed(f"no folder of records is called so; rename it to {near[0]}", meant, at)
    if _ID.fullmatch(folder):
        return _of_report(path, folder, below)
    name = slug(folder)
    right = _of_report(path, name, below)
    meant = right if isinstance(right, RecordFile) else right.meant
    return Misnamed(f"the folder's name is the report's id: {ID_HINT}{_rename(name)}", meant, at)


def _of_report(path: Path, report: str, below: tuple[str, ...]) -> RecordFile | Misnamed:
    run = RecordFile(path, "runs", path.stem, report)
    found: RecordFile | Misnamed = Misnamed(f"no record has its place here; {_OF_A_REPORT}", run)
    match below:
        case ("report.yml",):
            found = RecordFile(path, "reports", report, report)
        case ("links.yml",):
            found = RecordFile(path, "links", report, report)
        case (name,) if name.casefold() in {"report.yml", "links.yml"}:
            right = _of_report(path, report, (name.casefold(),))
            meant = right if isinstance(right, RecordFile) else None
            found = Misnamed(f"it is called {name.casefold()}, in small letters; rename it", meant)
        case ("runs", _):
            found = _called(path, "runs", path.stem, _ID, report)
        case ("runs", *_):
            found = Misnamed("runs stand in runs/ itself and in no folder below it; move it there", run)
        case ("editions", _):
            found = _called(path, "editions", path.stem, _NUMBER, report)
    return found


def _called(
    path: Path, kind: Kind, name: str, pattern: re.Pattern[str], report: str = ""
) -> RecordFile | Misnamed:
    if kind == "items" and name == CONTROL:
        return Misnamed(f"'{CONTROL}' stands for runs without an item; an item needs another id")
    if pattern.fullmatch(name):
        return RecordFile(path, kind, name, report)
    if pattern is _SITTING:
        what = (
            "a sitting's file is named by its date, as 2026-03-09.yml; the second of a day 2026-03-09-b.yml"
        )
        return Misnamed(what, RecordFile(path, kind, name))
    if pattern is _NUMBER:
        return Misnamed("an edition's file is named by its number, as 1.yml")
    right = slug(name)
    ending = _HINTS if kind == "hints" else RECORD_ENDINGS[0]
    what = f"the file's name is the record's id: {ID_HINT}{_rename(right, ending)}"
    return Misnamed(what, RecordFile(path, kind, right, report))


def _method(path: Path, folder: str) -> RecordFile | Misnamed:
    digits = re.search(r"[1-9]\d{0,4}", path.stem)
    version = digits.group() if digits else "1"
    meant = RecordFile(path, "methods", f"{slug(folder)}/{version}")
    if not _ID.fullmatch(folder):
        what = f"the folder's name is the method's id: {ID_HINT}{_rename(slug(folder))}"
        return Misnamed(what, meant, path.parent)
    if not _NUMBER.fullmatch(path.stem):
        return Misnamed(f"a method's file is named by its version; rename it to {version}.yml", meant)
    return meant


def slug(name: str) -> str:
    """The id that a name comes nearest to; empty where there is none."""
    apart = unicodedata.normalize("NFKD", name.lower())
    plain = "".join(sign for sign in apart if not unicodedata.combining(sign))
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40].strip("-")


def _rename(name: str, ending: str = "") -> str:
    return f"; rename it to {name}{ending}" if name else ""


def _without_report(reports: Path, records: Iterable[RecordFile]) -> Iterator[Fault]:
    """Folders with runs or links in them and no report.yml."""
    found = list(records)
    with_report = {each.report for each in found if each.kind == "reports"}
    for report in sorted({each.report for each in found} - with_report - {""}):
        what = "this folder holds records of a report and no report.yml, which asks its question"
        yield Fault(Place(reports / report), "", what)
