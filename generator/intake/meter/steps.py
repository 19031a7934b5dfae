"""Steps between readings: held against the interval, gaps counted, rows that share a stamp spread."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from generator.intake.meter.clock import Clock
from generator.intake.meter.find import Block
from generator.intake.meter.series import MeterWarning

_HOUR = 3600
_DAY = 86400


@dataclass(frozen=True)
class Steps:
    """What the steps are like: the one step, where all are the same, and what should be told."""

    step: Decimal | None
    warnings: tuple[MeterWarning, ...] = ()


def spread(
    block: Block,
    clock: Clock,
    rows: Sequence[int],
    interval: Decimal | None,
    repeats: Sequence[int],
) -> list[Decimal]:
    """Times by the row's number and the interval, where stamps are too coarse to tell rows apart.

    Raises:
        Unreadable: No interval is known, or the stamps do not agree with it.
    """
    if interval is None:
        line = rows[repeats[0]]
        count = len(repeats)
        what = f"{count} row{'' if count == 1 else 's'} with the time of the row before"
        settles = ("--interval 30 s", "--by COLUMN (where a row is one reading)")
        raise block.refuse(block.rows[line], clock.place, what, settles)
    # The first reading lies somewhere within its stamp; every further stamp narrows where.
    low, high = Decimal(0), clock.resolution
    base = clock.seconds[rows[0]]
    for number, row in enumerate(rows):
        ahead = clock.seconds[row] - base - number * interval
        low, high = max(low, ahead), min(high, ahead + clock.resolution)
        if low >= high:
            what = f"the stamps do not agree with a reading every {interval:f} s from the first row on"
            raise block.refuse(block.rows[row], clock.place, what, ("--interval 30 s",))
    return [number * interval for number in range(len(rows))]


def steps_of(
    block: Block, clock: Clock, rows: Sequence[int], interval: Decimal | None, zone: str | None
) -> Steps:
    """The steps between readings whose times rise.

    Raises:
        Unreadable: A step is no multiple of the interval; one is an hour too long on a clock that may have
            been set forward.
    """
    times = [clock.seconds[row] for row in rows]
    steps = [later - earlier for earlier, later in pairwise(times)]
    if not steps:
        return Steps(None)
    usual, often = Counter(steps).most_common(1)[0]
    expected = interval or (usual if often > 1 else None)
    if clock.kind == "clock" and zone is None and expected is not None:
        _no_lost_hour(block, clock, rows, expected)
    if interval is not None:
        _multiples(block, clock, rows, interval)
    if len(set(steps)) == 1:
        return Steps(steps[0], _gaps(block, rows, steps, expected) if interval else ())
    whole = expected is not None and all(step % expected == 0 for step in steps)
    coarse = interval is not None and interval % clock.resolution
    if expected is not None and (whole or coarse):
        return Steps(
            expected if not _gaps(block, rows, steps, expected) else None, _gaps(block, rows, steps, expected)
        )
    return Steps(None, (MeterWarning("intervals not equal", count=len(set(steps))),))


def _gaps(
    block: Block, rows: Sequence[int], steps: Sequence[Decimal], expected: Decimal | None
) -> tuple[MeterWarning, ...]:
    """A warning of gaps, with how many readings are missing, where there are some."""
    if expected is None:
        return ()
    half = expected / 2
    long = [(line, step) for line, step in enumerate(steps, 1) if step > expected + half]
    if not long:
        return ()
    lines = tuple(block.rows[rows[line]].line for line, _ in long[:9])
    missing = sum(int((step + half) // expected) - 1 for _, step in long)
    return (MeterWarning("gaps", lines=lines, count=len(long), texts=(str(missing),)),)


def _multiples(block: Block, clock: Clock, rows: Sequence[int], interval: Decimal) -> None:
    # Where stamps are coarser than the interval's last digit, a step may be off by less than one of theirs.
    slack = clock.resolution if interval % clock.resolution else Decimal(0)
    for before, row in pairwise(rows):
        step = clock.seconds[row] - clock.seconds[before]
        off = min(step % interval, interval - step % interval)
        if off and off >= slack:
            what = f"{step.normalize():f} s after the reading before; the interval is {interval:f} s"
            raise block.refuse(block.rows[row], clock.place, what, (f"--interval {step.normalize():f} s",))


def _no_lost_hour(block: Block, clock: Clock, rows: Sequence[int], usual: Decimal) -> None:
    for before, row in pairwise(rows):
        time = clock.seconds[row]
        if time - clock.seconds[before] == usual + _HOUR and time % _DAY < 5 * _HOUR:
            what = "an hour and a step after the reading before: a gap, or a clock that was set forward"
            settles = ("--zone Europe/Berlin", "--zone +01:00 (a clock that is never set)")
            raise block.refuse(block.rows[row], clock.place, what, settles)
