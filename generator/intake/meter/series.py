"""What a meter's file holds, once it is read: times, columns as written, and what is no reading."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Literal, TypeAlias

from generator.fault import Fault, Place
from generator.intake.meter.hints import DateOrder
from generator.records.units import Unit

Bound: TypeAlias = Literal["", ">", "<"]
TimeKind: TypeAlias = Literal["clock", "fixed offset", "clock without date", "elapsed", "counted"]
Role: TypeAlias = Literal["time", "counter", "unit", "text", "state", "event", "remark", "by"]
Meaning: TypeAlias = Literal[
    "over range",
    "under range",
    "no reading",
    "no probe",
    "no probe, or a broken one",
    "no samples",
    "event only",
    "state, not a reading",
    "formula without a stored value",
    "below absolute zero",
    "not understood",
]
WarningKind: TypeAlias = Literal[
    "encoding tried",
    "encoding hint not needed",
    "column without a reading",
    "readings left out",
    "column without a unit",
    "different units",
    "unit changes",
    "average of clipped readings",
    "intervals not equal",
    "gaps",
    "repeated stamps",
    "over midnight",
    "clock set back",
    "counter rolled over",
    "times from row numbers",
    "interval by hint",
    "row cut off",
    "text in a cell",
    "formulas without values",
]


@dataclass(frozen=True)
class MeterColumn:
    """One column of readings.

    Attributes:
        name: As in the file; `Value 1` for the first of two columns called Value; the channel's where a row
            is one reading.
        number: The column of the file, from 1.
        unit: Of the closed table (`typed` for a record, `symbol` for a page); None where neither the file nor
            a hint says it.
        values: For each time the digits as written, with a point; None where there is no reading.
        line: The line of its name, from 1.
        mapped: What the hint says it holds; empty where none does.
    """

    name: str
    number: int
    unit: Unit | None
    values: tuple[str | None, ...] = field(repr=False)
    line: int = 0
    mapped: str = ""


@dataclass(frozen=True)
class OtherColumn:
    """A column that holds no readings.

    Attributes:
        name: As in the file.
        number: From 1.
        role: What it holds instead.
    """

    name: str
    number: int
    role: Role


@dataclass(frozen=True)
class NotReading:
    """What stands in the place of a reading.

    Attributes:
        line: From 1, as an editor counts; None where every row of the column has it.
        column: The column's name.
        token: As written, without the spaces round it.
        means: What it means.
        bound: The side on which the reading lies where the meter was out of its range.
        limit: The range's end as written digits, in the column's unit; empty where it is not known.
    """

    line: int | None
    column: str
    token: str
    means: Meaning
    bound: Bound = ""
    limit: str = ""


@dataclass(frozen=True)
class MeterEvent:
    """Something that a row tells beside readings.

    Attributes:
        elapsed_s: Since the first reading; below 0 before it.
        text: The event's name, or the remark.
        line: From 1.
        kind: Whether the meter marked it or a person wrote it.
        has_reading: Whether the row has a reading too.
    """

    elapsed_s: Decimal
    text: str
    line: int
    kind: Literal["event", "remark"]
    has_reading: bool


@dataclass(frozen=True)
class MeterTime:
    """How the file tells time.

    Attributes:
        kind: `clock` is local, with a date; `elapsed` counts from a start of its own; `counted` has no column
            and goes by the row number.
        columns: The file's names of the columns it was read from.
        first_text: The first reading's time as written; empty where counted.
        first: The first reading's time; with its offset where the file or the zone gives one; None where no
            date is known.
        last: The last reading's, in the same way.
        step_s: Seconds from each reading to the next, where that is the same throughout.
        date_order: In what order the date was read, where there is one.
        order_from: Who said so.
    """

    kind: TimeKind
    columns: tuple[str, ...] = ()
    first_text: str = ""
    first: datetime | None = None
    last: datetime | None = None
    step_s: Decimal | None = None
    date_order: DateOrder | None = None
    order_from: Literal["", "file", "hint"] = ""


@dataclass(frozen=True)
class MeterWarning:
    """Something that a person should be told, as facts; the sentence is made elsewhere.

    Attributes:
        kind: Which.
        columns: The columns concerned, by name.
        lines: The lines concerned, from 1; the first of them where there are many.
        count: How many are concerned.
        texts: What else the sentence names: an encoding, cells (`B6`), units, seconds.
    """

    kind: WarningKind
    columns: tuple[str, ...] = ()
    lines: tuple[int, ...] = ()
    count: int = 0
    texts: tuple[str, ...] = ()


@dataclass(frozen=True)
class MeterFile:
    """A meter's file as read.

    Attributes:
        name: The file's name.
        encoding: `utf-8`, `utf-8 with mark`, `utf-16-le with mark`, `cp1252`, …; `xlsx` for a workbook.
        delimiter: One character; empty for a workbook.
        decimal: The sign in its numbers, `.` or `,`.
        sheet: The sheet of a workbook, else empty.
        header_line: The line of the columns' names, from 1; a row of the sheet in a workbook.
        units_line: The line of units below it, where there is one.
        first_data_line: The first row's.
        last_data_line: The last row's.
        metadata: What stands before the table, name and text as written, in order.
        settings: What of that belongs to the readings, under names of our own: `interval`, `emissivity`,
            `reflected-temperature`, `distance`, `range-lower`, `range-upper`, `thermocouple`, …
        time: How the file tells time.
        elapsed_s: Seconds since the first reading, for each row, rising.
        lines: The line of each row, from 1; where a row is one reading, of the first of that time.
        columns: Those with readings, in the order of the file.
        others: Those without.
        not_readings: What stands in the place of readings, by line.
        events: What rows tell beside readings, by line.
        warnings: What a person should be told.
        ignored_lines: Lines after the table that were left out, those that are blank included.
    """

    name: str
    encoding: str
    delimiter: str
    decimal: Literal[".", ","]
    sheet: str
    header_line: int
    units_line: int | None
    first_data_line: int
    last_data_line: int
    metadata: tuple[tuple[str, str], ...]
    settings: tuple[tuple[str, str], ...]
    time: MeterTime
    elapsed_s: tuple[Decimal, ...] = field(repr=False)
    lines: tuple[int, ...] = field(repr=False)
    columns: tuple[MeterColumn, ...]
    others: tuple[OtherColumn, ...]
    not_readings: tuple[NotReading, ...] = field(repr=False)
    events: tuple[MeterEvent, ...]
    warnings: tuple[MeterWarning, ...]
    ignored_lines: tuple[int, ...]

    def column(self, name: str) -> MeterColumn:
        """The column of that name.

        Raises:
            KeyError: There is none.
        """
        found = next((each for each in self.columns if each.name == name), None)
        if found is None:
            raise KeyError(name)
        return found


@dataclass(frozen=True)
class Problem:
    """Why a file cannot be read rightly.

    Attributes:
        line: From 1; 0 where the whole file is meant.
        column: The character of the line, from 1; 0 where the whole line or file is meant.
        text: The line as written.
        what: What is wrong, lower case, no full stop.
        found: What stands there, where quoting it helps.
        settles: What would settle it: options as typed, each with what it would mean (`--date-order dmy`).
    """

    line: int
    column: int
    text: str
    what: str
    found: str | None = None
    settles: tuple[str, ...] = ()

    def as_fault(self, path: Path) -> Fault:
        """The same as a fault of a file."""
        return Fault(Place(path, self.line, self.column, self.text), "", self.what, self.found, self.settles)


class Unreadable(Exception):
    """The file does not say enough, or says two things.

    Attributes:
        problems: What stands against it, by line.
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(each.what for each in self.problems))
