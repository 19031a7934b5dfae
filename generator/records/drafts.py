"""A run before it is checked against its method: from a file of its own, or out of a sitting."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import date

from generator.fault import Place
from generator.records.corrections import Correction
from generator.records.library import Library
from generator.records.nodes import Mapping, Scalar
from generator.records.schema.references import Binding, split_run_key
from generator.records.schema.run import LeftOut, RunBody, RunRecord, ZeroCheck
from generator.records.schema.sitting import Sitting, SittingRun
from generator.records.table import Column, Table
from generator.records.units import TIME


@dataclass(frozen=True)
class BoundColumn:
    """What reads a column, and where the record says so."""

    binding: Binding
    place: Place
    path: str


@dataclass(frozen=True)
class Draft:
    """A run as the record has it.

    Attributes:
        id: As of `Run`.
        record: The record that is the run or holds it.
        body: The run's own part of it.
        report: Id of the report whose folder it is in; empty for a run of a sitting.
        sitting: Id of its sitting; empty for a file of its own.
        date: The day.
        item: Id of the item; empty where the record says none.
        specimen: Id of the piece; empty where the record says none.
        control: Name of the control; empty where the record says none.
        place: Where it was made; empty where the record says nothing.
        bound: Column to what reads it, shared ones of a sitting among them.
        conditions: What is said of conditions, the sitting's first.
        table: Its readings, with shared columns and its own, owners taken off; None without any.
        has_readings: Whether the record has readings at all, sound or not.
        reads_itself: Whether a column is its own, and not shared by a sitting.
        zero: Its zero check, or the sitting's.
        zero_table: The readings of the zero check, owners left on.
        owner: What stands before its own columns in a sitting; empty for a file of its own.
        corrections: As of `Run`.
    """

    id: str
    record: RunRecord | Sitting
    body: RunBody
    date: date
    report: str = ""
    sitting: str = ""
    item: str = ""
    specimen: str = ""
    control: str = ""
    place: str = ""
    bound: dict[str, BoundColumn] = field(default_factory=dict)
    conditions: tuple[Mapping, ...] = ()
    table: Table | None = None
    has_readings: bool = False
    reads_itself: bool = True
    zero: ZeroCheck | None = None
    zero_table: Table | None = None
    owner: str = ""
    corrections: tuple[Correction, ...] = ()

    @property
    def waits(self) -> bool:
        """Whether it was begun and waits for its readings: nothing was read yet, and nothing stopped it."""
        body = self.body
        if body.counts or body.observations or body.stopped or not all(map(_is_blank, body.values.values())):
            return False
        if self.table is None:
            return not self.has_readings
        read = (column for column in self.table.columns if column.name != TIME)
        return all(cell is None for column in read for cell in column.cells)


def _is_blank(node: object) -> bool:
    """Whether nothing stands behind a key yet."""
    return isinstance(node, Scalar) and node.is_null


def column_key(column: Column) -> str:
    """A column as `uses` names it: `temperature@body`, `ambient`."""
    return f"{column.name}@{column.point}" if column.point else column.name


def drafts(library: Library) -> Iterator[Draft]:
    """Every run of the bench: those of the reports in order of ids, then those of the sittings."""
    for report, runs in sorted(library.runs.items()):
        for name, record in sorted(runs.items()):
            yield _from_file(library, report, name, record)
    for name, sitting in sorted(library.sittings.items()):
        for key, body in sitting.runs.items():
            yield _from_sitting(library, name, sitting, key, body)


def _from_file(library: Library, report: str, name: str, record: RunRecord) -> Draft:
    zero, corrections = record.zero_check, library.corrections.get(f"{report}/{name}", ())
    draft = Draft(
        id=f"{report}/{name}",
        record=record,
        body=record,
        date=record.date,
        report=report,
        item=record.item or "",
        specimen=record.specimen or "",
        control=record.control or "",
        place=record.place or "",
        bound=_bound(record, "instruments", record.instruments),
        conditions=_said(record),
        table=library.table(record.readings, record.place_of("readings").file),
        has_readings=record.readings is not None,
        zero=zero,
        zero_table=library.table(zero.table, zero.place_of("table").file) if zero else None,
        corrections=corrections,
    )
    if corrections and corrections[-1].sitting:
        draft = _as_in_sitting(library, draft, corrections[-1])
    return replace(draft, table=without(draft.table, record.leave_out)) if record.leave_out else draft


def _as_in_sitting(library: Library, draft: Draft, first: Correction) -> Draft:
    """The correction of a run of a sitting: what all its runs share is as there, and what it read is."""
    key = first.run.partition("/")[2]
    sitting = library.sittings[first.sitting]
    was = _from_sitting(library, first.sitting, sitting, key, sitting.runs[key])
    return replace(
        draft,
        sitting=first.sitting,
        owner=key,
        conditions=(*_said(sitting), *draft.conditions),
        table=draft.table or was.table,
        has_readings=draft.has_readings or was.has_readings,
        reads_itself=was.reads_itself,
        zero=draft.zero or was.zero,
        zero_table=draft.zero_table or was.zero_table,
    )


def without(table: Table | None, left_out: Iterable[LeftOut]) -> Table | None:
    """A table whose named rows count for nothing; a row that is not there leaves it as it is."""
    if table is None:
        return None
    found = dict(table.excluded)
    for each in left_out:
        if (row := row_of(table, each)) is not None:
            found[row] = each.because
    return replace(table, excluded=found)


def row_of(table: Table, left_out: LeftOut) -> int | None:
    """Which row of a table is meant, from 0; None where it has none such."""
    times = table.column(TIME)
    if left_out.at is not None and times is not None:
        for row, cell in enumerate(times.cells):
            if cell is not None and abs(cell.value - left_out.at.si) < _SAME_TIME:
                return row
    elif left_out.at is None and left_out.row is not None and left_out.row <= table.rows:
        return left_out.row - 1
    return None


_SAME_TIME = 1e-3
"""Times are typed to the second or the tenth of a minute; so many seconds apart they are the same."""


def _from_sitting(library: Library, name: str, sitting: Sitting, key: str, body: SittingRun) -> Draft:
    run, zero = split_run_key(key), sitting.zero_check
    table = library.table(sitting.readings, sitting.place_of().file)
    return Draft(
        id=f"{name}/{key}",
        record=sitting,
        body=body,
        date=sitting.date,
        sitting=name,
        item=run.item or "",
        specimen=run.specimen or "",
        control=body.control or "",
        place=sitting.place or "",
        bound=_bound(sitting, "instruments", sitting.instruments) | _bound(body, "", _own(body, key, table)),
        conditions=(*_said(sitting), *_said(body)),
        table=of_owner(table, key) if table else None,
        has_readings=sitting.readings is not None,
        reads_itself=table is not None and any(column.owner == key for column in table.columns),
        zero=zero,
        zero_table=library.table(zero.table, sitting.place_of().file) if zero else None,
        owner=key,
    )


def _own(body: SittingRun, key: str, table: Table | None) -> dict[str, Binding]:
    """Its own columns; other keys beside those of a run are unknown ones, which a rule tells of."""
    read = {column_key(column) for column in table.columns if column.owner == key} if table else set()
    return {column: bound for column, bound in body.own.items() if body.takes(column) or column in read}


def of_owner(table: Table, owner: str) -> Table:
    """The columns of a sitting that are shared or belong to one run, owners taken off."""
    kept = (
        replace(column, head=replace(column.head, owner=""))
        for column in table.columns
        if column.owner in {"", owner}
    )
    return replace(table, columns=tuple(kept))


def _bound(record: RunBody | Sitting, key: str, said: dict[str, Binding]) -> dict[str, BoundColumn]:
    found = {}
    for column, binding in said.items():
        path = (key, column) if key else (column,)
        found[column] = BoundColumn(binding, record.place_of(*path), record.path_of(*path))
    return found


def _said(record: RunBody | Sitting) -> tuple[Mapping, ...]:
    node = record.node.get("conditions")
    return (node,) if isinstance(node, Mapping) else ()
