"""Photos that can't be published, and originals that would tell where they were taken."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from generator.fault import Doubt, Fault, in_order
from generator.photos.original import PhotoRefused, looked_at
from generator.photos.private import Told, told_by
from generator.records.bench import Bench, Report


def with_photos(bench: Bench) -> Bench:
    """A bench with what its photos want mended among its faults and doubts, in the order of files and lines.

    Args:
        bench: As loaded. A photo that an edition keeps is looked at too, but of what its original tells
            nothing is said any more: it can't be changed without the edition's being broken.
    """
    found = [each for _, report in sorted(bench.reports.items()) for each in _of(report)]
    faults = [each for each in found if not isinstance(each, Doubt)]
    doubts = [each for each in found if isinstance(each, Doubt)]
    return replace(
        bench,
        faults=in_order((*bench.faults, *faults)),
        doubts=tuple(each for each in in_order((*bench.doubts, *doubts)) if isinstance(each, Doubt)),
        left_out=bench.left_out + len({each.place.file for each in faults}),
    )


def _of(report: Report) -> Iterator[Fault]:
    kept = {name for edition in report.editions.values() for name in edition.rests_on}
    for name in report.record.photos:
        place = report.record.key_place_of("photos", name)
        path = report.record.path_of("photos", name)
        try:
            content = (report.folder / "photos" / name).read_bytes()
            looked_at(content)
        except PhotoRefused as refused:
            yield Fault(place, path, refused.what, refused.found)
            continue
        except OSError as unread:
            yield Fault(place, path, f"the photo can't be read: {unread.strerror or unread}")
            continue
        if f"{report.id}/photos/{name}" not in kept and (told := told_by(content)).any:
            yield Doubt(place, path, _tells(told, f"{report.id}/photos/{name}"))


def _tells(told: Told, name: str) -> str:
    things = ("where it was taken", told.position), ("a serial number", told.serial), ("a name", told.name)
    listed = " and ".join(thing for thing, there in things if there)
    return (
        f"the original tells {listed}; the site never does, but whoever gets your records would: "
        f"provebook strip reports/{name}"
    )
