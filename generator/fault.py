"""Faults and doubts as data; the text a person reads is made last, in one place."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

_WIDEST = 72
"""Characters of a line that are quoted: a line number stands before them in 80 columns."""

_LONGEST = 80
"""Characters of a value or a path that are told; a longer one is cut."""


@dataclass(frozen=True, order=True)
class Place:
    """Where in the records something stands.

    Attributes:
        file: Absolute path of the file.
        line: Line, counted from 1; 0 where the whole file is meant.
        column: Column in characters, counted from 1; 0 where the whole file is meant.
        text: The source line as written, for the quotation under the message.
    """

    file: Path
    line: int = 0
    column: int = 0
    text: str = field(default="", compare=False)


@dataclass(frozen=True)
class Fault:
    """Something that must be mended before the record counts.

    Attributes:
        place: Where it stands.
        path: Keys down to it, joined by dots (`conditions.ambiant`); empty for a whole file.
        what: What is wrong, lower case, no full stop; says what would do where that is short.
        found: The value as written, where quoting it helps.
        accepted: What would be taken instead, printed on a line of its own.
    """

    place: Place
    path: str
    what: str
    found: str | None = None
    accepted: tuple[str, ...] = ()

    word = "fault"


@dataclass(frozen=True)
class Doubt(Fault):
    """Something that may stay, but that a careful person would look at."""

    word = "doubt"


class RecordsRefused(Exception):
    """The records hold faults.

    Attributes:
        faults: All of them, in the order of files and lines.
        root: The folder that paths are told relative to.
        left_out: How many records are left out until they are mended.
    """

    def __init__(self, faults: Iterable[Fault], root: Path, left_out: int = 0) -> None:
        self.faults = tuple(faults)
        self.root = root
        self.left_out = left_out
        super().__init__(f"{len(self.faults)} faults in the records")


def in_order(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """Sort faults by file, line and column, so that two runs print the same."""
    return tuple(sorted(faults, key=_position))


def _position(fault: Fault) -> tuple[str, int, int, str]:
    return str(fault.place.file), fault.place.line, fault.place.column, fault.path


def message(fault: Fault, relative_to: Path) -> str:
    """The text of one fault or doubt.

    Args:
        fault: What to tell.
        relative_to: The folder where the user stands; other paths are printed whole.

    Returns:
        One to four lines without a line end: place, path and what; what is accepted; the line; a caret. Of a
        long line the part round the caret is quoted, as fits 80 columns.
    """
    place = fault.place
    try:
        name = place.file.relative_to(relative_to).as_posix()
    except ValueError:
        name = str(place.file)
    name = shown(name)
    head = f"{name}:{place.line}:{place.column}" if place.line else name
    told = ": ".join(part for part in (head, _short(fault.path), fault.what) if part)
    if fault.found is not None and f"'{fault.found}'" not in fault.what:
        told += f", found {_short(fault.found)!r}"
    lines = [f"doubt: {told}" if fault.word == "doubt" else told]
    if fault.accepted:
        # Words that hold a comma themselves, as `standard, seen`, are told apart by another sign.
        parted = "; " if any(", " in each for each in fault.accepted) else ", "
        lines.append(f"    accepted: {parted.join(fault.accepted)}")
    if place.line and place.text.strip():
        number = f"{place.line:>4}"
        text, at = _round_the_caret(place)
        lines.append(f"{number} | {text}")
        # A tab is one character to the caret too, so that the caret stands under it in any terminal.
        lead = "".join("\t" if sign == "\t" else " " for sign in text[:at])
        lines.append(f"{' ' * len(number)} | {lead}^")
    return "\n".join(lines)


def shown(text: str, instead: str = "") -> str:
    """A text without what a terminal would act on or hide.

    Args:
        text: A file's name, or a line of a file.
        instead: What such a sign is shown as; its escape where nothing is given.
    """
    return "".join(
        sign if _is_seen(sign) else instead or sign.encode("unicode_escape", "surrogatepass").decode()
        for sign in text
    )


# Joiners stand inside words and pictures, and a tab inside tables; they are left as they are.
_LEFT = frozenset("\t\u200c\u200d")


def _is_seen(sign: str) -> bool:
    if sign.isprintable() or sign in _LEFT:
        return True
    return unicodedata.category(sign) in {"Zs", "Cn", "Co"}


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."


def _round_the_caret(place: Place) -> tuple[str, int]:
    """The line, or the part of it round the place, and the place's column from 0 in what is quoted."""
    line, at = shown(place.text, "\ufffd"), place.column - 1
    if len(line) <= _WIDEST:
        return line, at
    wide = _WIDEST - 8
    start = 0 if at < wide - 12 else min(at - wide // 2, len(line) - wide)
    before = "... " if start else ""
    after = " ..." if start + wide < len(line) else ""
    return f"{before}{line[start : start + wide]}{after}", at - start + len(before)


def count_line(faults: Iterable[Fault], left_out: int) -> str:
    """The last line of a check: how many faults and doubts, and how many records were left out for them."""
    found = tuple(faults)
    doubts = sum(each.word == "doubt" for each in found)
    parts = [_counted(len(found) - doubts, "fault"), _counted(doubts, "doubt")]
    told = ", ".join(part for part in parts if part) or "no faults"
    if left_out:
        told += f"; {_counted(left_out, 'record')} left out until mended"
    return told


def _counted(number: int, word: str) -> str:
    if number == 0:
        return ""
    return f"{number} {word}" + ("" if number == 1 else "s")
