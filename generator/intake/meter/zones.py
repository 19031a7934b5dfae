"""Whose clock a file was written by: a fixed offset in its header or rows, or a zone that is named."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta, timezone, tzinfo
from decimal import Decimal
from zoneinfo import ZoneInfo

from generator.intake.meter.series import Problem, Unreadable
from generator.intake.meter.stamps import FARTHEST

_IN_NAME = re.compile(r"\b(?:UTC|GMT)\s?(?:([+-])([0-9]{1,2})(?::?([0-9]{2}))?)?(?![0-9A-Za-z])")
_FIXED = re.compile(r"(?:UTC|GMT)?([+-])([0-9]{1,2})(?::?([0-9]{2}))?|UTC|GMT|Z")
_DAY = 86400


def offset_in(name: str) -> int | None:
    """Seconds east of UTC that a name says for all rows: `Date Time, GMT+01:00`; None where it says none.

    Raises:
        ValueError: No place on earth has that offset.
    """
    found = _IN_NAME.search(name)
    return _east(found) if found else None


def zone_of(hint: str) -> tzinfo:
    """The zone, or fixed offset, of a hint.

    Raises:
        Unreadable: There is none of that name.
    """
    try:
        if fixed := _FIXED.fullmatch(hint.strip()):
            return timezone(timedelta(seconds=_east(fixed)))
        return ZoneInfo(hint.strip())
    except (KeyError, ValueError, OSError):
        what = f"'{hint}' is no zone known here"
        raise Unreadable([Problem(0, 0, "", what, None, ("--zone Europe/Berlin", "--zone +01:00"))]) from None


def _east(found: re.Match[str]) -> int:
    if not found[1]:
        return 0
    hours, minutes = int(found[2]), int(found[3] or 0)
    if hours > FARTHEST or minutes > 59:
        raise ValueError(found[0])
    seconds = hours * 3600 + minutes * 60
    return -seconds if found[1] == "-" else seconds


def moment(seconds: Decimal, zone: tzinfo | None = None, fold: int = 0) -> datetime:
    """Seconds since the first day of the calendar on a clock → that clock's time, to a microsecond."""
    day, rest = divmod(seconds, _DAY)
    whole = datetime.fromordinal(int(day)) + timedelta(
        microseconds=int((rest * 1_000_000).to_integral_value())
    )
    return whole.replace(tzinfo=zone, fold=fold)


def seconds_of(day: int, clock: Decimal) -> Decimal:
    """Seconds since the first day of the calendar of a day's ordinal and the seconds since its midnight."""
    return Decimal(day * _DAY) + clock


def _skipped(local: Decimal, zone: tzinfo) -> bool:
    there = moment(local, zone)
    back = there.astimezone(UTC).astimezone(zone)
    return back.replace(tzinfo=None) != there.replace(tzinfo=None)


def _offset(local: Decimal, zone: tzinfo, fold: int) -> Decimal:
    east = moment(local, zone, fold).utcoffset() or timedelta()
    return Decimal(int(east.total_seconds()))


class AmbiguousHour(Exception):
    """Rows stand in the hour that the clock went through twice, and cannot be told apart; `line` from 0."""

    def __init__(self, line: int) -> None:
        self.line = line
        super().__init__(f"row {line}")


class SkippedHour(AmbiguousHour):
    """A row stands in the hour that the clock left out."""


def instants(local: Sequence[Decimal], zone: tzinfo) -> tuple[list[Decimal], list[int]]:
    """Times of a zone's clock → seconds of UTC, and the folds.

    An hour that the clock went through twice is told apart where the clock falls back inside it, at the
    zone's known instant.

    Raises:
        SkippedHour: A time that the clock never showed.
        AmbiguousHour: The clock does not fall back between two rows, so the hour may be either.
    """
    folds = [0] * len(local)
    result: list[Decimal] = []
    second = None
    for line, time in enumerate(local):
        early, late = _offset(time, zone, 0), _offset(time, zone, 1)
        if early == late:
            result.append(time - early)
            second = None
            continue
        if _skipped(time, zone):
            raise SkippedHour(line)
        if second is None:
            second = _turn(local, line, zone)
        folds[line] = int(line >= second)
        result.append(time - (late if folds[line] else early))
    return result, folds


def _turn(local: Sequence[Decimal], start: int, zone: tzinfo) -> int:
    """The first row of the second pass through an hour that begins at row `start`."""
    for line in range(start + 1, len(local)):
        if local[line] <= local[line - 1]:
            return line
        if _offset(local[line], zone, 0) == _offset(local[line], zone, 1):
            break
    raise AmbiguousHour(start)
