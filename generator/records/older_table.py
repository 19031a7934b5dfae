"""A table of older results, as pasted out of a spreadsheet → a list of results, each cell with its place.

    results: |
      date    | item        | measure | value K | ±       | air degC | minutes | pieces | meter
      2021-05 | okvarn-ih30 | rise    | 48      | unknown | 21       | 60      | 1      | kitchen probe

The columns are the keys of a result in any order; `±` stands for `uncertainty`, `minutes` for `at min`. A
unit stands behind the name of a column, or in each of its cells. Cells are parted by `|` or tabs; what is
not known is left empty.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from generator.fault import Fault, Place
from generator.records.grammar import NUMBER
from generator.records.lookalikes import plain
from generator.records.nodes import Mapping, Scalar
from generator.records.nodes import Sequence as ListNode
from generator.records.schema.measured import UNKNOWN
from generator.records.schema.told import nearest
from generator.records.table import few, split_cells
from generator.records.units import find_unit, meant, offered

MEASURED = {"value": "", "uncertainty": "", "air": "temperature", "at": "time"}
"""Columns that hold quantities, and of what; empty where the measure decides."""

SHORT = {"±": "uncertainty", "+/-": "uncertainty", "minutes": "at min", "min": "at min"}
"""What spreadsheets call a column, and what it is here."""

_BEFORE_NUMBER = re.compile(r"^(?:±|over |under |[<>])?\s*")


@dataclass(frozen=True)
class _Head:
    """A column: the key of a result, and the unit of its cells as typed; empty where they have their own."""

    key: str
    unit: str


def nodes_of(
    block: Scalar, keys: Sequence[str], required: Collection[str]
) -> tuple[ListNode, tuple[Fault, ...]]:
    """Read a table as if each row were typed as a mapping.

    Args:
        block: The block of text as it stands in the file.
        keys: The keys that a result takes.
        required: Those that none may be without.

    Returns:
        A mapping for each row whose form is sound, its texts where the cells stand; and what the form of the
        table has against it, each at its own line and column.
    """
    rows = ListNode(block.place, block.path)
    lines = [(number, line) for number, line in enumerate(block.split("\n")) if line.strip()]
    if block.style != "block" or not lines:
        what = "a list of results, or a table: '|' stands behind the colon, its rows below, a line each"
        return rows, (Fault(block.place, block.path, what),)
    reader = _Reader(block, keys)
    heads = reader.heads(*lines[0], required)
    if len(lines) == 1:
        reader.fault(block.within(lines[0][0], 0), "the table has a header and no rows")
    whole = not reader.faults
    for count, line in enumerate(lines[1:], 1):
        row = reader.row(*line, heads, count)
        rows.extend([row] if row is not None and whole else [])
    return rows, tuple(few(reader.faults))


class _Reader:
    """Reads one table and gathers what is wrong with it."""

    def __init__(self, block: Scalar, keys: Sequence[str]) -> None:
        self.block = block
        self.keys = keys
        self.faults: list[Fault] = []

    def fault(self, place: Place, what: str, found: str | None = None, accepted: Sequence[str] = ()) -> None:
        """Note a fault at a place of the table."""
        self.faults.append(Fault(place, self.block.path, what, found, tuple(accepted)))

    def heads(self, number: int, line: str, required: Collection[str]) -> list[_Head | None]:
        """The columns; None for one at fault, whose cells are passed over."""
        heads: list[_Head | None] = []
        for text, column in split_cells(line):
            head = self._head(text, self.block.within(number, column))
            if head is not None and head.key in {each.key for each in heads if each}:
                self.fault(self.block.within(number, column), f"the column '{head.key}' is there twice")
            heads.append(head)
        there = {head.key for head in heads if head}
        if None not in heads:
            for key in (each for each in required if each not in there):
                told = "± (or uncertainty)" if key == "uncertainty" else key
                more = "; where nobody knows it, its cells say unknown" if key == "uncertainty" else ""
                self.fault(self.block.within(number, 0), f"the column '{told}' is missing{more}")
        return heads

    def _head(self, text: str, place: Place) -> _Head | None:
        if not text:
            self.fault(place, "a column without a name; leave out '|' at the begin and end of the header")
            return None
        name, _, symbol = text.partition(" ")
        if name.casefold() in SHORT:
            name, _, own = SHORT[name.casefold()].partition(" ")
            symbol = symbol or own
        if name not in self.keys:
            what = f"no column of older results is called so{nearest(name, self.keys)}"
            self.fault(place, what, name, self.keys)
            return None
        return _Head(name, self._unit(name, symbol.strip(), place)) if symbol.strip() else _Head(name, "")

    def _unit(self, name: str, symbol: str, place: Place) -> str:
        """The unit of a column, where it is one of those that it may have."""
        if name not in MEASURED:
            self.fault(place, f"{name}: no unit stands behind this", symbol)
            return ""
        quantity = MEASURED[name]
        if find_unit(plain(symbol), quantity) is not None:
            return symbol
        bare = symbol.strip("()[]/, ")
        if find_unit(plain(bare), quantity) is not None:
            self.fault(place, "the unit stands behind the name without brackets", None, (f"{name} {bare}",))
            return ""
        near = meant(symbol, quantity)
        hint = f"; did you mean '{near}'?" if near else ""
        self.fault(place, f"{name}: '{symbol}' is no unit for this{hint}", None, offered(quantity))
        return ""

    def row(self, number: int, line: str, heads: Sequence[_Head | None], count: int) -> Mapping | None:
        """One result: its cells as texts, empty ones left out; None where its form is at fault."""
        before = len(self.faults)
        cells = list(split_cells(line))
        path = f"{self.block.path}.{count}"
        made = Mapping(self.block.within(number, cells[0][1]), path)
        if len(cells) != len(heads):
            had = f"{len(cells)} cell{'' if len(cells) == 1 else 's'}"
            what = f"this row has {had}, the header {len(heads)}; what is not known is an empty cell"
            self.fault(made.place, what)
            return None
        for head, (text, column) in zip(heads, cells, strict=True):
            if head is not None and text:
                place = self.block.within(number, column)
                made.key_places[head.key] = place
                made[head.key] = Scalar(self._told(text, head, place), place, f"{path}.{head.key}")
        return made if len(self.faults) == before else None

    def _told(self, text: str, head: _Head, place: Place) -> str:
        """A cell as a quantity is typed: with its unit."""
        if not head.unit:
            return text
        bare = _BEFORE_NUMBER.sub("", text)
        if bare == UNKNOWN:
            return text
        if not NUMBER.fullmatch(plain(bare)) and any(sign.isalpha() or sign in "°%" for sign in bare):
            what = f"{head.key}: a number alone is expected; its unit, {head.unit}, stands in the header"
            self.fault(place, what, text)
        return f"{text} {head.unit}"
