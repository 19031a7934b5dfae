"""The one table of a file, among the ways to part its lines and the places where a table may begin."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from generator.intake.meter.find import Block, blocks, keys_of
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
            grid = grid_of(lines, sign)
            grids.append(grid)
            found += blocks(grid, hints)
        except Unreadable as error:
            refused.append(error)
    if refused:
        raise refused[0]
    return _one(found, grids, hints)


def table_in(grid: Grid, hints: Hints) -> Block:
    """The table of a sheet.

    Raises:
        Unreadable: There is none, or there are several.
    """
    return _one(blocks(grid, hints), [grid], hints)


def _one(found: Sequence[Block], grids: Sequence[Grid], hints: Hints) -> Block:
    timed = [block for block in found if block.timed or "time" in hints.columns.values()]
    counted = [] if timed else [each for each in found if hints.interval_s or _interval(each)]
    fitting = timed or counted
    if len(fitting) == 1:
        return fitting[0]
    if not fitting:
        raise _none(found, grids, hints)
    signs = {block.grid.delimiter for block in fitting}
    if len(signs) > 1:
        settles = tuple(f"--delimiter {_NAMES.get(sign, sign)}" for sign in sorted(signs))
        raise Unreadable(
            [Problem(0, 0, "", "the lines can be parted into cells in more than one way", None, settles)]
        )
    block = fitting[1]
    what = f"a table may begin on line {fitting[0].header.line} or here"
    settles = tuple(f'--map "{name}=…"' for each in fitting for name in each.names if name)[:8]
    raise block.refuse(block.header, -1, what, settles)


def _interval(block: Block) -> bool:
    return "interval" in dict(settings(block.before, "."))


def _none(found: Sequence[Block], grids: Sequence[Grid], hints: Hints) -> Unreadable:
    if found:
        block = found[0]
        names = tuple(name for name in block.names if name)
        what = f"no column tells the time; there are {', '.join(names)}"
        settles = ("--interval 10 s", *(f'--map "{name}=time"' for name in names[:5]))
        return block.refuse(block.header, -1, what, settles)
    keys = keys_of(hints)
    if keys:
        bare = replace(hints, columns={}, units={}, by=None)
        for grid in grids:
            for block in blocks(grid, bare):
                names = tuple(f"'{name}'" for name in block.names if name)
                wanted = ", ".join(f"'{key}'" for key in keys)
                what = f"the table has not all of the columns {wanted}; there are {', '.join(names)}"
                return block.refuse(block.header, -1, what)
    what = "no table: no line of names with rows of times and numbers below it"
    if keys:
        what = f"no line names the columns {', '.join(f'{key!r}' for key in keys)} above rows of numbers"
    return Unreadable([Problem(0, 0, "", what, None, ('--map "NAME=quantity"', "--delimiter", "--sheet"))])
