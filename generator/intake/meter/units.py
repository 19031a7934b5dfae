"""The unit of each column of readings: by its name, the row below, cells or a hint; never two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.intake.meter.find import Block
from generator.intake.meter.kinds import kind_of, quantity_of
from generator.intake.meter.layout import Layout
from generator.intake.meter.unit_words import unit_by_hint, unit_of, units_in
from generator.records.units import Unit


@dataclass(frozen=True)
class UnitOfColumn:
    """What the numbers of one column are in.

    Attributes:
        unit: The unit; None where nothing says it.
        rows: The unit of each row, where cells say it; None where the column has one for all.
        moved: By how many places the point of each number moves to the left.
    """

    unit: Unit | None
    rows: tuple[Unit | None, ...] | None = None
    moved: int = 0


def unit_of_column(block: Block, layout: Layout, place: int) -> UnitOfColumn:
    """The unit of one column.

    Raises:
        Unreadable: Its name, the row below, its cells and the hint do not agree; a cell's unit is not known.
    """
    name = layout.names[place]
    said = list(units_in(name))
    if below := unit_of(layout.label_units[place]):
        said.append(below)
    if len(set(said)) > 1:
        told = " and ".join(f"'{unit.typed}'" for unit in dict.fromkeys(said))
        raise block.refuse(block.header, place, f"the column '{name}' says two units, {told}")
    rows = _by_row(block, layout, place)
    moved = 0
    if place in layout.units:
        unit, moved = unit_by_hint(name, layout.units[place])
        _agree(block, place, said, unit)
        said = [unit]
    if rows is None:
        return UnitOfColumn(said[0] if said else None, None, moved)
    known = [unit for unit in rows if unit is not None]
    if said:
        wrong = next((line for line, unit in enumerate(rows) if unit not in {None, said[0]}), None)
        if wrong is not None:
            what = f"the unit of this cell is not that of its column, '{said[0].typed}'"
            raise block.refuse(block.rows[wrong], place, what)
        return UnitOfColumn(said[0], None, moved)
    first = known[0] if known else None
    if set(known) == {first}:
        return UnitOfColumn(first, None, moved)
    other = next(
        (line for line, unit in enumerate(rows) if unit and first and unit.quantity != first.quantity), None
    )
    if other is not None:
        raise block.refuse(block.rows[other], place, f"the column '{name}' holds two quantities")
    return UnitOfColumn(first, rows, moved)


def _agree(block: Block, place: int, said: Sequence[Unit], hinted: Unit) -> None:
    if said and said[0] != hinted:
        name = block.names[place]
        what = f"the file says '{said[0].typed}' for '{name}', the hint '{hinted.typed}'"
        raise block.refuse(block.header, place, what, (f'leave --unit "{name}=…" out',))


def _by_row(block: Block, layout: Layout, place: int) -> tuple[Unit | None, ...] | None:
    """The units that a column of units, or the cells themselves, say; None where neither does.

    Raises:
        Unreadable: Some numbers of the column have a unit behind them and others none, or both it and the
            column behind it say one.
    """
    cells = layout.cells[place]
    parts = [quantity_of(cell) if kind_of(cell) == "quantity" else None for cell in cells]
    own = tuple(unit_of(part[1]) if part else None for part in parts)
    if any(own):
        bare = {kind_of(cell) for cell in cells} & {"number", "bound"}
        line = next(line for line, unit in enumerate(own) if unit)
        if bare:
            raise block.refuse(
                block.rows[line], place, "some numbers of this column have a unit, others none"
            )
        if layout.unit_cells(place) is not None:
            raise block.refuse(block.rows[line], place, "the unit is said twice, here and in the next column")
        return own
    behind = layout.unit_cells(place)
    if behind is None:
        return None
    for line, (cell, unit) in enumerate(zip(cells, behind, strict=True)):
        if not unit and kind_of(cell) in {"number", "bound"}:
            raise block.refuse(block.rows[line], place + 1, "the unit of this number is missing")
    return tuple(unit_of(cell) if cell else None for cell in behind)
