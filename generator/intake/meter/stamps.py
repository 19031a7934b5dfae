"""Dates and times of day as meters write them: one shape a file, the order of day and month asked for."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from functools import lru_cache

from generator.intake.meter.hints import DateOrder

_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan january januar", "feb february februar", "mar march mär märz mrz", "apr april", "may mai",
            "jun june juni", "jul july juli", "aug august", "sep sept september", "oct october okt oktober",
            "nov november", "dec december dez dezember",
        ),
        1,
    )
    for name in names.split()
}  # fmt: skip
_DATE = re.compile(
    r"(?P<one>[0-9]{4}|[0-9]{1,2})(?P<sep>[-/.])(?P<two>[0-9]{1,2})(?P=sep)(?P<three>[0-9]{4}|[0-9]{1,2})"
    r"|(?P<day>[0-9]{1,2})[-. /](?P<name>[^\W\d_]{3,9})\.?[-. /](?P<year>[0-9]{4}|[0-9]{2})"
    r"|(?P<jy>[0-9]{4})年(?P<jm>[0-9]{1,2})月(?P<jd>[0-9]{1,2})日"
)
_CLOCK = re.compile(
    r"(?P<hour>[0-9]{1,5}):(?P<minute>[0-9]{2})"
    r"(?::(?P<second>[0-9]{2})(?:[.,](?P<part>[0-9]{1,9})|:(?P<third>[0-9]{3}))?)?"
    r"(?:\s?(?P<half>[AaPp])\.?\s?[Mm]\.?)?(?![0-9:.,])"
)
_BETWEEN = re.compile(r"T|[ _]+|, ?")
FARTHEST = 14
"""Hours; no clock on earth is farther from UTC (the IANA time zone database)."""
_OFFSET = re.compile(r"\s?(?:Z|(?:UTC|GMT)?([+-])([0-9]{2}):?([0-9]{2})|UTC|GMT)")


@dataclass(frozen=True, slots=True)
class Shape:
    """How a stamp is written; all of a column are written in one way.

    Attributes:
        date: What its date looks like: `a.b.year`, `year-b-c`, `day name year`, …; empty without one.
        clock: How many parts its time has, 0 without one.
        half: Whether it says AM or PM.
        offset: Whether it says an offset from UTC.
        between: What parts date and time, spaces left out.
    """

    date: str
    clock: int
    half: bool = False
    offset: bool = False
    between: str = ""


@dataclass(frozen=True, slots=True)
class Stamp:
    """One stamp, its date's order not yet settled.

    Attributes:
        shape: How it is written.
        parts: The date's three numbers as written, in order; a month's name as its number.
        seconds: Since midnight; of `24:00` a whole day, and more where hours are counted on; of two parts as
            hours and minutes.
        offset: Seconds east of UTC where it is said.
    """

    shape: Shape
    parts: tuple[str, str, str] = ("", "", "")
    seconds: Decimal = Decimal(0)
    offset: int | None = None


@lru_cache(maxsize=1 << 17)
def stamp_of(cell: str) -> Stamp | None:
    """A date, a time of day, or both; None where the cell is none."""
    if len(cell) > 45 or not cell[:1].isdigit():
        return None
    if clock := _CLOCK.match(cell):
        rest = cell[clock.end() :]
        date_behind = _DATE.fullmatch(rest.strip()) if rest[:1].isspace() else None
        return _made(date_behind, clock, None) if not rest or date_behind else None
    when = _DATE.match(cell)
    return _dated(cell, when) if when else None


def _dated(cell: str, when: re.Match[str]) -> Stamp | None:
    if when.end() == len(cell):
        return _made(when, None, None)
    between = _BETWEEN.match(cell, when.end())
    clock = _CLOCK.match(cell, between.end()) if between else None
    if between is None or clock is None:
        return None
    offset = _OFFSET.fullmatch(cell, clock.end())
    if not offset and clock.end() != len(cell):
        return None
    made = _made(when, clock, offset)
    return replace(made, shape=replace(made.shape, between=between[0].strip())) if made else None


def _made(
    when: re.Match[str] | None, clock: re.Match[str] | None, offset: re.Match[str] | None
) -> Stamp | None:
    written = _date(when) if when else ("", ("", "", ""))
    if written is None:
        return None
    kind, parts = written
    if clock is None:
        return Stamp(Shape(kind, 0), parts)
    seconds = _seconds(clock)
    if seconds is None or (kind and seconds > 86400):
        return None
    count = 4 if clock["third"] else 3 if clock["second"] else 2
    east = _east(offset) if offset else None
    if offset and east is None:
        return None
    return Stamp(Shape(kind, count, bool(clock["half"]), offset is not None), parts, seconds, east)


def _seconds(clock: re.Match[str]) -> Decimal | None:
    hour, minute, second = (int(clock[key] or 0) for key in ("hour", "minute", "second"))
    if minute > 59 or second > 59:
        return None
    if half := clock["half"]:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half in "pP" else 0)
    seconds = Decimal(hour * 3600 + minute * 60 + second)
    part = clock["part"] or clock["third"]
    return seconds + Decimal(int(part)).scaleb(-len(part)) if part else seconds


def _date(when: re.Match[str]) -> tuple[str, tuple[str, str, str]] | None:
    if name := when["name"]:
        month = _MONTHS.get(name.casefold())
        kind = "day name year" if len(when["year"]) == 4 else "a name c"
        return (kind, (when["day"], str(month), when["year"])) if month else None
    if when["jy"]:
        return "year年", (when["jy"], when["jm"], when["jd"])
    a, b, c, sep = when["one"], when["two"], when["three"], when["sep"]
    numbers = (a, b, c)
    if len(a) == 4:
        return None if len(c) == 4 else (f"year{sep}b{sep}c", numbers)
    if len(c) == 4:
        return f"a{sep}b{sep}year", numbers
    return (f"a{sep}b{sep}c", numbers) if len(c) == 2 or len(a) == 2 else None


def _east(offset: re.Match[str]) -> int | None:
    if not offset[1]:
        return 0
    hours, minutes = int(offset[2]), int(offset[3])
    if hours > FARTHEST or minutes > 59:
        return None
    seconds = hours * 3600 + minutes * 60
    return -seconds if offset[1] == "-" else seconds


def orders_of(shape: Shape) -> tuple[DateOrder, ...]:
    """The orders that a shape leaves open; dots and a whole year say day, month, year (common practice)."""
    if shape.date.startswith("year"):
        return ("ymd",)
    if shape.date in {"a.b.year", "day name year"}:
        return ("dmy",)
    if shape.date in {"a name c", "a.b.c"}:
        return ("dmy", "ymd")
    if shape.date.endswith("year"):
        return ("dmy", "mdy")
    return ("dmy", "mdy", "ymd")


@lru_cache(maxsize=4096)
def day_of(parts: tuple[str, str, str], order: DateOrder) -> date | None:
    """The day that three numbers name in an order; None where the calendar has none such.

    A year of two digits lies in 1970 to 2069.
    """
    places = {"dmy": (2, 1, 0), "mdy": (2, 0, 1), "ymd": (0, 1, 2)}[order]
    year, month, day = (int(parts[place]) for place in places)
    if len(parts[places[0]]) not in {2, 4}:
        return None
    if len(parts[places[0]]) == 2:
        year += 1900 if year >= 70 else 2000
    try:
        return date(year, month, day) if 1900 <= year <= 2199 else None
    except ValueError:
        return None
