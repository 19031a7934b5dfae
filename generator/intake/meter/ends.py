"""Where a table ends: a last row that was cut off, what is left over, and what must not be left over."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from generator.intake.meter.find import Block, counts
from generator.intake.meter.grid import Row
from generator.intake.meter.kinds import VALUES, kind_of
from generator.intake.meter.series import Unreadable

_COUNTED = re.compile(r"\d+ [^\W\d_]{3,}.*")
"""`6 records`: a footer, though it begins with a digit."""


def closed(block: Block) -> Block:
    """The table without a last row that was cut off.

    Raises:
        Unreadable: A row behind the table is like those of the table; nothing is left.
    """
    if not _whole(block):
        if len(block.rows) == 1:
            raise block.refuse(block.rows[0], -1, "the only row of the table is cut off")
        return replace(block, rows=block.rows[:-1], cut=block.rows[-1])
    cut = _cut(block)
    return replace(block, cut=cut, after=tuple(row for row in block.after if row is not cut))


def _whole(block: Block) -> bool:
    """Whether the last row is plainly not cut off.

    A line end, a closed quote or a delimiter follows its last cell, or it has as many decimals as all above.
    """
    row, wide = block.rows[-1], block.header.filled
    if row.ended or not block.grid.lines:
        return True
    count = len(row.cells)
    if count > wide > 0 and row.filled <= wide:
        return True
    if block.grid.lines[row.line - 1].endswith('"') and count >= wide:
        return True
    above = [other.cells[count - 1] for other in block.rows[:-1] if len(other.cells) >= count]
    last = row.cells[-1]
    if kind_of(last) == "unit":
        return set(above) == {last}
    form = _form(last)
    return form is not None and len(above) >= 3 and all(_form(cell) == form for cell in above)


def _form(cell: str) -> tuple[int, int] | None:
    """How many decimals a number has, and how long its exponent is; None where it has no decimals."""
    number, _, exponent = cell.lower().partition("e")
    after = re.fullmatch(r"[+-]?\d*[.,](\d+)", number, re.ASCII)
    return (len(after[1]), len(exponent)) if after else None


def _cut(block: Block) -> Row | None:
    """The last row, if it began as one of the table's and breaks off.

    Raises:
        Unreadable: Another row behind the table is like those of the table.
    """
    left = [row for row in block.after if not row.blank]
    for row in left:
        if not _resembles(row, block):
            continue
        if row is left[-1] and not row.ended:
            return row
        raise _refused(block, left[0], row)
    return None


def _resembles(row: Row, block: Block) -> bool:
    """Whether a row that does not fit may be one of the table's all the same, or begin the table anew."""
    key = block.keys[0]
    if row.broken or row.cells == block.header.cells:
        return True
    if not row.ended and row.filled <= 1:
        return row.cells[0][:1].isdigit()
    if key >= len(row.cells):
        return kind_of(row.cells[0]) == "stamp"
    cell = row.cells[key]
    if not cell:
        return any(kind_of(each) in VALUES for each in row.cells)
    if row.filled == 1 and _COUNTED.fullmatch(cell):
        return False
    return cell[0].isdigit() or (not block.stamped and cell[0] in "+-.,>" and len(row.cells) > 1)


def _refused(block: Block, first: Row, row: Row) -> Unreadable:
    if first is not row:
        what = f"this line does not fit the table, and rows of it follow on line {row.line}"
        return block.refuse(first, -1, what)
    if not counts(row, block.header):
        return block.refuse(row, -1, miscounted(row, block.header))
    if row.cells == block.header.cells:
        return block.refuse(row, -1, "the header is there a second time; import the parts one by one")
    bad = next(
        (
            place
            for place in block.keys
            if kind_of("".join(row.cells[place : place + 1])) not in VALUES | {"stamp"}
        ),
        block.keys[0],
    )
    return block.refuse(
        row, bad, f"{'a time as in the rows above' if block.stamped else 'a number'} is expected here"
    )


def miscounted(row: Row, head: Row) -> str:
    """What to say of a row with more or fewer cells than the header."""
    count, wanted = len(row.cells), head.filled
    what = f"this row has {count} cell{'' if count == 1 else 's'}, the header {wanted}"
    if row.filled > wanted and not any("." in cell for cell in row.cells):
        what += "; decimal commas between commas? such a file cannot be told apart"
    return what


def unlike(rows: Sequence[Row], head: Row) -> Row | None:
    """The row below a header, where it is one of data but for the number of its cells."""
    row = next((row for row in rows if row.line > head.line and not row.blank), None)
    if row is None or counts(row, head):
        return None
    kinds = [kind_of(cell) for cell in row.cells]
    return row if kinds.count("number") + kinds.count("stamp") > len(kinds) // 2 else None
