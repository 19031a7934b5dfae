"""The one table of a file, among the ways to part its lines and the places where a table may begin."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from generator.intake.meter.ends import closed, miscounted, unlike
from generator.intake.meter.find import DEEPEST, Block, blocks, heads, keys_of
from generator.intake.meter.grid import Grid, grid_of
from generator.intake.meter.hints import Hints
from generator.intake.meter.preamble import settings
from generator.intake.meter.series import Problem, Unreadable

_NAMES = {"\t": "tab", ",": "comma", ";": "semicolon", "|": "pipe", " ": "space"}


def table_of(lines: Sequence[str], signs: Iterable[str], hints: Hints) -> Block:
    """The table of a text.

    Args:
        lines: The lines as written.
        signs: What may part its cells.
        hints: What a person says.

    Raises:
        Unreadable: There is no table, or several, or its rows can be parted in several ways.
    """
    found: list[Block] = []
    refused: list[Unreadable] = []
    grids = []
    for sign in signs:
        try:
            grids.append(grid_of(lines, sign))
        except Unreadable as error:
            refused.append(error)
    for grid in grids:
        found += blocks(grid, hints)
    # A quote that is odd by one sign is as it should be by another, where that gives a table.
    if refused and not _fitting(found, hints):
        raise refused[0]
    return _one(found, grids, hints)


def table_in(grid: Grid, hints: Hints) -> Block:
    """The table of a sheet.

    Raises:
        Unreadable: There is none, or there are several.
    """
    return _one(blocks(grid, hints), [grid], hints)


def _fitting(found: Sequence[Block], hints: Hints) -> list[Block]:
    """The tables that tell the time; else those of which rows can be counted by an interval."""
    timed = [block for block in found if block.timed or "time" in hints.columns.values()]
    return timed or [block for block in found if hints.interval_s or _interval(block)]


def _one(found: Sequence[Block], grids: Sequence[Grid], hints: Hints) -> Block:
    fitting = _fitting(found, hints)
    if len(fitting) == 1:
        return closed(fitting[0])
    if not fitting:
        raise _none(found, grids, hints)
    signs = {block.grid.delimiter for block in fitting}
    if len(signs) > 1:
        settles = tuple(f"--delimiter {_NAMES.get(sign, sign)}" for sign in sorted(signs))
        what = "the lines can be parted into cells in more than one way"
        raise Unreadable([Problem(0, 0, "", what, None, settles)])
    what = f"a table may begin on line {fitting[0].header.line} or here"
    settles = tuple(f'--map "{name}=…"' for each in fitting for name in each.names if name)[:8]
    raise fitting[1].refuse(fitting[1].header, -1, what, settles)


def _interval(block: Block) -> bool:
    return "interval" in dict(settings(block.before, "."))


def _none(found: Sequence[Block], grids: Sequence[Grid], hints: Hints) -> Unreadable:
    if found:
        block = found[0]
        names = tuple(name for name in block.names if name)
        what = f"no column tells the time; there are {', '.join(names)}"
        settles = ("--interval 10 s", *(f'--map "{name}=time"' for name in names[:5]))
        return block.refuse(block.header, -1, what, settles)
    for grid in grids:
        for head in grid.rows[:DEEPEST]:
            if not head.blank and heads(head, hints) and (row := unlike(grid.rows, head)):
                return grid.refuse(row, -1, miscounted(row, head))
    return _no_names(grids, hints)


def _no_names(grids: Sequence[Grid], hints: Hints) -> Unreadable:
    keys = keys_of(hints)
    wanted = ", ".join(f"'{key}'" for key in keys)
    bare = replace(hints, columns={}, units={}, by=None)
    for block in (block for grid in grids for block in blocks(grid, bare) if keys and block.timed):
        names = ", ".join(f"'{name}'" for name in block.names if name)
        return block.refuse(block.header, -1, f"the table has not all of {wanted}; there are {names}")
    what = "no table: no line of names with rows of times and numbers below it"
    if keys:
        what = f"no line names the columns {wanted} above rows of numbers"
    return Unreadable([Problem(0, 0, "", what, None, ('--map "NAME=quantity"', "--delimiter", "--sheet"))])
