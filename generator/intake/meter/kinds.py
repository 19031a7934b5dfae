"""What a cell is by itself: a number, a stamp, a mark in place of a reading, a unit, or text."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, TypeAlias

from generator.intake.meter.marks import mark_of
from generator.intake.meter.numbers import LOOSE, reads_as
from generator.intake.meter.stamps import stamp_of
from generator.intake.meter.unit_words import unit_of
from generator.records.lookalikes import plain

Kind: TypeAlias = Literal["empty", "number", "quantity", "stamp", "bound", "mark", "unit", "text"]

VALUES: frozenset[Kind] = frozenset(("number", "quantity", "bound", "mark"))
"""What may stand in a column of readings, besides nothing."""

_BOUND = re.compile(r"(?:>=?|<=?|≥|≤|over|under|above|below)\s*(.+)", re.IGNORECASE)
_QUANTITY = re.compile(rf"({LOOSE.pattern})\s*(\D.*)", re.ASCII)


@lru_cache(maxsize=1 << 17)
def kind_of(cell: str) -> Kind:
    """What a cell is, without knowing its column; of a number, by either decimal sign."""
    if not cell:
        return "empty"
    written = cell if cell.isascii() else plain(cell)
    if LOOSE.fullmatch(written) and reads_as(written) != "neither":
        return "number"
    if stamp_of(cell):
        return "stamp"
    if (bound := _BOUND.fullmatch(written)) and LOOSE.fullmatch(bound[1]):
        return "bound"
    return _word(cell)


def _word(cell: str) -> Kind:
    if mark_of(cell):
        return "mark"
    if quantity_of(cell):
        return "quantity"
    return "unit" if unit_of(cell) else "text"


def quantity_of(cell: str) -> tuple[str, str] | None:
    """A number with its unit behind it as two texts; None where the cell is none."""
    found = _QUANTITY.fullmatch(cell if cell.isascii() else plain(cell))
    if found is None or reads_as(found[1]) == "neither" or unit_of(found[2]) is None:
        return None
    return found[1], found[2]
