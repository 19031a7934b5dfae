"""The decimal sign of a table, settled by all of its numbers together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.intake.meter.find import Block
from generator.intake.meter.hints import DecimalSign
from generator.intake.meter.kinds import kind_of, quantity_of
from generator.intake.meter.layout import Layout
from generator.intake.meter.numbers import Reads, Sign, digits, reads_as, sign_of

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
    if sign is not None and not any(_odd(cell, reads, sign) for cell, reads in kinds.items()):
        return sign
    told: Reads | None = hint
    for line, place, cell in _cells(block, columns):
        reads = kinds.get(_bare(cell), "whole")
        if reads in {"point", "comma"}:
            told = told or reads
            if reads != told:
                settles = () if hint is None else (f"--decimal {reads}",)
                what = f"a decimal {reads} in a file of decimal {told}s"
                raise block.refuse(block.rows[line], place, what, settles)
        if _odd(_bare(cell), reads, sign):
            number = _bare(cell).replace(",", ".")
            what = f"may be {number} or {number.replace('.', '')}"
            raise block.refuse(block.rows[line], place, what, _SAYS if hint is None and sign is None else ())
    return sign or "."


def _odd(cell: str, reads: Reads, sign: Sign | None) -> bool:
    return reads == "either" and (sign is None or digits(cell, sign) is None)


def _cells(block: Block, columns: Sequence[tuple[int, Sequence[str]]]) -> Iterator[tuple[int, int, str]]:
    for line in range(len(block.rows)):
        for place, column in columns:
            yield line, place, column[line]
