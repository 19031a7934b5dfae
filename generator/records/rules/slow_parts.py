"""Methods that take the share of a slow part from a long run: the run is there."""

from __future__ import annotations

from collections.abc import Iterator

from generator.fault import Fault
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.selection import Runs


def check(library: Library, known: Runs) -> Iterator[Fault]:
    """The run that a method names, as `report/run` or `sitting/item:piece`."""
    for versions in library.methods.values():
        for method in versions.values():
            slow = method.slow_part
            if slow is None or slow.run in known.by_id:
                continue
            place, path = method.place_of("slow-part", "run"), method.path_of("slow-part", "run")
            if not library.is_broken("runs", slow.run) and not _in_broken_sitting(slow.run, library):
                yield absent("there is no run", slow.run, known.by_id, place, path)


def _in_broken_sitting(run: str, library: Library) -> bool:
    return library.is_broken("sittings", run.partition("/")[0])
