"""Parcels of benches, and parcels that somebody changed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from generator.evaluation.report import evaluate
from generator.history.frozen import as_published
from generator.history.parcel.archive import packed, unpacked
from generator.history.parcel.sums import SUMS, sums
from generator.pages.parcel import parcel
from generator.pages.render import Renderer
from generator.records.bench import load


def parcel_of(folder: Path, report: str, number: int) -> bytes:
    """The parcel of an edition of a bench."""
    bench = load(folder)
    assert bench.faults == ()
    edition = bench.reports[report].editions[number]
    was = as_published(bench, bench.reports[report], edition)
    return parcel(was, edition, evaluate(*was), Renderer(folder), bench.settings).content


def files_of(folder: Path, report: str, number: int = 1) -> dict[str, bytes]:
    """Its files."""
    path = folder / f"{report}-edition-{number}.zip"
    path.write_bytes(parcel_of(folder, report, number))
    return unpacked(path)


def changed(files: Mapping[str, bytes], name: str, old: str, new: str) -> dict[str, bytes]:
    """The same with one text in one file changed, where it is found first."""
    text = files[name].decode()
    other = re.sub(old, new, text, count=1)
    assert other != text, f"{name} has no {old}"
    return {**files, name: other.encode()}


def summed(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """The same with sums that are those of its files."""
    others = {name: content for name, content in files.items() if name != SUMS}
    return {**others, SUMS: sums(others)}


def written(files: Mapping[str, bytes], path: Path) -> Path:
    """The same as a zip."""
    path.write_bytes(packed(files))
    return path
