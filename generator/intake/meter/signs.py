"""The decimal sign of a table, settled by all of its numbers together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.intake.meter.find import Block
from generator.intake.meter.hints import DecimalSign
from generator.intake.meter.kinds import kind_of, quantity_of
from generator.intake.meter.layout import Layout
from generator.intake.meter.numbers import Sign, digits, reads_as, sign_of

_SAYS = ("--decimal point", "--decimal comma")


def decimal_sign(block: Block, layout: Layout, hint: DecimalSign | None) -> Sign:
    """The sign that parts the whole digits from the rest in a text file, or in the numbers of a workbook.

    Raises:
        Unreadable: The file uses both, or a number reads two ways and nothing in the file settles which.
    """
    if not block.grid.lines:
        return "."
    return _settled(block, _numbers(layout), block.grid.delimiter, hint)


def text_sign(block: Block, layout: Layout, hint: DecimalSign | None) -> Sign:
    """The sign in those cells of a workbook that are text, which its numbers say nothing about.

    Raises:
        Unreadable: As for `decimal_sign`.
    """
    texts = [
        (
            place,
            [
                cell if (row.line, place) in block.grid.texts else ""
                for row, cell in zip(block.rows, column, strict=True)
            ],
        )
        for place, column in enumerate(layout.cells)
    ]
    chosen = [(place, column) for place, column in texts if layout.roles[place] in {"reading", "time"}]
    return _settled(block, chosen, "", hint)


def _numbers(layout: Layout) -> list[tuple[int, Sequence[str]]]:
    wanted = {"reading", "time", "samples"}
    return [(place, layout.cells[place]) for place, role in enumerate(layout.roles) if role in wanted]


def _bare(cell: str) -> str:
    kind = kind_of(cell)
    if kind == "number":
        return cell
    if kind == "quantity" and (parts := quantity_of(cell)):
        return parts[0]
    return cell.lstrip("><=≥≤ ") if kind == "bound" else ""


def _settled(
    block: Block,
    columns: Sequence[tuple[int, Sequence[str]]],
    delimiter: str,
    hint: DecimalSign | None,
) -> Sign:
    distinct = {_bare(cell) for _, column in columns for cell in set(column)} - {""}
    kinds = {cell: reads_as(cell) for cell in distinct}
    sign = sign_of(kinds.values(), delimiter, hint)
    either = hint or ("comma" if "comma" in kinds.values() else "point")
    for line, place, cell in _cells(block, columns):
        reads = kinds.get(_bare(cell), "whole")
        if sign is None and reads == ("point" if either == "comma" else "comma"):
            other = "point" if either == "comma" else "comma"
            what = f"a decimal {other} in a file of decimal {either}s"
            raise block.refuse(block.rows[line], place, what, () if hint is None else (f"--decimal {other}",))
        if reads == "either" and (sign is None or digits(_bare(cell), sign) is None):
            told = _bare(cell).replace(",", ".")
            what = f"may be {told} or {told.replace('.', '')}"
            raise block.refuse(block.rows[line], place, what, _SAYS if hint is None and sign is None else ())
    return sign or "."


def _cells(block: Block, columns: Sequence[tuple[int, Sequence[str]]]) -> Iterator[tuple[int, int, str]]:
    for line in range(len(block.rows)):
        for place, column in columns:
            yield line, place, column[line]
