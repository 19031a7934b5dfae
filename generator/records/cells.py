"""One cell of a readings table: a number alone, `>150.0` where the meter was over its range."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.fault import Place
from generator.records.grammar import QuantityError
from generator.records.lookalikes import foreign, plain
from generator.records.quantity import Bound
from generator.records.units import Unit

# Above any reading; meters send 9.9E+37 for over range.
_LARGEST = 1e30
_CELL = re.compile(
    r"([<>]?)\s*([+-]?(?:\d{1,30}(?:\.(\d{1,30}))?|\.(\d{1,30}))(?:[eE]([+-]?\d{1,3}))?)", re.ASCII
)
_OVER_RANGE = "a reading over range is written with the range's end: >150.0"
# Why a cell is no reading, the first that fits; `{…}` are the pattern's groups.
_WHY: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.ASCII | re.IGNORECASE), told)
    for pattern, told in (
        (r"([<>]?\s*[+-]?\d+),(\d+)", "a decimal comma? write {0}.{1}"),
        (
            r"\d{1,2}:\d{2}(?::\d{2})?.*",
            "a clock; write one number, counted from the start",
        ),
        (
            r"[+-]?(?:o\.?l\.?|0l|over|ovr|ovf|ovld|overload|over ?range|burnout|open|err|error|inf.*)",
            _OVER_RANGE,
        ),
        (r"-{2,}[-.]*|-+\.-+|\*{2,}", _OVER_RANGE + "; no reading is an empty cell"),
        (r"nan|n/?a|none|null|nil|-|\?|x|\.+", "no reading is an empty cell"),
        (r".*\d\s*[,;].*", "cells are parted by | or tabs, and a number has a point"),
        (r"[<>]?\s*[+-]?[\d.]+\s*[^\d\s.,].*", "a number alone is expected; the unit stands in the header"),
    )
)


@dataclass(frozen=True, slots=True)
class Cell:
    """One reading.

    Attributes:
        text: As written.
        value: In SI; temperatures in °C.
        bound: `>` where the meter was over its range at this value, `<` where under it.
        decimals: Digits after the point as written, less the exponent; in the column's unit.
        place: Where it stands.
    """

    text: str
    value: float
    bound: Bound
    decimals: int
    place: Place


def read_cell(text: str, unit: Unit, place: Place) -> Cell:
    """Read a cell that is not empty.

    Args:
        text: The cell without the spaces round it.
        unit: The unit of its column.
        place: Where it stands.

    Raises:
        QuantityError: It is no reading; the words say how to write what was meant.
    """
    found = _CELL.fullmatch(text) or _CELL.fullmatch(plain(text))
    if found is None:
        raise QuantityError(_why(text))
    limit, number, after, alone, exponent = found.groups()
    value = float(number)
    if not abs(value) < _LARGEST:
        raise QuantityError(_OVER_RANGE)
    bound: Bound = ">" if limit == ">" else "<" if limit else ""
    return Cell(text, unit.to_si(value), bound, len(after or alone or "") - int(exponent or 0), place)


def _why(text: str) -> str:
    if strange := foreign(text):
        return f"a character that looks like another: {strange}; type it again"
    for pattern, told in _WHY:
        if found := pattern.fullmatch(plain(text)):
            return told.format(*found.groups())
    return "not a number"
