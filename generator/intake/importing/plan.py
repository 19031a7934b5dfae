"""What an import would write: the original, the readings, the record's changed lines, the hints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from generator.intake.importing.bind import Pair, pairs
from generator.intake.importing.clocks import Start, moved, refuse_apart, start_of
from generator.intake.importing.entry import digest, entry, placed
from generator.intake.importing.events import events, told_time
from generator.intake.importing.kept import keeping
from generator.intake.importing.read import Understood, understood
from generator.intake.importing.refusals import AtFault, Refused
from generator.intake.importing.request import Request
from generator.intake.importing.sheet import MOST_ROWS, Sheet, sheet_of
from generator.intake.importing.target import Target, find_target
from generator.intake.importing.values import rows_of
from generator.intake.meter.hints import Hints
from generator.records.changes import Change, Drop, Insert, Put
from generator.records.csv_table import MOST_BYTES
from generator.records.edit import edited
from generator.records.schema.readings import CsvFile
from generator.records.schema.run import RunRecord
from generator.records.signs import decoded
from generator.records.source import read_text
from generator.records.store import Write
from generator.records.units import TIME
from generator.records.writer import Lines, Value

_BEHIND = (*(key for key in RunRecord.first_keys if key != "readings"), "runs")
"""Keys of a record behind which its readings stand, where it has none yet."""


@dataclass(frozen=True)
class Plan:
    """An import, before anything is written.

    Attributes:
        request: What was asked for.
        understood: The file.
        target: Where its readings go; None for a look at it, and what follows is then empty.
        pairs: Which column goes where.
        writes: What is to be written, the original first.
        original: Where the original lies or is to lie.
        rows: How many rows the table has then.
        beside: The file of readings beside the record; None where they stand inside.
        joined: Columns that stood there and stay.
        empty: Columns of the record that stay empty.
        events: How many events come in.
        early: How many events came before the start of the run and are left out.
        start: When the file's first reading was.
        before_start: How many of its rows came before the start of the run and are left out.
        kept: Keys of the hints that are kept now.
        unkept: Whether hints were given and not kept, because several meters read the columns.
        readers: Meters that its columns are read by.
        elsewhere: Other records that hold readings of this very file.
    """

    request: Request
    understood: Understood
    target: Target | None = None
    pairs: tuple[Pair, ...] = ()
    writes: tuple[Write, ...] = ()
    original: Path | None = None
    rows: int = 0
    beside: Path | None = None
    joined: tuple[str, ...] = ()
    empty: tuple[str, ...] = ()
    events: int = 0
    early: int = 0
    start: Start = field(default_factory=Start)
    before_start: int = 0
    kept: tuple[str, ...] = ()
    unkept: bool = False
    readers: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()


def plan(request: Request) -> Plan:
    """Read a file and work out all that is to be written.

    Args:
        request: What was asked for.

    Raises:
        Unreadable: The file does not say enough.
        Refused: It cannot be done as it was asked.
        AtFault: A record that is needed is at fault.
        EditRefused: The record is written so that it cannot be changed by a program.
    """
    if not request.into or request.root is None:
        return Plan(request, understood(request, None))
    target = find_target(request.root, request.into)
    read = understood(request, target)
    return _planned(request, target, read, pairs(read.file, target))


def _planned(request: Request, target: Target, read: Understood, bound: tuple[Pair, ...]) -> Plan:
    stale = _stale(request, target, bound)
    before, standing = _standing(target), {pair.slot.label for pair in bound}
    _not_over(request, target, before, standing)
    left = before.without(standing)
    heads = {pair.slot.label: f"{pair.slot.label} {pair.head.unit.typed}" for pair in bound}
    start = start_of(request, target.record.originals, stale, read.file.time)
    rows, before_start = moved(rows_of(read.file, bound, target.library), start)
    refuse_apart(request, start, rows, left)
    sheet = left.joined(heads, rows)
    original, copy = placed(request.name, request.data, target.path)
    readings, csv = _readings(target, sheet)
    happened, early = events(read.file, bound, target, start.seconds)
    kept_file = entry(read.file, bound, original.name, request.data, _told(start))
    changes = _changes(readings, happened, kept_file, stale)
    data = target.path.read_bytes()
    record = Write(target.path, edited(data, target.path, changes), data)
    _sound(record, target)
    hints, kept, meter = _hints(request, target, read, bound)
    return Plan(
        request,
        read,
        target,
        bound,
        tuple(each for each in (copy, csv, record, hints) if each is not None),
        original,
        len(sheet.rows),
        csv.path if csv else None,
        left.filled,
        tuple(label for label in sheet.heads if label not in sheet.filled),
        len(happened),
        early,
        start,
        before_start,
        kept,
        not meter and request.options != Hints(),
        tuple(dict.fromkeys(pair.slot.binding.instrument for pair in bound)),
        tuple(_elsewhere(request, target)),
    )


def _told(start: Start) -> str:
    return told_time(start.seconds) if start.seconds else ""


def _changes(
    readings: Lines | str, happened: Sequence[Change], original: dict[str, Value], stale: Sequence[int]
) -> list[Change]:
    return [
        Put(("readings",), readings, _BEHIND),
        *happened,
        Insert(("originals",), original),
        *(Drop(("originals",), number) for number in reversed(stale)),
    ]


def _sound(record: Write, target: Target) -> None:
    """Refuse a record that came out at fault in its form, before it is written.

    Raises:
        AtFault: With what it would have against it.
    """
    text = decoded(record.after, record.path)
    source = read_text(text, record.path) if isinstance(text, str) else None
    root = source.root if source is not None else None
    found = type(target.record).from_nodes(root, target.record.id) if root is not None else ()
    if isinstance(found, tuple):
        raise AtFault(found or (source.faults if source is not None else ()))


def _stale(request: Request, target: Target, bound: Sequence[Pair]) -> list[int]:
    """Entries of originals whose columns all come anew.

    Raises:
        Refused: The file was imported already, or an entry would lose some of its columns and keep others.
    """
    coming, found = {pair.slot.label for pair in bound}, []
    for number, each in enumerate(target.record.originals):
        same = each.sha256 == digest(request.data)
        if same and request.standing == "keep":
            what = f"the readings of this file are in {target.id} already, from originals/{each.file}"
            raise Refused(what, ("--replace to bring them in again",))
        gone = coming & set(each.columns.values())
        if gone and (stay := [label for label in each.columns.values() if label not in coming]):
            what = (
                f"{each.file} gave {', '.join(sorted(gone))} and {', '.join(stay)}; bring all of them in anew"
            )
            raise Refused(what, (f'--map "COLUMN={label}"' for label in stay))
        if gone:
            found.append(number)
    return found


def _standing(target: Target) -> Sheet:
    """The table that the record has, or one without rows."""
    table = target.library.table(target.record.readings, target.path)
    if table is None:
        if target.record.readings is not None:
            raise Refused(f"the readings of {target.id} are at fault; provebook check tells how")
        return Sheet()
    if not table.columns or table.columns[0].name != TIME:
        raise Refused(f"the table of {target.id} has no time, and a meter's file goes by time")
    return sheet_of(table)


def _not_over(request: Request, target: Target, before: Sheet, coming: set[str]) -> None:
    there = [label for label in before.filled if label in coming]
    if there and request.standing == "keep":
        what = f"{target.id} has readings of {', '.join(there)} already, and they stay as they are"
        raise Refused(what, ("--replace to put the file's in their place; other columns stay",))


def _readings(target: Target, sheet: Sheet) -> tuple[Lines | str, Write | None]:
    """The readings as they stand in the record, and the file beside it where they lie there."""
    said = target.record.readings
    if not isinstance(said, CsvFile) and len(sheet.rows) <= MOST_ROWS:
        return Lines(sheet.lines()), None
    csv = sheet.csv()
    if len(csv) > MOST_BYTES:
        size = f"comes to {len(csv) / 1e6:.1f} MB, and one has {MOST_BYTES / 1e6:g} MB at most"
        what = f"a table of {len(sheet.rows)} rows {size}"
        raise Refused(
            what, ("let the meter read less often, or cut the file and import the part of the run",)
        )
    if isinstance(said, CsvFile):
        path = target.path.with_name(said.name)
        return said.name, Write(path, csv, path.read_bytes())
    path = target.path.with_suffix(".csv")
    number = 1
    while path.exists():
        number += 1
        path = target.path.with_name(f"{target.path.stem}-{number}.csv")
    return path.name, Write(path, csv)


def _hints(
    request: Request, target: Target, read: Understood, bound: Sequence[Pair]
) -> tuple[Write | None, tuple[str, ...], str]:
    """The hints to keep: those of the one meter whose file it is."""
    readers = {pair.slot.binding.instrument for pair in bound}
    meter = read.meter or (readers.pop() if len(readers) == 1 else "")
    if not meter or request.root is None:
        return None, (), ""
    columns = {
        _name(key, read): label
        for key, label in request.options.columns.items()
        if label == TIME or target.bound[label].binding.instrument == meter
    }
    write, kept = keeping(request.options, target, meter, columns, request.root)
    return write, kept, meter


def _name(key: str, read: Understood) -> str:
    """How a column is to be named next time: by its name where it was named by number."""
    names = {str(each.number): each.name for each in read.file.columns}
    names |= {str(each.number): each.name for each in read.file.others}
    return names.get(key.strip()) or key


def _elsewhere(request: Request, target: Target) -> Iterator[str]:
    same = digest(request.data)
    library = target.library
    for report, runs in sorted(library.runs.items()):
        for name, run in sorted(runs.items()):
            if f"{report}/{name}" != target.id and any(each.sha256 == same for each in run.originals):
                yield f"{report}/{name}"
    for name, sitting in sorted(library.sittings.items()):
        if name != target.id and any(each.sha256 == same for each in sitting.originals):
            yield name
