"""Dates as ISO 8601 writes them; any other order of day and month is asked about, never guessed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from generator.records.grammar import QuantityError, checked

_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)
_MONTH = re.compile(r"(\d{4})(?:-(\d{2}))?", re.ASCII)
_OTHER = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})", re.ASCII)
_WITH_TIME = re.compile(r"(\d{4}-\d{2}-\d{2})[T ]\d.*", re.ASCII)
_EXAMPLE = ("2026-03-08",)


@dataclass(frozen=True, order=True)
class PartialDate:
    """A date of which the day, or day and month, may not be known.

    Attributes:
        year: The year.
        month: 1 to 12; 0 where not known.
        day: 1 to 31; 0 where not known.
    """

    year: int
    month: int = 0
    day: int = 0

    def __str__(self) -> str:
        return "-".join(part for part in (f"{self.year:04d}", _two(self.month), _two(self.day)) if part)


def as_known(day: date, like: PartialDate) -> PartialDate:
    """A day as exactly as another date is known."""
    return PartialDate(day.year, day.month if like.month else 0, day.day if like.day else 0)


def parse_date(text: str) -> date:
    """Read a date: `2026-03-08`.

    Raises:
        QuantityError: It is written in another way, or is no day of the calendar.
    """
    written = checked(text)
    if found := _ISO.fullmatch(written):
        year, month, day = (int(part) for part in found.groups())
        made = _day(year, month, day)
        if made is None:
            raise QuantityError(f"there is no day {written}", _EXAMPLE)
        if made.isoformat() != written:
            raise QuantityError("month and day have two digits", (made.isoformat(),))
        return made
    if found := _OTHER.fullmatch(written):
        first, second, year = (int(part) for part in found.groups())
        readings = (_day(year, second, first), _day(year, first, second))
        told = tuple(dict.fromkeys(each.isoformat() for each in readings if each is not None))
        what = "may be two days" if len(told) > 1 else "is not how a date is written here"
        raise QuantityError(f"'{written}' {what}; write year, month and day", told or _EXAMPLE)
    if found := _WITH_TIME.fullmatch(written):
        raise QuantityError("a date is wanted, without the time of day", (found[1],))
    raise QuantityError("not a date: year, month and day", _EXAMPLE)


def parse_month_or_year(text: str) -> PartialDate:
    """Read a date of an older result: `2021-05-03`, `2021-05` or `2021`.

    Raises:
        QuantityError: It is none of the three.
    """
    found = _MONTH.fullmatch(checked(text))
    if found is None:
        try:
            whole = parse_date(text)
        except QuantityError as error:
            raise QuantityError(error.what, (*error.accepted, "2026-03", "2026")) from None
        return PartialDate(whole.year, whole.month, whole.day)
    year, month = int(found[1]), int(found[2] or 0)
    if _day(year, month if found[2] else 1, 1) is None:
        raise QuantityError(f"there is no month {text.strip()}", ("2026-03", "2026"))
    return PartialDate(year, month)


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day) if 1900 <= year <= 2199 else None
    except ValueError:
        return None


def _two(number: int) -> str:
    return f"{number:02d}" if number else ""
