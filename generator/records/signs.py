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


_BEGINNING = 4096
"""Bytes that show what a file is."""


def decoded(data: bytes, path: Path) -> str | Fault:
    """The text of a file, a byte order mark at its start left out.

    Args:
        data: The whole file.
        path: The file.

    Returns:
        Its text, or why it is none: another encoding, or no text at all.
    """
    first = data[:_BEGINNING]
    if first[:2] in {b"\xff\xfe", b"\xfe\xff"} or _is_wide(first):
        return Fault(Place(path), "", "the file is UTF-16; save it as UTF-8")
    if b"\0" in first and len(_CONTROLS.findall(first)) > _FEW:
        what = "the file is no text; a program's own format cannot be read, save it from there as text"
        return Fault(Place(path), "", what)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return _undecodable(data, error.start, path)


_CONTROLS = re.compile(rb"[\x00-\x08\x0e-\x1a\x1c-\x1f]")
_FEW = 4


def _is_wide(first: bytes) -> bool:
    """Whether every other byte is nought, as in UTF-16 of Latin text without its mark."""
    shares = sorted(half.count(0) / max(len(half), 1) for half in (first[::2], first[1::2]))
    return shares[0] < 0.1 and shares[1] > 0.5


def _undecodable(data: bytes, start: int, path: Path) -> Fault:
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
    what = f"the file holds {code_point(sign)}; take it out"
    if sign == "\r":
        what = "a line ends in U+000D (carriage return) alone; save the file with the usual line ends"
    # The line is quoted without what a terminal would act on.
    quoted = _NEVER.sub("\ufffd", lines[line])
    return Fault(Place(path, line + 1, column + 1, quoted), "", what)


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
