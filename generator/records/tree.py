"""Which files of a bench are records, and what their names say."""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, TypeAlias

from generator.fault import Fault, Place
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
class Tree:
    """What was found under reports/.

    Attributes:
        records: The record files, sorted by path.
        csv: Files of readings beside runs and sittings, sorted by path.
        faults: Names and places that no record may have.
    """

    records: tuple[RecordFile, ...]
    csv: tuple[Path, ...]
    faults: tuple[Fault, ...]


def survey(reports: Path) -> Tree:
    """Look through reports/ and tell what each file is.

    Args:
        reports: The folder that holds bench.yml.
    """
    records: list[RecordFile] = []
    csv: list[Path] = []
    faults: list[Fault] = []
    for path in _files(reports, faults):
        if path.relative_to(reports).parts[0] in {"pages", "site_templates"}:
            continue
        if any(fault.place.file == path for fault in faults):
            continue
        if path.suffix == ".csv":
            # Elsewhere a CSV file is a meter's own and no table of ours.
            csv.extend([path] if path.parent.name in {"runs", "sittings"} else [])
        elif path.suffix in {".yml", ".yaml"}:
            found = _place_of(path, path.relative_to(reports).parts)
            if isinstance(found, RecordFile):
                records.append(found)
            else:
                faults.append(Fault(Place(path), "", found))
    faults.extend(_without_report(reports, records))
    return Tree(tuple(records), tuple(csv), tuple(faults))


def _files(folder: Path, faults: list[Fault]) -> Iterator[Path]:
    """Every file, sorted; names that are one and the same to other machines are a fault."""
    entries = sorted(os.scandir(folder), key=lambda each: each.name)
    names = [each.name for each in entries if not each.name.startswith(".")]
    faults.extend(_clashes(folder, names))
    for entry in entries:
        if entry.name.startswith("."):
            continue
        if entry.is_dir(follow_symlinks=False):
            yield from _files(Path(entry.path), faults)
        elif entry.is_file():
            yield Path(entry.path)


def _clashes(folder: Path, names: Iterable[str]) -> Iterator[Fault]:
    first: dict[str, str] = {}
    for name in names:
        same = unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())
        if same in first:
            # Told of the one that is not spelt as ids are, so that nothing that names the other is in want.
            odd, other = (first[same], name) if name == same else (name, first[same])
            what = f"'{other}' beside it is the same name to many machines; rename one of the two"
            yield Fault(Place(folder / odd), "", what)
        first.setdefault(same, name)


def _place_of(path: Path, parts: tuple[str, ...]) -> RecordFile | str:
    """What a YAML file is by its path below reports/, or why it is none."""
    found: RecordFile | str = "no record has its place here"
    match parts:
        case _ if path.suffix == ".yaml":
            found = f"records end in .yml; rename it to {path.stem}.yml"
        case ("bench.yml",):
            found = RecordFile(path, "settings", "bench")
        case ("instruments", name) if name.endswith(_HINTS):
            found = _called(path, "hints", name.removesuffix(_HINTS), _ID)
        case (folder, "report.yml") if folder in KEPT:
            found = f"'{folder}' is kept for other records; a report needs another name"
        case ("instruments" | "items" | "older" as kind, _):
            found = _called(path, kind, path.stem, _ID)
        case ("sittings", _):
            found = _called(path, "sittings", path.stem, _SITTING)
        case ("methods", folder, _):
            found = _method(path, folder)
        case (folder, *below) if folder not in KEPT and below:
            found = _of_report(path, folder, tuple(below))
    return found


def _of_report(path: Path, report: str, below: tuple[str, ...]) -> RecordFile | str:
    if not _ID.fullmatch(report):
        return f"the folder's name is the report's id: {ID_HINT}"
    found: RecordFile | str = (
        "no record has its place here; a report has report.yml, links.yml, runs/, editions/"
    )
    match below:
        case ("report.yml",):
            found = RecordFile(path, "reports", report, report)
        case ("links.yml",):
            found = RecordFile(path, "links", report, report)
        case ("runs", _):
            found = _called(path, "runs", path.stem, _ID, report)
        case ("editions", _):
            found = _called(path, "editions", path.stem, _NUMBER, report)
    return found


def _called(
    path: Path, kind: Kind, name: str, pattern: re.Pattern[str], report: str = ""
) -> RecordFile | str:
    if kind == "items" and name == CONTROL:
        return f"'{CONTROL}' stands for runs without an item; an item needs another id"
    if pattern.fullmatch(name):
        return RecordFile(path, kind, name, report)
    if pattern is _SITTING:
        return (
            "a sitting's file is named by its date, as 2026-03-09.yml; the second of a day 2026-03-09-b.yml"
        )
    if pattern is _NUMBER:
        return "an edition's file is named by its number, as 1.yml"
    return f"the file's name is the record's id: {ID_HINT}"


def _method(path: Path, folder: str) -> RecordFile | str:
    if not _ID.fullmatch(folder):
        return f"the folder's name is the method's id: {ID_HINT}"
    if not _NUMBER.fullmatch(path.stem):
        return "a method's file is named by its version, as 1.yml"
    return RecordFile(path, "methods", f"{folder}/{path.stem}")


def _without_report(reports: Path, records: Iterable[RecordFile]) -> Iterator[Fault]:
    """Folders with runs or links in them and no report.yml."""
    found = list(records)
    with_report = {each.report for each in found if each.kind == "reports"}
    for report in sorted({each.report for each in found} - with_report - {""}):
        what = "this folder holds records of a report and no report.yml"
        yield Fault(Place(reports / report), "", what)
