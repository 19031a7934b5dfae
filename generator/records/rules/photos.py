"""Photos: named and there, and there and told in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.fault import Fault
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.base import Record
from generator.records.schema.item import Item
from generator.records.schema.report import ReportRecord
from generator.records.schema.run import Opinion
from generator.records.selection import Runs

_ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".tif", ".tiff")


def check(library: Library, known: Runs) -> Iterator[Fault]:
    """Photos that report.yml describes, and those that pieces, opinions and answers name."""
    for name, record in library.reports.items():
        there = _there(record.place_of().file.parent)
        for photo in record.photos:
            if photo not in there:
                place, path = record.key_place_of("photos", photo), record.path_of("photos", photo)
                yield absent("there is no photo in photos/", photo, sorted(there), place, path)
        wordless: set[str] = set()
        for named in _named(library, record, known.by_report.get(name, ())):
            if named.photo not in there:
                if named.only_here:
                    yield named.record.doubt(named.path, "no such photo in the report's photos/", named.photo)
            elif named.photo not in {*record.photos, *wordless} and there.issuperset(record.photos):
                # Whoever can't see a photo has its words alone. A name misspelt there is told above, once.
                wordless.add(named.photo)
                what = f"a photo without words; say in `photos` of {name}/report.yml what it shows"
                yield named.record.fault(named.path, what, named.photo)


@dataclass(frozen=True)
class _Named:
    """A photo that something names.

    Attributes:
        record: What names it.
        path: Keys down to the name.
        photo: The name.
        only_here: Whether it can only be of this report; an item's photo may be in the folder of another.
    """

    record: Record
    path: tuple[str | int, ...]
    photo: str
    only_here: bool = True


def _named(library: Library, report: ReportRecord, runs: Iterable[Draft]) -> Iterator[_Named]:
    for item in (library.items[key] for key in report.items if key in library.items):
        yield from _of_item(item)
    for opinion in report.opinions:
        yield from _basis(opinion)
    for draft in runs:
        for opinion in draft.body.opinions:
            yield from _basis(opinion)
        for seen in draft.body.observations:
            if seen.photo is not None:
                yield _Named(seen, ("photo",), seen.photo)


def _of_item(item: Item) -> Iterator[_Named]:
    for piece in item.specimens.values():
        for number, name in enumerate(piece.photos):
            yield _Named(piece, ("photos", number), name, only_here=False)
    for rating in item.ratings:
        if rating.photo is not None:
            yield _Named(rating, ("photo",), rating.photo, only_here=False)


def _basis(opinion: Opinion) -> Iterator[_Named]:
    for number, name in enumerate(opinion.basis):
        if name.lower().endswith(_ENDINGS):
            yield _Named(opinion, ("basis", number), name)


def _there(report: Path) -> frozenset[str]:
    folder = report / "photos"
    try:
        return frozenset(each.name for each in folder.iterdir())
    except OSError:  # None there; one that cannot be opened is told where the folders are looked through.
        return frozenset()
