"""A column of time → seconds, row by row: stamps of one shape, or plain numbers with a unit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from generator.intake.meter.dates import Order, order_of
from generator.intake.meter.find import Block
from generator.intake.meter.hints import Hints
from generator.intake.meter.layout import Layout
from generator.intake.meter.numbers import Sign, digits
from generator.intake.meter.series import TimeKind
from generator.intake.meter.stamps import Shape, Stamp, day_of, stamp_of
from generator.intake.meter.unit_words import unit_of, units_in
from generator.intake.meter.words import is_clock_name, is_elapsed_name
from generator.intake.meter.zones import offset_in, seconds_of
from generator.records.units import TIME

_HOURS = re.compile(r"\bh{1,2}:m{2}(?!:s)", re.IGNORECASE)
_MINUTES = re.compile(r"(?<!h:)\bm{1,2}:s{2}", re.IGNORECASE)
_MAP = '--map "{}=time"'


@dataclass(frozen=True)
class Clock:
    """The time of each row, before falls and repeats are looked at.

    Attributes:
        kind: What the column tells.
        places: The columns it was read from, from 0.
        seconds: Since the first day of the calendar, midnight, or a start of the file's own; of UTC where
            the offset is said.
        resolution: The smallest step that the stamps can tell, in seconds.
        order: How the dates were read.
        offset: Seconds east of UTC, where it is the same for all rows.
        shape: How the stamps are written; None for numbers.
        one: What one step of a column of numbers is worth, in seconds.
    """

    kind: TimeKind
    places: tuple[int, ...]
    seconds: tuple[Decimal, ...] = field(repr=False)
    resolution: Decimal
    order: Order | None = None
    offset: int | None = None
    shape: Shape | None = None
    one: Decimal = Decimal(1)

    @property
    def place(self) -> int:
        """The column that a message points to."""
        return self.places[-1]


def clock_of(block: Block, layout: Layout, hints: Hints, sign: Sign) -> Clock | None:
    """The time of each row; None where no column tells it.

    Raises:
        Unreadable: Several columns may be the time, a row is written in another way than those above it,
            or it is not said how a stamp or a number is to be read.
    """
    times = layout.places("time")
    asked = tuple(place for place in times if layout.mapped.get(place) == "time")
    stamped = tuple(place for place in times if stamp_of(layout.cells[place][0]))
    if asked and not set(asked) & set(stamped):
        return _numbers(block, layout, _only(block, layout, asked), hints, sign)
    if stamped:
        return _stamps(block, layout, _chosen(block, layout, stamped, asked), hints)
    return _numbers(block, layout, _only(block, layout, times), hints, sign) if times else None


def _only(block: Block, layout: Layout, places: Sequence[int]) -> int:
    if len(places) > 1:
        told = tuple(_MAP.format(layout.names[place] or place + 1) for place in places)
        raise block.refuse(block.header, places[1], "several columns may be the time", told)
    return places[0]


def _chosen(block: Block, layout: Layout, stamped: Sequence[int], asked: Sequence[int]) -> tuple[int, ...]:
    """The columns of stamps that tell the time: one, or a date and a time of day."""
    shapes = {place: stamp.shape for place in stamped if (stamp := stamp_of(layout.cells[place][0]))}
    whole = [place for place in stamped if shapes[place].date and shapes[place].clock]
    dates = [place for place in stamped if not shapes[place].clock]
    clocks = [place for place in stamped if not shapes[place].date]
    if asked:
        whole = [place for place in asked if place in whole]
        clocks = [place for place in asked if place in clocks]
    if whole:
        return (_only(block, layout, whole),)
    if clocks and dates:
        clocks = [place for place in clocks if not is_elapsed_name(layout.names[place])] or clocks
    if not clocks:
        raise block.refuse(block.rows[0], dates[0], "a date without the time of day")
    clock = _only(block, layout, clocks)
    return (_only(block, layout, dates), clock) if dates else (clock,)


def _stamps(block: Block, layout: Layout, places: tuple[int, ...], hints: Hints) -> Clock:
    read = [_column(block, layout, place) for place in places]
    clock = read[-1]
    shape = clock[0].shape
    seconds = [stamp.seconds + _beside(layout, line) for line, stamp in enumerate(clock)]
    resolution = _resolution(clock, layout)
    if not read[0][0].shape.date:
        kind, size = _undated(block, layout, places[0], shape, hints=hints, seconds=seconds)
        return Clock(kind, places, tuple(each / size for each in seconds), resolution / size, shape=shape)
    order = order_of(block, places[0], read[0], hints.date_order)
    late = next((line for line, each in enumerate(seconds) if each > 86400), None)
    if late is not None:
        raise block.refuse(block.rows[late], places[-1], "there is no such time of day")
    days = [day_of(stamp.parts, order.order) for stamp in read[0]]
    told = [seconds_of(day.toordinal(), each) for day, each in zip(days, seconds, strict=True) if day]
    if shape.offset:
        offsets = {stamp.offset for stamp in clock}
        one = offsets.pop() if len(offsets) == 1 else None
        told = [each - (stamp.offset or 0) for each, stamp in zip(told, clock, strict=True)]
        return Clock("fixed offset", places, tuple(told), resolution, order, one or 0, shape)
    try:
        named = next((east for place in places if (east := offset_in(layout.names[place])) is not None), None)
    except ValueError:
        raise block.refuse(block.header, places[0], "no clock is that far from UTC") from None
    if named is None:
        return Clock("clock", places, tuple(told), resolution, order, None, shape)
    return Clock(
        "fixed offset", places, tuple(each - named for each in told), resolution, order, named, shape
    )


def _column(block: Block, layout: Layout, place: int) -> list[Stamp]:
    """The stamps of a column, all of one shape.

    Raises:
        Unreadable: One is written in another way than the first.
    """
    found: list[Stamp] = []
    for line, cell in enumerate(layout.cells[place]):
        stamp = stamp_of(cell)
        if stamp is None or (found and stamp.shape != found[0].shape):
            what = f"the time is written in another way than '{layout.cells[place][0]}' in the first row"
            raise block.refuse(block.rows[line], place, what)
        found.append(stamp)
    return found


def _beside(layout: Layout, line: int) -> Decimal:
    places = layout.places("milliseconds")
    return Decimal(layout.cells[places[0]][line] or 0) / 1000 if len(places) == 1 else Decimal(0)


def _resolution(stamps: Sequence[Stamp], layout: Layout) -> Decimal:
    if any(cell.strip("0") for place in layout.places("milliseconds") for cell in layout.cells[place]):
        return Decimal("0.001")
    if stamps[0].shape.clock == 2:
        return Decimal(60)
    finest = min(int(stamp.seconds.as_tuple().exponent) for stamp in stamps)
    return Decimal(1).scaleb(min(finest, 0))


def _undated(
    block: Block,
    layout: Layout,
    place: int,
    shape: Shape,
    *,
    hints: Hints,
    seconds: Sequence[Decimal],
) -> tuple[TimeKind, int]:
    """What a time without a date tells, and what its parts as hours and minutes are to be divided by.

    Raises:
        Unreadable: `5:30` may be hours and minutes or minutes and seconds.
    """
    name = " ".join(
        (layout.names[place], *(row.cells[place] for row in block.labels if place < len(row.cells)))
    )
    clock = hints.run_date is not None or is_clock_name(name) or shape.half
    hours = clock or hints.time_unit in {"h", "hours"} or bool(_HOURS.search(name))
    minutes = hints.time_unit in {"min", "minutes"} or bool(_MINUTES.search(name))
    if shape.clock == 2 and hours == minutes:
        what = "may be hours and minutes or minutes and seconds"
        told = ("--run-date 2026-03-08 (a time of day)", "--time-unit h", "--time-unit min")
        raise block.refuse(block.rows[0], place, what, told)
    counts_on = any(each > 86400 for each in seconds)
    if clock and counts_on:
        line = next(line for line, each in enumerate(seconds) if each > 86400)
        raise block.refuse(block.rows[line], place, "there is no such time of day")
    elapsed = counts_on or seconds[0] == 0 or is_elapsed_name(name) or hints.time_unit is not None
    kind: TimeKind = "elapsed" if elapsed and not clock else "clock without date"
    return kind, 60 if shape.clock == 2 and minutes else 1


def _numbers(block: Block, layout: Layout, place: int, hints: Hints, sign: Sign) -> Clock:
    """A column of plain numbers.

    Raises:
        Unreadable: Its unit is not said, or said twice and differently, or a cell is no number.
    """
    name = layout.names[place]
    said = {
        unit
        for unit in (*units_in(name), unit_of(layout.label_units[place]))
        if unit and unit.quantity == TIME
    }
    bare = unit_of(name.strip())
    if not said and bare and bare.quantity == TIME:
        said = {bare}
    hinted = (
        unit_of(hints.time_unit or layout.units.get(place, ""))
        if hints.time_unit or place in layout.units
        else None
    )
    if hinted is not None:
        said.add(hinted)
    unit = said.pop() if len(said) == 1 else None
    if unit is None or unit.quantity != TIME:
        what = (
            "the file and the hint say two units of time"
            if said
            else f"nothing says the unit of the time '{name}'"
        )
        raise block.refuse(block.header, place, what, ("--time-unit s", "--time-unit min"))
    told: list[Decimal] = []
    one = Decimal(int(unit.times)) / Decimal(int(unit.over))
    for line, cell in enumerate(layout.cells[place]):
        number = digits(cell, sign)
        if number is None:
            raise block.refuse(block.rows[line], place, "a time is missing or is no number")
        told.append(Decimal(number) * one)
    finest = min(int(each.normalize().as_tuple().exponent) for each in told)
    return Clock("elapsed", (place,), tuple(told), Decimal(1).scaleb(min(finest, 0)), one=one)
