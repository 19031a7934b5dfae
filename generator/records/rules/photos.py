"""Photos: named and there, and there and described."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.fault import Doubt, Fault
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.base import Record
from generator.records.selection import Runs

_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".tif", ".tiff")


def check(library: Library, known: Runs) -> Iterator[Fault]:
    """Photos that report.yml describes, and those that opinions and answers rest on."""
    there = {name: _there(record.place_of().file.parent) for name, record in library.reports.items()}
    for name, record in library.reports.items():
        for photo in record.photos:
            if photo not in there[name]:
                place, path = record.key_place_of("photos", photo), record.path_of("photos", photo)
                yield absent("there is no photo in photos/", photo, there[name], place, path)
        for opinion in record.opinions:
            yield from _basis(opinion, opinion.basis, there[name])
        for draft in known.by_report.get(name, ()):
            for held in draft.body.opinions:
                yield from _basis(held, held.basis, there[name])
            for seen in draft.body.observations:
                if seen.photo is not None and seen.photo not in there[name]:
                    yield seen.doubt(("photo",), "no such photo in the report's photos/", seen.photo)


def _there(report: Path) -> tuple[str, ...]:
    folder = report / "photos"
    try:
        return tuple(sorted(each.name for each in folder.iterdir()))
    except OSError:  # None there; one that cannot be opened is told where the folders are looked through.
        return ()


def _basis(record: Record, basis: tuple[str, ...], there: tuple[str, ...]) -> Iterator[Doubt]:
    for number, name in enumerate(basis):
        if name.lower().endswith(_ENDINGS) and name not in there:
            yield record.doubt(("basis", number), "no such photo in the report's photos/", name)
