"""Cells of a column → digits as written, and what stands where there is no reading."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

from generator.intake.meter.find import Block
from generator.intake.meter.grid import cell_name
from generator.intake.meter.kinds import kind_of, quantity_of
from generator.intake.meter.layout import Layout
from generator.intake.meter.marks import Mark, beyond, bound_of, mark_of
from generator.intake.meter.numbers import Sign, digits
from generator.intake.meter.series import MeterWarning, NotReading
from generator.intake.meter.units import UnitOfColumn, unit_of_column
from generator.records.units import TEMPERATURE, Unit

_ABSOLUTE_ZERO = -273.15
_FINER = 2
"""Digits that a converted value has beyond those of the one written."""


@dataclass(frozen=True)
class Signs:
    """The decimal signs of a table: of its numbers, and of a workbook's cells that are text."""

    numbers: Sign
    texts: Sign


@dataclass(frozen=True)
class Read:
    """One column as read.

    Attributes:
        place: The column, from 0.
        unit: Its unit.
        values: The digits of each row, or None.
        marks: What stands in the place of a reading, by row from 0.
        warnings: What should be told.
    """

    place: int
    unit: Unit | None
    values: tuple[str | None, ...] = field(repr=False)
    marks: Mapping[int, Mark]
    warnings: tuple[MeterWarning, ...] = ()


def read_column(block: Block, layout: Layout, place: int, signs: Signs, wanted: Mapping[int, str]) -> Read:
    """Read one column.

    Args:
        block: The table.
        layout: What its columns hold.
        place: The column, from 0.
        signs: The decimal signs.
        wanted: The columns that a person asked for; where they asked for none, every one is wanted.

    Raises:
        Unreadable: A cell of a wanted column is neither a number nor known to stand for none; the unit of a
            column that was asked for is not said.
    """
    said = unit_of_column(block, layout, place)
    name = layout.names[place]
    if said.unit is None and place in wanted:
        what = f"nothing says the unit of the column '{name}'"
        raise block.refuse(block.header, place, what, (f'--unit "{name}=degC"', f'--unit "{name}=mV"'))
    values: list[str | None] = []
    marks: dict[int, Mark] = {}
    strict = not wanted or place in wanted
    for line, cell in enumerate(layout.cells[place]):
        sign = signs.texts if (block.rows[line].line, place) in block.grid.texts else signs.numbers
        value, mark = _cell(cell, sign)
        if mark is None and value is None:
            if strict:
                raise block.refuse(
                    block.rows[line], place, f"'{cell}' is neither a number nor a known mark for none"
                )
            mark = Mark("not understood")
        if mark is not None and mark.means == "formula without a stored value" and place in wanted:
            what = f"the column '{name}' holds formulas without values; save it from a spreadsheet"
            raise block.refuse(block.rows[line], place, what)
        if value is not None:
            value, mark = _scaled(block, line, place, value, said)
        values.append(value)
        if mark is not None:
            marks[line] = mark
    return Read(place, said.unit, tuple(values), marks, _told(block, layout, place, said))


def _cell(cell: str, sign: Sign) -> tuple[str | None, Mark | None]:
    """Digits, or what the cell means instead; neither where it is not understood."""
    value = digits(cell, sign)
    if value is None and (parts := quantity_of(cell)):
        value = digits(parts[0], sign)
    if value is not None:
        mark = beyond(value)
        return (None, mark) if mark else (value, None)
    return None, mark_of(cell) or (bound_of(cell, sign) if kind_of(cell) == "bound" else None)


def _scaled(
    block: Block, line: int, place: int, value: str, said: UnitOfColumn
) -> tuple[str | None, Mark | None]:
    """The digits in the column's unit.

    Raises:
        Unreadable: Whole tenths are expected, by the hint, and the number is not whole.
    """
    if said.moved:
        if not value.lstrip("+-").isdecimal():
            what = "the hint says that whole numbers count parts of the unit; this one is not whole"
            raise block.refuse(block.rows[line], place, what)
        value = f"{Decimal(value).scaleb(-said.moved):f}"
    own = said.rows[line] if said.rows else said.unit
    if own is not None and own.quantity == TEMPERATURE and own.to_si(float(value)) < _ABSOLUTE_ZERO - 1e-9:
        return None, Mark("below absolute zero")
    if said.rows and own and said.unit and own != said.unit:
        return converted(value, own, said.unit), None
    return value, None


def converted(value: str, own: Unit, to: Unit) -> str:
    """Digits in another unit of the same quantity, with two digits more than were written.

    Exact before rounding: the factors are ratios of whole numbers but for inches and pounds.
    """
    number = Decimal(value)
    si = (Fraction(number) - Fraction(own.offset)) * Fraction(own.times) / Fraction(own.over)
    there = si * Fraction(to.over) / Fraction(to.times) + Fraction(to.offset)
    exponent = number.as_tuple().exponent
    places = max(-int(exponent), 0) + _FINER
    exact = Decimal(there.numerator) / Decimal(there.denominator)
    return f"{exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN):f}"


def _told(block: Block, layout: Layout, place: int, said: UnitOfColumn) -> tuple[MeterWarning, ...]:
    name, warnings = layout.names[place], []
    texts = [
        row
        for row in block.rows
        if (row.line, place) in block.grid.texts and kind_of(row.cells[place]) == "number"
    ]
    if texts:
        cells = tuple(cell_name(row.line, place) for row in texts[:9])
        lines = tuple(row.line for row in texts[:9])
        warnings.append(MeterWarning("text in a cell", (name,), lines, len(texts), cells))
    if said.rows:
        changed = [
            row.line for row, unit in zip(block.rows, said.rows, strict=True) if unit and unit != said.unit
        ]
        units = tuple(dict.fromkeys(unit.typed for unit in said.rows if unit))
        warnings.append(MeterWarning("unit changes", (name,), tuple(changed[:9]), len(changed), units))
    return tuple(warnings)


def not_readings(
    reads: Sequence[Read], block: Block, layout: Layout, rows: Sequence[int]
) -> list[NotReading]:
    """What stands in the place of readings, by column; one for a column that has the same in every row.

    Args:
        reads: The columns.
        block: The table.
        layout: What its columns hold.
        rows: The rows, from 0, that are readings at all.
    """
    found = []
    for read in reads:
        name, cells = layout.names[read.place], layout.cells[read.place]
        marked = [line for line in rows if line in read.marks]
        tokens = {(cells[line], read.marks[line]) for line in marked}
        if len(marked) == len(rows) > 1 and len(tokens) == 1:
            token, mark = tokens.pop()
            found.append(NotReading(None, name, token, mark.means, mark.bound, mark.limit))
            continue
        found += [
            NotReading(block.rows[line].line, name, cells[line], mark.means, mark.bound, mark.limit)
            for line in marked
            for mark in (read.marks[line],)
        ]
    return found
