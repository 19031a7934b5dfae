"""Files → a zip of the same bytes each time; a zip that a stranger sent → its files, or why not."""

from __future__ import annotations

import io
import re
import stat
import zlib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Literal
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

_DAY = (1980, 1, 1, 0, 0, 0)
"""The first day that a zip can tell; no clock is read."""

_MODE = (stat.S_IFREG | 0o644) << 16
_UNIX = 3

MOST_FILES = 5_000
MOST_EACH = 20_000_000
MOST_ALL = 50_000_000
MOST_RATIO = 30
"""So many times its packed size a file may have: tables of readings and records come to a fifth of this."""

_SMALL = 100_000
"""Bytes below which the ratio tells nothing."""

_LONGEST = 240
_PIECE = 1 << 16
_PART = re.compile(r"[A-Za-z0-9_-](?:[A-Za-z0-9._-]*[A-Za-z0-9_-])?")
"""What a part of a name may be: no `..`, no drive, no backslash, nothing that machines differ about."""

Why = Literal[
    "no-zip",
    "damaged",
    "locked",
    "packed-oddly",
    "too-many",
    "too-big",
    "swollen",
    "odd-name",
    "twice",
    "no-file",
    "no-edition",
]
"""Why a zip is not opened; each has its words in the templates."""


class Unsound(Exception):
    """A zip that is not opened, or not further than this.

    Attributes:
        why: What stands against it.
        name: The file in it that this is about, as the zip spells it; empty where it is all of it.
    """

    def __init__(self, why: Why, name: str = "") -> None:
        self.why = why
        self.name = name
        super().__init__(f"{why} {name}".strip())


def packed(files: Mapping[str, bytes]) -> bytes:
    """A zip of files, by their names in it: sorted, as they are, of one day and one mode."""
    made = io.BytesIO()
    with ZipFile(made, "w", ZIP_STORED) as archive:
        for name in sorted(files):
            entry = ZipInfo(name, _DAY)
            entry.create_system = _UNIX
            entry.external_attr = _MODE
            archive.writestr(entry, files[name], ZIP_STORED)
    return made.getvalue()


def unpacked(path: Path) -> dict[str, bytes]:
    """The files of a zip that anybody may have made; nothing is written.

    Args:
        path: The zip.

    Raises:
        Unsound: It is none, is damaged or locked, holds a name that may lead elsewhere, or comes to more than
            any parcel does.
        OSError: The machine would not read it.
    """
    if path.stat().st_size > MOST_ALL:
        raise Unsound("too-big")
    data = path.read_bytes()
    try:
        archive = ZipFile(io.BytesIO(data))
    except (BadZipFile, ValueError, NotImplementedError, OverflowError, EOFError) as error:
        raise Unsound("damaged" if data.startswith(b"PK") else "no-zip") from error
    entries = archive.infolist()
    if len(entries) > MOST_FILES:
        raise Unsound("too-many")
    for entry in entries:
        _sound(entry)
    files = [each for each in entries if not each.is_dir()]
    _apart(files)
    if sum(each.file_size for each in files) > MOST_ALL:
        raise Unsound("too-big")
    found, left = dict[str, bytes](), MOST_ALL
    for entry in files:
        found[entry.filename] = content = b"".join(_content(archive, entry, min(left, MOST_EACH)))
        left -= len(content)
    return found


def _sound(entry: ZipInfo) -> None:
    """Whether an entry is an ordinary file or folder with a name that stays where it is put."""
    name = entry.orig_filename
    parts = name.removesuffix("/").split("/")
    if len(name) > _LONGEST or not all(map(_PART.fullmatch, parts)):
        raise Unsound("odd-name", name)
    kind = stat.S_IFMT(entry.external_attr >> 16)
    if kind not in {0, stat.S_IFREG, stat.S_IFDIR}:
        raise Unsound("no-file", name)
    if entry.flag_bits & 0x1:
        raise Unsound("locked", name)
    if entry.compress_type not in {ZIP_STORED, ZIP_DEFLATED}:
        raise Unsound("packed-oddly", name)


def _apart(files: list[ZipInfo]) -> None:
    """Whether each name is one of its own on every machine, and none is a folder of another."""
    names: set[str] = set()
    for entry in files:
        if entry.filename.casefold() in names:
            raise Unsound("twice", entry.filename)
        names.add(entry.filename.casefold())
    for entry in files:
        parts = entry.filename.casefold().split("/")
        if any("/".join(parts[:depth]) in names for depth in range(1, len(parts))):
            raise Unsound("twice", entry.filename)


def _content(archive: ZipFile, entry: ZipInfo, most: int) -> Iterator[bytes]:
    """What a file holds, piece by piece: what is said of its size is not relied on."""
    size = 0
    try:
        with archive.open(entry) as source:
            while piece := source.read(_PIECE):
                size += len(piece)
                if size > most:
                    raise Unsound("too-big", entry.filename)
                if size > max(_SMALL, MOST_RATIO * entry.compress_size):
                    raise Unsound("swollen", entry.filename)
                yield piece
    except (
        BadZipFile,
        zlib.error,
        EOFError,
        ValueError,
        NotImplementedError,
        RuntimeError,
        OSError,
    ) as error:
        raise Unsound("damaged", entry.filename) from error
    if size != entry.file_size:
        raise Unsound("damaged", entry.filename)
