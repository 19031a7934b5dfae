"""Rows for a record out of a file's columns: digits as written, bounds where the meter was over its range."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from decimal import Decimal

from generator.intake.importing.bind import Pair
from generator.intake.importing.refusals import Refused
from generator.intake.importing.sheet import Row
from generator.intake.meter.series import MeterFile, NotReading
from generator.records.library import Library
from generator.records.schema.instrument import InstrumentRange


def rows_of(file: MeterFile, pairs: Sequence[Pair], library: Library) -> tuple[Row, ...]:
    """The rows that a file gives, with the columns that were said.

    Args:
        file: The file as read.
        pairs: Which of its columns go where.
        library: Where the meters and their ranges are.

    Raises:
        Refused: A reading was over a range whose end neither the file nor the meter's record says.
    """
    if len(set(file.elapsed_s)) < len(file.elapsed_s):
        raise AssertionError("two readings of one time")
    cells: list[dict[str, str]] = [{} for _ in file.elapsed_s]
    for pair in pairs:
        for number, text in enumerate(pair.column.values):
            if text is not None:
                cells[number][pair.slot.label] = text
        for number, text in _bounds(file, pair, library):
            cells[number][pair.slot.label] = text
    return tuple(Row(when, read) for when, read in zip(file.elapsed_s, cells, strict=True))


def _bounds(file: MeterFile, pair: Pair, library: Library) -> Iterator[tuple[int, str]]:
    for each in file.not_readings:
        if each.column != pair.column.name or not each.bound:
            continue
        limit = each.limit or _end(each, pair, library)
        if each.line is None:
            yield from ((number, f"{each.bound}{limit}") for number in range(len(file.lines)))
        else:
            yield max(bisect_right(file.lines, each.line) - 1, 0), f"{each.bound}{limit}"


def _end(found: NotReading, pair: Pair, library: Library) -> str:
    """The end of the range that was left, in the unit of the column, as far as the meter's record tells.

    Of several ranges the nearest that holds every reading of the column: the true one lies there or beyond.
    """
    meter = pair.slot.binding.instrument
    unit = pair.head.unit
    read = [unit.to_si(float(text)) for text in pair.column.values if text is not None]
    ends = list(_ends(library.instruments[meter].range_of(unit.quantity), found.bound))
    if found.bound == ">":
        able = sorted(each for each in ends if each >= max(read, default=each))
    else:
        able = sorted((each for each in ends if each <= min(read, default=each)), reverse=True)
    if able:
        return f"{Decimal(f'{unit.from_si(able[0]):.9g}').normalize() + 0:f}"
    side = "over" if found.bound == ">" else "under"
    what = (
        f"line {found.line or pair.column.line}: '{pair.column.name}' was {side} its range ({found.token}), "
        f"and neither the file nor {meter}.yml says where that ends"
    )
    raise Refused(what, (f"write the range in reports/instruments/{meter}.yml",))


def _ends(ranges: Sequence[InstrumentRange], bound: str) -> Iterator[float]:
    for each in ranges:
        if bound == ">":
            yield each.to.si
        elif each.from_ is not None:
            yield each.from_.si
