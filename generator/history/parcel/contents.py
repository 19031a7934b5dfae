"""An edition → the records that it rests on, as files; of those that others share the part that it rests on.

A sitting may hold runs that are still a draft, a meter may get new probes: what is no part of the edition is
left out, so that no draft is given away and the files stay the same as the bench goes on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import cast

from generator.fault import Fault
from generator.history.frozen import uses_of
from generator.records.bench import Bench, Report
from generator.records.covered import OF_A_METER, of_instrument
from generator.records.files import content
from generator.records.fingerprint import EXCLUDED, TABLES, Canonical, canonical, csv_rows, keys_of
from generator.records.nodes import Mapping
from generator.records.rested import MOST_BYTES, Rested, Uses, is_readings, is_shared
from generator.records.schema.edition import Edition
from generator.records.source import read, read_text
from generator.records.tree import kind_of
from generator.records.writer import Lines, Value, document

FOLDER = "reports"
"""Stands before each name, as in the bench."""


@dataclass(frozen=True)
class Contents:
    """What an edition's parcel holds of records.

    Attributes:
        files: Name, `reports/…`, to bytes.
        left_out: What it rests on and is not among them, to its fingerprint: photos, since the file of a
            camera may tell where it was taken.
        shared: Names of those that are a part of the bench's file.
    """

    files: dict[str, bytes]
    left_out: dict[str, str]
    shared: tuple[str, ...]


def contents(bench: Bench, report: Report, edition: Edition) -> Contents:
    """The records of an edition.

    Args:
        bench: The records as published in it.
        report: The report as published in it, with the editions before it.
        edition: The edition.

    Raises:
        ValueError: What was written was not read back as it is.
    """
    reports = bench.root / FOLDER
    rested = Rested(reports, lambda path: read(path).root if path.is_file() else None)
    uses = uses_of(report)
    files = {
        f"{FOLDER}/{report.id}/editions/{number}.yml": _bytes(each.place_of().file)
        for number, each in {**report.editions, edition.number: edition}.items()
        if number <= edition.number
    }
    left_out: dict[str, str] = {}
    shared: list[str] = []
    for name, resting in edition.rests_on.items():
        if kind_of(PurePosixPath(name)) is None and not is_readings(name):
            left_out[name] = resting.hash
        elif is_shared(name):
            shared.append(f"{FOLDER}/{name}")
            files[f"{FOLDER}/{name}"] = _part(rested, name, uses, edition).encode()
        else:
            files[f"{FOLDER}/{name}"] = _bytes(reports / name)
    return Contents(files, left_out, tuple(shared))


def _bytes(path: Path) -> bytes:
    found = content(path, MOST_BYTES)
    if isinstance(found, Fault):
        raise TypeError(
            found.what
        )  # It was read a moment ago, so the machine and not the record is at fault.
    return found


def _part(rested: Rested, name: str, uses: Uses, edition: Edition) -> str:
    """A shared file as far as an edition rests on it."""
    part = cast(Canonical, rested.content(name, uses))
    if is_readings(name):
        text = _as_csv(cast("Sequence[Sequence[Canonical]]", part))
        found: Canonical = [row for _, row in csv_rows(text.encode())]
    elif kind_of(PurePosixPath(name)) == "instruments":
        meter = PurePosixPath(name).stem
        text = document(_as_written(_meter(rested, name, keys_of(part), edition)))
        reads = [each for each in uses.reads if each.instrument == meter]
        found = of_instrument(_read_back(text), reads)
    else:
        text = document(_as_written(keys_of(part)))
        found = _read_back(text)
    if found != part:
        raise ValueError(f"a part of {name} was not read back as it was written")
    return text


def _meter(rested: Rested, name: str, part: dict[str, Canonical], edition: Edition) -> dict[str, Canonical]:
    """A meter: what the edition tells of it, what it rests on, and the probes that its channels have."""
    told = edition.content["instruments"][PurePosixPath(name).stem]
    node = rested.node_of(rested.reports / name)
    probes = keys_of(keys_of(canonical(node) if node is not None else "").get("probes"))
    plugged = {*keys_of(part.get("channels")).values()}
    used = keys_of(part.get("probes"))
    all_probes = {key: each for key, each in probes.items() if key in used or key in plugged}
    kept = {key: part[key] for key in OF_A_METER if key in part}
    return {**keys_of(canonical(told)), **kept, **({"probes": all_probes} if all_probes else {})}


def _read_back(text: str) -> Canonical:
    root: Mapping | None = read_text(text, Path("record.yml")).root
    return canonical(root) if root is not None else ""


def _as_written(part: dict[str, Canonical]) -> dict[str, Value]:
    return {key: _value(key, each) for key, each in part.items()}


def _value(key: str, part: Canonical) -> Value:
    if isinstance(part, dict):
        return _as_written(part)
    if isinstance(part, list) and key in TABLES and part and all(isinstance(row, list) for row in part):
        return Lines(tuple(_row(cast("Sequence[Canonical]", row), " | ") for row in part))
    return [_value("", each) for each in part] if isinstance(part, list) else part


def _row(row: Sequence[Canonical], sign: str) -> str:
    """Its cells, and behind them why it counts for nothing."""
    why = "".join(f" {EXCLUDED} {each[EXCLUDED]}" for each in row if isinstance(each, dict))
    return f"{sign.join(each for each in row if isinstance(each, str))}{why}".strip()


def _as_csv(part: Sequence[Sequence[Canonical]]) -> str:
    """Commas between cells, or bars where a cell holds what would be taken for one."""
    cells = "".join(each for row in part for each in row if isinstance(each, str))
    sign = " | " if any(each in cells for each in ',;|\t"') else ","
    return "".join(f"{_row(row, sign)}\n" for row in part)
