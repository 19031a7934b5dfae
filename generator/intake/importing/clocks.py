"""When a file's first reading was, from the start of the run that its readings go into."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Literal

from generator.intake.importing.entry import digest
from generator.intake.importing.refusals import Refused
from generator.intake.importing.request import Request
from generator.intake.importing.sheet import Row, Sheet
from generator.intake.meter.series import MeterTime
from generator.records.schema.originals import Original

INSTEAD = '--starts-at "0 s" where both began together, else how long after the start of the run it began'


@dataclass(frozen=True)
class Start:
    """When a file's first reading was.

    Attributes:
        seconds: From the start of the run; below 0 before it.
        by: `first`: it is the start of the run itself; `clock`: by the clocks of two meters; `said`: as the
            option says.
        other: The file whose clock it was held against; empty without one.
    """

    seconds: Decimal = Decimal(0)
    by: Literal["first", "clock", "said"] = "first"
    other: str = ""


def start_of(
    request: Request, originals: Sequence[Original], stale: Collection[int], time: MeterTime
) -> Start:
    """When a file's first reading was, told by what stands in the record already.

    Args:
        request: What was asked for.
        originals: The files whose readings the record holds.
        stale: Places of those that go now.
        time: How the new file tells time.

    Raises:
        Refused: The two have no clock in common, and nobody said which began when.
    """
    if request.starts_at is not None:
        return Start(request.starts_at, "said")
    staying = [each for number, each in enumerate(originals) if number not in stale]
    if not staying:
        return Start()
    same = next((each for each in staying if each.sha256 == digest(request.data)), None)
    if same is not None:
        return Start(_began(same), "first" if _began(same) == 0 else "clock", same.file)
    other = staying[0]
    there, here = _clock(other.began), time.first
    if there is None or here is None or (there.tzinfo is None) != (here.tzinfo is None):
        what = f"{request.name} and {other.file} have no clock in common, so which began first is not known"
        raise Refused(what, (INSTEAD,))
    return Start(_began(other) + _seconds(here - there), "clock", other.file)


def moved(rows: Sequence[Row], start: Start) -> tuple[tuple[Row, ...], int]:
    """Rows by the time of the run, and how many came before its start and are left out."""
    found = tuple(replace(row, seconds=row.seconds + start.seconds) for row in rows)
    during = tuple(row for row in found if row.seconds >= 0)
    return during, len(found) - len(during)


def refuse_apart(request: Request, start: Start, rows: Sequence[Row], left: Sheet) -> None:
    """Refuse readings that share no time with those that stand there: one of the clocks is wrong.

    Raises:
        Refused: With how far they are apart.
    """
    if start.by != "clock" or not left.rows:
        return
    if rows and rows[0].seconds <= left.rows[-1].seconds:
        return
    minutes = f"{float(start.seconds) / 60:g} min"
    what = (
        f"by the clocks {request.name} began {minutes} after the start of the run, and shares no time with it"
    )
    raise Refused(what, ("--starts-at, where one of the clocks was wrong",))


def _began(original: Original) -> Decimal:
    return Decimal(0) if original.starts_at is None else _told(original.starts_at.si)


def _told(seconds: float) -> Decimal:
    return Decimal(repr(seconds)).normalize() + 0


def _clock(text: str | None) -> datetime | None:
    try:
        return datetime.fromisoformat(text) if text else None
    except ValueError:
        return None


def _seconds(apart: timedelta) -> Decimal:
    whole = apart.days * 86_400 + apart.seconds
    return Decimal(whole) + Decimal(apart.microseconds) / 1_000_000
