"""Series → the columns of a file: one as it is, several joined where their times agree and nowhere else."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from decimal import Decimal
from itertools import pairwise
from typing import TypeAlias

from generator.intake.meter.names import places
from generator.intake.meter.series import MeterColumn, MeterEvent, MeterWarning, NotReading
from generator.intake.meter.series_of import Series, Table, channel, series_of

_HALF_DAY = 43200


@dataclass(frozen=True)
class Joined:
    """Columns that share their times.

    Attributes:
        elapsed: Seconds since the first reading of all, rising.
        lines: The line of each time, the first where several lines have it.
        columns: The columns.
        not_readings: What stands in the place of readings, by line.
        events: What rows tell beside readings, by line.
        warnings: What a person should be told.
        first: The first reading's time, where a date is known.
        last: The last reading's.
        step: Seconds from each time to the next, where that is the same throughout.
    """

    elapsed: tuple[Decimal, ...] = field(repr=False)
    lines: tuple[int, ...] = field(repr=False)
    columns: tuple[MeterColumn, ...]
    not_readings: tuple[NotReading, ...] = field(repr=False)
    events: tuple[MeterEvent, ...]
    warnings: tuple[MeterWarning, ...]
    first: datetime | None
    last: datetime | None
    step: Decimal | None


def one_series(table: Table) -> Joined:
    """The columns of a table in which a row is one time.

    Raises:
        Unreadable: The file does not say enough, or says two things.
    """
    series = series_of(table)
    names = {read.place: table.layout.names[read.place] for read in series.reads}
    mapped = {place: text for place, text in table.layout.mapped.items() if text != "time"}
    columns = _columns(table, series, names, mapped)
    return Joined(
        tuple(series.elapsed[row] for row in series.rows),
        tuple(table.block.rows[row].line for row in series.rows),
        columns,
        _by_line(series.not_readings),
        series.events,
        (*series.warnings, *_units(columns)),
        series.first,
        series.last,
        series.step,
    )


def _columns(
    table: Table, series: Series, names: Mapping[int, str], mapped: Mapping[int, str]
) -> tuple[MeterColumn, ...]:
    return tuple(
        MeterColumn(
            names[read.place],
            read.place + 1,
            read.unit,
            tuple(read.values[row] for row in series.rows),
            table.block.header.line,
            mapped.get(read.place, ""),
        )
        for read in series.reads
    )


def by_channel(table: Table) -> Joined:
    """The columns of a table in which a row is one reading, a column a channel.

    Raises:
        Unreadable: The file does not say enough; a hint names no channel; channels without a date may have
            begun on different days.
    """
    by = table.layout.places("by")[0]
    cells = table.layout.cells[by]
    channels = tuple(dict.fromkeys(cells))
    if "" in channels:
        row = table.block.rows[cells.index("")]
        raise table.block.refuse(row, by, "the row does not say whose reading it is")
    columns, units = (_spoken(table, channels, hinted) for hinted in (table.hints.columns, table.hints.units))
    found: list[_Channel] = []
    for name in channels:
        rows = [row for row, cell in enumerate(cells) if cell == name]
        values = table.layout.places("reading")
        said = dict.fromkeys(values, units[name]) if name in units else {}
        asked = dict.fromkeys(values, columns[name]) if name in columns else {}
        own = channel(table, rows, said, asked)
        series = series_of(own)
        names = {
            place: name if len(values) == 1 else f"{name} {table.layout.names[place]}" for place in values
        }
        found.append((own, _renamed(series, own, names), _columns(own, series, names, asked)))
    return _joined(table, found)


def _spoken(table: Table, channels: Sequence[str], hinted: Mapping[str, str]) -> dict[str, str]:
    """Hints by channel; those that name a column are not meant."""
    found: dict[str, str] = {}
    for key, text in hinted.items():
        if places(table.layout.names, key) and not places(channels, key):
            continue
        fits = [channels[place] for place in places(channels, key)]
        if len(fits) != 1:
            told = ", ".join(fits or channels[:12])
            what = f"'{key}' may be {told}" if fits else f"there is no channel '{key}'; there are {told}"
            raise table.block.refuse(table.block.header, -1, what)
        found[fits[0]] = text
    return found


def _renamed(series: Series, table: Table, names: Mapping[int, str]) -> Series:
    """The same with the channel's name for the column's in all that is told of it."""
    new = {table.layout.names[place]: name for place, name in names.items()}
    return replace(
        series,
        not_readings=tuple(
            replace(each, column=new.get(each.column, each.column)) for each in series.not_readings
        ),
        warnings=tuple(
            replace(each, columns=tuple(new.get(name, name) for name in each.columns))
            for each in series.warnings
        ),
    )


_Channel: TypeAlias = tuple[Table, Series, tuple[MeterColumn, ...]]


def _joined(table: Table, found: Sequence[_Channel]) -> Joined:
    start = _start(table, found)
    lines: dict[Decimal, int] = {}
    for own, series, _ in found:
        for row in series.rows:
            time = series.base - start + series.elapsed[row]
            line = own.block.rows[row].line
            lines[time] = min(line, lines.get(time, line))
    times = sorted(lines)
    columns: list[MeterColumn] = []
    events: list[MeterEvent] = []
    for _, series, read in found:
        ahead = series.base - start
        at = {ahead + series.elapsed[row]: number for number, row in enumerate(series.rows)}
        for column in read:
            values = (column.values[at[time]] if time in at else None for time in times)
            columns.append(replace(column, values=tuple(values)))
        events += [replace(each, elapsed_s=each.elapsed_s + ahead) for each in series.events]
    steps = {later - earlier for earlier, later in pairwise(times)}
    warnings = [each for _, series, _ in found for each in series.warnings]
    return Joined(
        tuple(times),
        tuple(lines[time] for time in times),
        tuple(columns),
        _by_line([each for _, series, _ in found for each in series.not_readings]),
        tuple(sorted(events, key=lambda each: each.line)),
        (*dict.fromkeys(warnings), *_units(columns)),
        min((series.first for _, series, _ in found if series.first), default=None),
        max((series.last for _, series, _ in found if series.last), default=None),
        steps.pop() if len(steps) == 1 else None,
    )


def _start(table: Table, found: Sequence[_Channel]) -> Decimal:
    """When the first reading of all was.

    Raises:
        Unreadable: It is not said whether the channels began on one day.
    """
    bases = [series.base for _, series, _ in found]
    undated = table.clock is not None and table.clock.kind == "clock without date"
    if undated and table.clock is not None and max(bases) - min(bases) > _HALF_DAY:
        what = "the channels begin more than twelve hours apart, and the times have no date"
        raise table.block.refuse(table.block.rows[0], table.clock.place, what)
    return min(bases)


def _by_line(found: Sequence[NotReading]) -> tuple[NotReading, ...]:
    return tuple(sorted(found, key=lambda each: each.line or 0))


def _units(columns: Sequence[MeterColumn]) -> tuple[MeterWarning, ...]:
    """A warning for each quantity whose columns are in several units."""
    by: dict[str, list[MeterColumn]] = {}
    for column in columns:
        if column.unit is not None:
            by.setdefault(column.unit.quantity, []).append(column)
    return tuple(
        MeterWarning(
            "different units",
            tuple(column.name for column in alike),
            count=len(alike),
            texts=tuple(dict.fromkeys(column.unit.typed for column in alike if column.unit)),
        )
        for alike in by.values()
        if len({column.unit for column in alike}) > 1
    )
