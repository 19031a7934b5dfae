"""Why runs by one version of a method are not compared with those by another."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.evaluation.findings import MeasureFinding
from generator.pages.format import as_printed
from generator.records.schema.method import Method


@dataclass(frozen=True)
class OtherVersion:
    """Runs by a version whose results may not stand beside the others'.

    Attributes:
        number: The version that they were made by.
        newest: The version that the others were made by, or agree with.
        title: Title of the method.
        changes: What the newest says has changed; empty where it says nothing.
        runs: Their ids.
    """

    number: int
    newest: int
    title: str
    changes: str
    runs: tuple[str, ...]


def other_versions(measures: Iterable[MeasureFinding], methods: Iterable[Method]) -> tuple[OtherVersion, ...]:
    """Each version whose runs are shown and not compared.

    Args:
        measures: Of the report.
        methods: The versions that its runs were made by.
    """
    known = {(each.id, each.version): each for each in methods}
    found: dict[tuple[str, int, int], dict[str, None]] = {}
    for measure in measures:
        for item in (*measure.items, *measure.controls):
            for run in (run for piece in item.pieces for run in piece.runs):
                if run.why_not == "other-method":
                    version = int(run.method.rpartition("/")[2])
                    key = (measure.method, version, max(measure.versions))
                    found.setdefault(key, {})[run.run] = None
    return tuple(
        OtherVersion(
            version,
            newest,
            known[method, newest].title,
            as_printed(known[method, newest].changes or ""),
            tuple(runs),
        )
        for (method, version, newest), runs in sorted(found.items())
        if (method, newest) in known
    )
