"""What a record keeps of a meter's file: its place, its hash, which of its columns and lines went where."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from hashlib import sha256
from pathlib import Path

from generator.intake.importing.bind import Pair
from generator.intake.meter.series import MeterFile, MeterTime
from generator.records.files import content
from generator.records.rules.originals import MOST_BYTES, folder_of
from generator.records.store import Write
from generator.records.writer import Value

_ODD = re.compile(r"[^A-Za-z0-9._-]+")
_LONGEST = 90


def digest(data: bytes) -> str:
    """The SHA-256 of a file's bytes, as `sha256sum` prints it."""
    return sha256(data).hexdigest()


def placed(name: str, data: bytes, record: Path) -> tuple[Path, Write | None]:
    """Where a file's original lies or is to lie.

    Args:
        name: The file's name.
        data: Its bytes.
        record: The file of the record that its readings go into.

    Returns:
        The place, and what to write there; None where the same bytes lie there already.
    """
    folder = folder_of(record)
    for path in _names(folder, _plain(name)):
        if not path.exists():
            return path, Write(path, data)
        if content(path, MOST_BYTES) == data:
            return path, None
    raise AssertionError("names are without end")


def _plain(name: str) -> str:
    """A name that every machine takes, and every page may link to."""
    apart = unicodedata.normalize("NFKD", name)
    plain = _ODD.sub("-", apart.encode("ascii", "ignore").decode()).strip("-.")
    stem, dot, ending = plain.rpartition(".")
    return f"{(stem or 'original')[:_LONGEST]}{dot}{ending}" if dot else plain[:_LONGEST] or "original"


def _names(folder: Path, name: str) -> Iterator[Path]:
    stem, dot, ending = name.rpartition(".")
    yield folder / name
    number = 1
    while True:
        number += 1
        yield folder / (f"{stem}-{number}{dot}{ending}" if dot else f"{name}-{number}")


def entry(
    file: MeterFile, pairs: Sequence[Pair], name: str, data: bytes, starts_at: str = ""
) -> dict[str, Value]:
    """The entry under `originals`.

    Args:
        file: The file as read.
        pairs: Which of its columns went where.
        name: Its name in originals/.
        data: Its bytes.
        starts_at: When its first reading was, from the start of the run; empty at the start.
    """
    told: dict[str, Value] = {"file": name, "sha256": digest(data)}
    if file.sheet:
        told["sheet"] = file.sheet
    told["lines"] = ", ".join(spans(file.lines))
    told["columns"] = {pair.column.name: pair.slot.label for pair in pairs}
    if began := began_at(file.time):
        told["began"] = began
    if starts_at:
        told["starts-at"] = starts_at
    for key, texts in (("settings", file.settings), ("metadata", file.metadata)):
        if kept := dict(_apart(texts)):
            told[key] = kept
    return told


def began_at(time: MeterTime) -> str:
    """The first reading's time of day, with its day where that is known; empty where time is counted."""
    if time.kind in {"elapsed", "counted"}:
        return ""
    return time.first.isoformat(sep=" ") if time.first is not None else time.first_text


def spans(lines: Iterable[int]) -> Iterator[str]:
    """Numbers of lines in their order: 4, 5, 6, 9 are `4 to 6` and `9`."""
    first = last = 0
    for line in (*lines, 0):
        if line and line == last + 1:
            last = line
            continue
        if first:
            yield str(first) if first == last else f"{first} to {last}"
        first = last = line


def _apart(texts: Iterable[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Names with their texts, a name that is there twice with its number; without those that say nothing."""
    seen: set[str] = set()
    for name, text in texts:
        if not text.strip():
            continue
        base = key = " ".join(name.split()) or "line"
        number = 1
        while (same := unicodedata.normalize("NFC", key).casefold()) in seen:
            number += 1
            key = f"{base} ({number})"
        seen.add(same)
        yield key, text
