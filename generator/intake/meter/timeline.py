"""Times of rows → elapsed seconds that rise: midnights, clock changes, lost seconds, gaps; else a refusal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta, timezone, tzinfo
from decimal import Decimal
from itertools import pairwise

from generator.intake.meter.clock import Clock
from generator.intake.meter.find import Block
from generator.intake.meter.hints import Hints
from generator.intake.meter.series import MeterWarning
from generator.intake.meter.steps import Steps, spread, steps_of
from generator.intake.meter.zones import AmbiguousHour, SkippedHour, instants, moment, seconds_of, zone_of

_DAY = 86400
_ROLLS = (2**16, 2**32)
"""Where counters begin anew."""


@dataclass(frozen=True)
class Timeline:
    """When the rows of a table were.

    Attributes:
        elapsed: Seconds since the first reading, for each row of the table.
        first: The first reading's time; None where no date is known.
        last: The last reading's.
        step: Seconds from each reading to the next, where that is the same throughout.
        warnings: What should be told.
    """

    elapsed: tuple[Decimal, ...] = field(repr=False)
    first: datetime | None
    last: datetime | None
    step: Decimal | None
    warnings: tuple[MeterWarning, ...]


def unrolled(block: Block, clock: Clock, hints: Hints) -> tuple[Clock, tuple[MeterWarning, ...]]:
    """The clock with midnights, the clock's setting back and a counter's rolling over taken into account.

    Raises:
        Unreadable: A time falls and no rule says why; the hour of a clock change cannot be told apart.
    """
    if clock.kind == "clock without date":
        return _over_midnight(clock, block)
    if clock.kind == "elapsed" and clock.shape is None:
        return _rolled_over(clock, block)
    if clock.kind == "clock" and hints.zone:
        return _in_zone(block, clock, zone_of(hints.zone))
    if clock.offset is not None and hints.zone and clock.shape and not clock.shape.offset:
        zone = zone_of(hints.zone)
        if isinstance(zone, timezone) and zone.utcoffset(None) != timedelta(seconds=clock.offset):
            what = "the file and the hint say two offsets from UTC"
            raise block.refuse(block.header, clock.place, what, ("leave --zone out",))
    return clock, ()


def _over_midnight(clock: Clock, block: Block) -> tuple[Clock, tuple[MeterWarning, ...]]:
    days, told, lines = 0, [], []
    for line, time in enumerate(clock.seconds):
        if line and clock.seconds[line - 1] - time > _DAY // 2:
            days += 1
            lines += [block.rows[line - 1].line, block.rows[line].line]
        told.append(time + days * _DAY)
    warnings = (MeterWarning("over midnight", lines=tuple(lines), count=days),) if days else ()
    return replace(clock, seconds=tuple(told)), warnings


def _rolled_over(clock: Clock, block: Block) -> tuple[Clock, tuple[MeterWarning, ...]]:
    """A counter that begins anew where the step over its end is exactly that of the rows before."""
    added = Decimal(0)
    told: list[Decimal] = []
    lines: list[int] = []
    for line, time in enumerate(clock.seconds):
        before = told[-1] if told else time
        if time + added < before and line > 1:
            step = before - told[-2]
            whole = next(
                (size * clock.one for size in _ROLLS if time + added + size * clock.one == before + step),
                None,
            )
            if whole is not None:
                added += whole
                lines += [block.rows[line - 1].line, block.rows[line].line]
        told.append(time + added)
    warnings = (
        (MeterWarning("counter rolled over", lines=tuple(lines), count=len(lines) // 2),) if lines else ()
    )
    return replace(clock, seconds=tuple(told)), warnings


def _in_zone(block: Block, clock: Clock, zone: tzinfo) -> tuple[Clock, tuple[MeterWarning, ...]]:
    try:
        told, folds = instants(clock.seconds, zone)
    except SkippedHour as error:
        what = "the clock of this zone never showed this time: it was set forward"
        raise block.refuse(
            block.rows[error.line], clock.place, what, ("--zone +01:00 (a fixed offset)",)
        ) from None
    except AmbiguousHour as error:
        what = "the clock of this zone went through this hour twice, and the rows do not say which it is"
        raise block.refuse(
            block.rows[error.line], clock.place, what, ("--zone +01:00 (a fixed offset)",)
        ) from None
    back = [line for line, (one, two) in enumerate(pairwise(folds), 1) if two > one]
    lines = tuple(block.rows[line].line for line in back)
    warnings = (MeterWarning("clock set back", lines=lines, count=len(lines)),) if lines else ()
    return replace(clock, seconds=tuple(told)), warnings


def timeline(
    block: Block, clock: Clock, rows: Sequence[int], hints: Hints, interval: Decimal | None
) -> Timeline:
    """When the readings of a table, or of one channel of it, were.

    Args:
        block: The table.
        clock: Its times, unrolled.
        rows: The rows, from 0, that hold readings.
        hints: What a person says.
        interval: Seconds from one reading to the next, as the file or a person says.

    Raises:
        Unreadable: Times fall or repeat, or a step is no multiple of the interval.
    """
    times = [clock.seconds[row] for row in rows]
    lines = [block.rows[row].line for row in rows]
    _no_fall(block, clock, rows)
    repeats = [line for line, (one, two) in enumerate(pairwise(times), 1) if one == two]
    base = times[0]
    elapsed = [tidy(time - base) for time in clock.seconds]
    coarse = interval is not None and bool(interval % clock.resolution)
    whole_minutes = clock.shape is not None and clock.shape.clock == 2
    if repeats or (coarse and whole_minutes):
        counted = spread(block, clock, rows, interval, repeats)
        for row, time in zip(rows, counted, strict=True):
            elapsed[row] = tidy(time)
        warning = MeterWarning(
            "repeated stamps", lines=tuple(lines[line] for line in repeats[:9]), count=len(repeats)
        )
        return Timeline(tuple(elapsed), *_ends(clock, rows, hints), interval, (warning,))
    told: Steps = steps_of(block, clock, rows, interval, hints.zone)
    step = None if told.step is None else tidy(told.step)
    return Timeline(tuple(elapsed), *_ends(clock, rows, hints), step, told.warnings)


def _no_fall(block: Block, clock: Clock, rows: Sequence[int]) -> None:
    for before, row in pairwise(rows):
        if clock.seconds[row] >= clock.seconds[before]:
            continue
        what = f"the time falls from the reading before, on line {block.rows[before].line}"
        settles: tuple[str, ...] = ()
        if clock.kind == "clock":
            what += "; a clock that was set back, or another day"
            settles = ("--zone Europe/Berlin",)
        elif clock.kind == "elapsed":
            what += "; the meter began anew"
            settles = ("--run-date 2026-03-08 (a time of day)",) if clock.shape else ()
        raise block.refuse(block.rows[row], clock.place, what, settles)


def _ends(clock: Clock, rows: Sequence[int], hints: Hints) -> tuple[datetime | None, datetime | None]:
    first, last = (_when(clock, clock.seconds[row], hints) for row in (rows[0], rows[-1]))
    return first, last


def _when(clock: Clock, seconds: Decimal, hints: Hints) -> datetime | None:
    if clock.kind == "clock without date":
        return moment(seconds_of(hints.run_date.toordinal(), seconds)) if hints.run_date else None
    if clock.kind == "fixed offset":
        east = clock.offset or 0
        return moment(seconds + east, timezone(timedelta(seconds=east)))
    if clock.kind == "clock":
        return moment(seconds, UTC).astimezone(zone_of(hints.zone)) if hints.zone else moment(seconds)
    return None


def tidy(seconds: Decimal) -> Decimal:
    """The same without noughts behind the point, and without an exponent."""
    short = seconds.normalize()
    exponent = short.as_tuple().exponent
    return short.quantize(Decimal(1)) if isinstance(exponent, int) and exponent > 0 else short
