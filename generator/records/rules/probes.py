"""Points of a method whose probes would lead no heat away: doubted, but where a camera alone reads them."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.library import Library
from generator.records.selection import Runs


def check(library: Library, known: Runs) -> Iterator[Fault]:
    """A point that is said to read low by nothing, unless every meter that reads it sees it from afar."""
    for method in (each for versions in library.methods.values() for each in versions.values()):
        for name, point in method.points.items():
            if point.reads_low_by_at_most.si != 0.0:
                continue
            seen = _seen(library, known, (method.id, method.version), f"temperature@{name}")
            if not seen or not all(seen):
                what = "every probe leads heat away; a method without this term is too sure of itself"
                yield method.doubt(("points", name, "reads-low-by-at-most"), what)


def _seen(library: Library, known: Runs, method: tuple[str, int], column: str) -> list[bool]:
    """Of each run that reads a point, whether by infra-red; a meter whose record is at fault is left out."""
    meters = (
        library.instruments.get(draft.bound[column].binding.instrument)
        for draft in known.by_id.values()
        if (draft.body.method.id, draft.body.method.version) == method and column in draft.bound
    )
    return [meter.infrared is not None for meter in meters if meter is not None]
