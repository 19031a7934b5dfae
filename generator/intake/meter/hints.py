"""What a person says about a meter's file that the file does not say itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Literal, TypeAlias

DateOrder: TypeAlias = Literal["dmy", "mdy", "ymd"]
DecimalSign: TypeAlias = Literal["point", "comma"]


@dataclass(frozen=True)
class Hints:
    """All optional; what is neither in the file nor here is not assumed.

    Attributes:
        columns: The file's column to what it holds, as typed: `CH3` → `okvarn-ih30:A@body`. A column is named
            as in the file, by the start of its name where no other begins so, or by its number from 1;
            of two called Value the names are `Value 1` and `Value 2`. What maps to `time` is the time.
        units: The file's column to its unit as typed: `degC`; `0.1 degC` where the file has whole tenths.
        date_order: In what order the file writes day, month and year.
        zone: Whose clock the file was written by: a zone (`Europe/Berlin`), or a fixed offset (`+01:00`).
        run_date: The day of the first reading, where the file has times of day alone.
        interval_s: Seconds from one reading to the next, above 0.
        time_unit: The unit of a time column of plain numbers, as typed. Of `5:30` it says how it is read: `h`
            (hours and minutes) or `min` (minutes and seconds).
        by: The column that says whose reading a row is, where a row is one reading.
        sheet: The sheet of a workbook.
        encoding: How the file's bytes are to be read, as Python calls it: `cp1252`, `cp932`, `utf-16-le`.
        delimiter: What parts the cells: one character.
        decimal: What parts whole digits from the rest.
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    date_order: DateOrder | None = None
    zone: str | None = None
    run_date: date | None = None
    interval_s: Decimal | None = None
    time_unit: str | None = None
    by: str | None = None
    sheet: str | None = None
    encoding: str | None = None
    delimiter: str | None = None
    decimal: DecimalSign | None = None
