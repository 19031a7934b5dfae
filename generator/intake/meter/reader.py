"""A meter's file, bytes and hints → times and columns of readings, or what would have to be said first."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from generator.intake.meter.choose import table_in, table_of
from generator.intake.meter.clock import clock_of
from generator.intake.meter.decode import MOST_BYTES, Decoded, decodings
from generator.intake.meter.find import Block
from generator.intake.meter.grid import delimiters
from generator.intake.meter.hints import Hints
from generator.intake.meter.join import Joined, by_channel, one_series
from generator.intake.meter.layout import layout_of
from generator.intake.meter.preamble import metadata, settings
from generator.intake.meter.readings import Signs
from generator.intake.meter.series import MeterFile, MeterTime, MeterWarning, NotReading, Problem, Unreadable
from generator.intake.meter.series_of import Table
from generator.intake.meter.signs import decimal_sign, text_sign
from generator.intake.meter.unit_words import unit_of
from generator.intake.meter.workbook import is_workbook, sheet_of

_RECORDS = re.compile(
    r"\b(\d{1,7}) (?:records|readings|rows|samples|data points|Messwerte|Datensätze|lignes)\b"
)


def read_meter_file(data: bytes, name: str, hints: Hints) -> MeterFile:
    """Read a meter's file.

    Args:
        data: The whole file: text in any common encoding, or a workbook.
        name: Its name, for messages; what is in it is told from the bytes alone.
        hints: What a person says about it; nothing else is assumed.

    Returns:
        Times in seconds since the first reading, columns in the units of the file, digits as written.

    Raises:
        Unreadable: The file does not say enough, or says two things; with the line and the hint that would
            settle it.
    """
    if len(data) > MOST_BYTES:
        what = f"the file is larger than {MOST_BYTES // 1_000_000} MB; cut it into runs"
        raise Unreadable([Problem(0, 0, "", what)])
    if not data.strip(b"\0 \t\r\n"):
        raise Unreadable([Problem(0, 0, "", "the file is empty")])
    if is_workbook(data):
        block = table_in(sheet_of(data, hints.sheet), hints)
        return _read(block, hints, Decoded("", "xlsx"), name)
    found = decodings(data, hints.encoding)
    if len(found) == 1:
        return _text(found[0], name, hints)
    return _of_several(found, name, hints)


def _text(decoded: Decoded, name: str, hints: Hints) -> MeterFile:
    lines = decoded.lines
    block = table_of(lines, delimiters(lines, hints.delimiter), hints)
    return _read(block, hints, decoded, name)


def _of_several(found: Sequence[Decoded], name: str, hints: Hints) -> MeterFile:
    """The one way to read the bytes that leaves every unit known.

    Raises:
        Unreadable: There is none, or several.
    """
    read: list[MeterFile] = []
    refused: list[tuple[str, Unreadable]] = []
    for decoded in found:
        try:
            file = _text(decoded, name, hints)
            _known_units(file, decoded)
            read.append(file)
        except Unreadable as error:
            refused.append((decoded.encoding, error))
    if len(read) == 1:
        return read[0]
    if read:
        settles = tuple(f"--encoding {file.encoding}" for file in read)
        raise Unreadable([Problem(0, 0, "", "the file may be in either of two encodings", None, settles)])
    told = [
        replace(each, what=f"read as {encoding}: {each.what}")
        for encoding, error in refused
        for each in error.problems
    ]
    raise Unreadable(told)


def _known_units(file: MeterFile, decoded: Decoded) -> None:
    """Refuse an encoding that leaves a column without a unit, where the heading is not plain ASCII."""
    lines = decoded.lines
    for column in file.columns:
        rows = [number for number in (file.header_line, file.units_line or 0) if number]
        strange = not all(lines[number - 1].isascii() for number in rows)
        if column.unit is None and strange:
            what = f"the unit of the column '{column.name}' is not known"
            raise Unreadable(
                [Problem(file.header_line, 1, lines[file.header_line - 1], what, None, ("--encoding …",))]
            )


def _read(block: Block, hints: Hints, decoded: Decoded, name: str) -> MeterFile:
    layout = layout_of(block, hints)
    sign = decimal_sign(block, layout, hints.decimal)
    signs = Signs(sign, text_sign(block, layout, hints.decimal) if block.grid.texts else sign)
    told = settings(block.before, sign)
    stated = next((Decimal(text.partition(" ")[0]) for key, text in told if key == "interval"), None)
    clock = clock_of(block, layout, hints, sign)
    table = Table(block, layout, signs, clock, dict(told), hints.interval_s or stated, hints)
    joined = one_series(table) if hints.by is None else by_channel(table)
    _count(block, joined)
    warnings = [*decoded.warnings, *joined.warnings]
    if stated is not None and hints.interval_s not in {None, stated}:
        warnings.append(MeterWarning("interval by hint", texts=(f"{stated:f}", f"{hints.interval_s:f}")))
    if block.cut is not None:
        warnings.append(MeterWarning("row cut off", lines=(block.cut.line,), count=1))
    return MeterFile(
        name=name,
        encoding=decoded.encoding,
        delimiter=block.grid.delimiter,
        decimal=signs.numbers,
        sheet=block.grid.sheet,
        header_line=block.header.line,
        units_line=next((row.line for row in block.labels if any(map(unit_of, row.cells))), None),
        first_data_line=block.rows[0].line,
        last_data_line=block.rows[-1].line,
        metadata=metadata(block.before),
        settings=told,
        time=_time(table, joined),
        elapsed_s=joined.elapsed,
        lines=joined.lines,
        columns=joined.columns,
        others=layout.others(),
        not_readings=(*_states(table), *joined.not_readings),
        events=joined.events,
        warnings=tuple(warnings),
        ignored_lines=_ignored(block),
    )


def _time(table: Table, joined: Joined) -> MeterTime:
    clock = table.clock
    if clock is None:
        return MeterTime("counted", step_s=joined.step)
    first = table.block.lines[joined.lines[0]]
    return MeterTime(
        clock.kind,
        tuple(table.layout.names[place] for place in clock.places),
        " ".join(first.cells[place] for place in clock.places),
        joined.first,
        joined.last,
        joined.step,
        clock.order.order if clock.order else None,
        clock.order.told_by if clock.order else "",
    )


def _states(table: Table) -> list[NotReading]:
    """Columns of a state that never changes: what stands in them is no reading."""
    found = []
    for place in table.layout.places("state"):
        tokens = set(table.layout.cells[place])
        if len(tokens) == 1:
            found.append(NotReading(None, table.layout.names[place], tokens.pop(), "state, not a reading"))
    return found


def _ignored(block: Block) -> tuple[int, ...]:
    """The lines behind the table up to the last that holds something; of a sheet, those alone that do."""
    rows = (*block.after, *((block.cut,) if block.cut else ()))
    last = max((row.line for row in rows if not row.blank), default=0)
    return tuple(row.line for row in rows if row.line <= last and not (row.blank and not block.grid.lines))


def _count(block: Block, joined: Joined) -> None:
    """Hold the rows against the number that the file itself says behind the table.

    Raises:
        Unreadable: Some are missing, or there are more.
    """
    for row in block.after:
        for cell in row.cells:
            found = _RECORDS.search(cell)
            if found and int(found[1]) not in {len(block.rows), len(joined.elapsed)}:
                what = f"the file says that it has {found[1]} rows; {len(block.rows)} were found"
                raise block.refuse(row, -1, what)
