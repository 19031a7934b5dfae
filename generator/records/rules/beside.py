"""Files of readings beside the records, and zero checks, which may stand in one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.fault import Doubt, Fault, Place
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.readings import CsvFile
from generator.records.schema.run import RunRecord, ZeroCheck
from generator.records.schema.sitting import Sitting
from generator.records.table import Table
from generator.records.units import TEMPERATURE

LEAST_PAIRS = 5
"""Pairs of readings that a zero check needs (our choice: the spread of fewer is not known)."""


def check(library: Library) -> Iterator[Fault]:
    """Files that are named and there, there and named; zero checks that fit their tables."""
    yield from _files(library)
    yield from _zero_checks(library)


def _files(library: Library) -> Iterator[Fault]:
    named: set[Path] = set()
    for record in _records(library):
        zero = record.zero_check
        for path, said in ((("readings",), record.readings), (("zero-check", "table"), zero and zero.table)):
            if not isinstance(said, CsvFile):
                continue
            # What a correction takes over lies beside the run that it corrects.
            beside = record.place_of(*path).file.parent
            named.add(beside / said.name)
            if beside / said.name not in {*library.tables, *library.unread}:
                there = sorted(each.name for each in library.tables if each.parent == beside)
                place, where = record.place_of(*path), record.path_of(*path)
                yield absent("there is no file beside this record", said.name, there, place, where)
    for file in library.tables:
        if file not in named and not _may_be_named(file, library):
            yield Doubt(Place(file), "", "no record reads this file")


def _may_be_named(file: Path, library: Library) -> bool:
    """Whether a record beside a file of readings is at fault, so that what it names is not known."""
    kind, above = ("sittings", "") if file.parent.name == "sittings" else ("runs", f"{file.parents[1].name}/")
    return any(which == kind and name.startswith(above) for which, name in library.broken)


def _records(library: Library) -> Iterator[RunRecord | Sitting]:
    for _, runs in sorted(library.runs.items()):
        yield from runs.values()
    yield from library.sittings.values()


def _zero_checks(library: Library) -> Iterator[Fault]:
    for record in _records(library):
        zero = record.zero_check
        if zero is None:
            continue
        table = library.table(zero.table, zero.place_of("table").file)
        if table is not None:
            yield from _zero_check(zero, table)


def _zero_check(zero: ZeroCheck, table: Table) -> Iterator[Fault]:
    rows = table.rows - len(table.excluded)
    if zero.pairs != rows:
        what = f"the table has {rows} rows that count"
        yield zero.fault(("pairs",), what, str(zero.pairs))
    elif zero.pairs < LEAST_PAIRS:
        what = f"a zero check needs {LEAST_PAIRS} pairs or more"
        yield zero.fault(("pairs",), what, str(zero.pairs))
    labels = {column.head.label: column for column in table.columns}
    for number, name in enumerate(zero.columns):
        path = ("columns", number)
        if name not in labels:
            known = [label for label in labels if label != "time"]
            yield absent(
                "the zero check's table has no column", name, known, zero.place_of(*path), zero.path_of(*path)
            )
        elif labels[name].quantity != TEMPERATURE:
            yield zero.fault(path, "a zero check compares temperatures", name)
