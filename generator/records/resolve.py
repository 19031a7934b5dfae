"""From a sound draft to the run that the evaluation sees."""

from __future__ import annotations

from dataclasses import replace

from generator.fault import Place
from generator.records.cells import Cell
from generator.records.conditions import AMBIENT, Conditions, read_conditions, read_values
from generator.records.drafts import BoundColumn, Draft, column_key, of_owner
from generator.records.header import Head
from generator.records.library import Library
from generator.records.quantity import Quantity
from generator.records.run import AmbientMode, Run, Use, ZeroReading
from generator.records.schema.method import Method
from generator.records.table import Column, Table


def resolve(draft: Draft, method: Method, library: Library) -> Run:
    """Make the run of a draft that has passed every rule.

    Args:
        draft: The run as the record has it.
        method: The version of the method that it names.
        library: Where its instruments are.
    """
    body, conditions = draft.body, read_conditions(draft, method)
    table, (mode, air) = _aired(draft, conditions)
    return replace(
        _whose(draft, method),
        termination=body.termination,
        heating=body.heating,
        lead=body.lead,
        uses={column: use_of(bound, library) for column, bound in draft.bound.items()},
        conditions=conditions.said,
        ambient_mode=mode,
        ambient=air,
        readings=table,
        values=read_values(draft, method)[0],
        counts=body.counts,
        events=body.events,
        stopped=body.stopped,
        observations=body.observations,
        opinions=body.opinions,
        deviations=body.deviations,
        additions=body.additions,
        made_by=body.made_by or "",
        zero_check=_zero(draft),
        infrared=body.infrared,
        corrections=draft.corrections,
    )


def _whose(draft: Draft, method: Method) -> Run:
    """Which method, once, on which piece, on which day."""
    return Run(
        id=draft.id,
        source=draft.body.place_of(),
        method=method.id,
        version=method.version,
        date=draft.date,
        item=draft.item,
        specimen=draft.specimen,
        control=draft.control,
        place=draft.place,
        sitting=draft.sitting,
    )


def use_of(bound: BoundColumn, library: Library) -> Use:
    """What read a column: the channel's own probe, unless the run says another."""
    binding = bound.binding
    channels = library.instruments[binding.instrument].channels
    plugged = channels.get(binding.channel) if binding.channel else None
    return Use(binding.instrument, binding.channel, binding.probe or plugged)


def _aired(draft: Draft, conditions: Conditions) -> tuple[Table | None, tuple[AmbientMode, Quantity | None]]:
    """The readings with their air, and how that is said."""
    table = _with_air(draft.table, conditions) if draft.table else None
    return table, _air(table, conditions)


def _air(table: Table | None, conditions: Conditions) -> tuple[AmbientMode, Quantity | None]:
    """How the air is said, and the single value where it is one.

    A column that was read once is a single value, one with its first and last reading alone is two values;
    one in which nothing counts is none.
    """
    air = table.column(AMBIENT) if table else None
    if table is None or air is None or not table.counted(air):
        return conditions.mode, conditions.start if conditions.mode == "single value" else None
    read = [(row, cell) for row, cell in enumerate(air.cells) if cell is not None]
    if len(read) == 1 < len(air.cells):
        cell, unit = read[0][1], air.unit
        text = f"{cell.text} {unit.typed}"
        return "single value", Quantity(text, unit.from_si(cell.value), unit, cell.bound, cell.decimals)
    if len(air.cells) > 2 and [row for row, _ in read] == [0, len(air.cells) - 1]:
        return "start-end", None
    return "channel", None


def _with_air(table: Table, conditions: Conditions) -> Table:
    """The readings with a column for air that was said at start and end."""
    start, end = conditions.start, conditions.end
    if conditions.mode != "start-end" or start is None or end is None or table.column(AMBIENT):
        return table
    place = conditions.node.place if conditions.node is not None else table.row_places[0]
    cells: list[Cell | None] = [None] * table.rows
    cells[0], cells[-1] = _cell(start, place), _cell(end, place)
    column = Column(Head(AMBIENT, start.unit), place, tuple(cells))
    return replace(table, columns=(*table.columns, column))


def _cell(said: Quantity, place: Place) -> Cell:
    return Cell(said.text, said.si, said.bound, said.decimals, place)


def _zero(draft: Draft) -> ZeroReading | None:
    """The zero check as far as this run's own and shared columns were in it."""
    if draft.zero is None or draft.zero_table is None:
        return None
    table = of_owner(draft.zero_table, draft.owner)
    columns = tuple(column_key(column) for column in table.columns if column.name != "time")
    return ZeroReading(draft.zero.pairs, columns, table) if len(columns) > 1 else None
