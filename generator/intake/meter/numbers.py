"""Numbers as meters write them: which sign parts the whole digits from the rest, settled for a whole file."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal, TypeAlias

from generator.intake.meter.hints import DecimalSign
from generator.records.grammar import NUMBER
from generator.records.lookalikes import plain

Sign: TypeAlias = Literal[".", ","]
Reads: TypeAlias = Literal["whole", "point", "comma", "either", "neither"]

LOOSE = re.compile(r"[+-]?(?:\d[\d.,]{0,80}|[.,]\d{1,80})(?:[eE][+-]?\d{1,3})?", re.ASCII)
"""What may be a number by one sign or the other."""

_WHOLE = re.compile(r"[+-]?\d{1,80}(?:[eE][+-]?\d{1,3})?", re.ASCII)
_GROUPED = re.compile(r"[+-]?[1-9]\d{0,2}(?:,\d{3})+", re.ASCII)
_GROUPED_POINT = re.compile(r"([+-]?[1-9]\d{0,2}(?:,\d{3})+)(\.\d{1,80})", re.ASCII)
_SWAP = str.maketrans(".,", ",.")


def reads_as(cell: str) -> Reads:
    """By which signs a number can be read: `18,6` by the comma alone, `1,234` by either."""
    if _WHOLE.fullmatch(cell):
        return "whole"
    swapped = cell.translate(_SWAP)
    point = NUMBER.fullmatch(cell) or _GROUPED_POINT.fullmatch(cell)
    comma = NUMBER.fullmatch(swapped) or _GROUPED_POINT.fullmatch(swapped)
    if point:
        return "either" if _GROUPED.fullmatch(swapped) else "point"
    if comma:
        return "either" if _GROUPED.fullmatch(cell) else "comma"
    return "neither"


def digits(cell: str, sign: Sign) -> str | None:
    """The digits of a number with a point, as written else; None where it is no number by that sign.

    Groups of three are taken only where the decimal sign stands in the cell too: `1,234.5`.
    """
    written = cell if cell.isascii() else plain(cell)
    if sign == ",":
        written = written.translate(_SWAP)
    if NUMBER.fullmatch(written):
        return written
    grouped = _GROUPED_POINT.fullmatch(written)
    return grouped[1].replace(",", "") + grouped[2] if grouped else None


def sign_of(kinds: Iterable[Reads], delimiter: str, hint: DecimalSign | None) -> Sign | None:
    """The decimal sign of a file.

    Args:
        kinds: How each of its numbers reads.
        delimiter: What parts its cells; where that is a comma, no number without quotes has one.
        hint: What a person says.

    Returns:
        The sign; None where the file says two things, or nothing and there are numbers that read two ways.
    """
    found = set(kinds)
    if {"point", "comma"} <= found or (hint and ("comma" if hint == "point" else "point") in found):
        return None
    if hint:
        return "." if hint == "point" else ","
    if "comma" in found:
        return ","
    if "point" in found or "either" not in found or delimiter == ",":
        return "."
    return None
