"""What the characters of a file have against it, before and beside YAML: bytes, invisible signs, tabs."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TypeAlias

from generator.fault import Fault, Place
from generator.records.lookalikes import code_point

Position: TypeAlias = tuple[int, int]
Span: TypeAlias = tuple[Position, Position]

# Readers differ on where a line ends at these, or cannot show them; no record needs them, in quotes or out.
_NEVER = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]|\r(?!\n)"
)
# Not to be seen, or not to be told from a space: taken inside quotes and blocks alone.
_HIDDEN = re.compile("[\t\u00a0\u00ad\u200b\u200e\u200f\u2060\u202a-\u202e\u2066-\u2069]")


def undecodable(data: bytes, start: int, path: Path) -> Fault:
    """The fault of a file that is not UTF-8.

    Args:
        data: The whole file.
        start: The first byte that does not belong there.
        path: The file.
    """
    if data[:2] in {b"\xff\xfe", b"\xfe\xff"}:
        return Fault(Place(path), "", "the file is UTF-16; save it as UTF-8")
    line = data.count(b"\n", 0, start)
    begin = data.rfind(b"\n", 0, start) + 1
    end = data.find(b"\n", start)
    whole = data[begin : end if end >= 0 else len(data)].decode("utf-8", "replace").rstrip("\r")
    column = len(data[begin:start].decode("utf-8", "replace")) + 1
    what = f"byte 0x{data[start]:02X} is not UTF-8; save the file as UTF-8"
    return Fault(Place(path, line + 1, column, whole), "", what)


def refused(text: str, lines: Sequence[str], path: Path) -> Fault | None:
    """The first sign that no record may hold anywhere, as a fault."""
    found = _NEVER.search(text)
    if found is None:
        return None
    line = text.count("\n", 0, found.start())
    column = found.start() - (text.rfind("\n", 0, found.start()) + 1)
    sign = found.group()
    told = "U+000D (carriage return) without a line feed" if sign == "\r" else code_point(sign)
    # The line is quoted without what a terminal would act on.
    shown = _NEVER.sub("\ufffd", lines[line])
    return Fault(Place(path, line + 1, column + 1, shown), "", f"the file holds {told}; take it out")


def hidden(
    lines: Sequence[str], spans: Sequence[Span], path: Path, before: int | None = None
) -> Iterator[Fault]:
    """Tabs, no-break spaces and invisible signs that stand outside quotes and blocks.

    Args:
        lines: The file's lines.
        spans: Where quoted texts and blocks stand, in order: (line, column) from 0, the end left out.
        path: The file.
        before: The last line, from 0, to look at.

    Yields:
        A fault for each, with its code point.
    """
    starts = [start for start, _ in spans]
    for number, line in enumerate(lines if before is None else lines[: before + 1]):
        for found in _HIDDEN.finditer(line):
            at = (number, found.start())
            covering = bisect_right(starts, at) - 1
            if covering >= 0 and at < spans[covering][1]:
                continue
            yield Fault(
                Place(path, number + 1, found.start() + 1, line), "", _advice(found.group(), line, at[1])
            )


def _advice(sign: str, line: str, column: int) -> str:
    if sign == "\t" and not line[:column].strip():
        return "a tab before the text; indent with spaces"
    if sign == "\t":
        return "a tab outside a readings table; write a space"
    return f"{code_point(sign)} outside quotes; write a plain space or take it out"
