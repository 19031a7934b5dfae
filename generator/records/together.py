"""Several files that make sense together only: all are written, or none, whatever stops the program.

Each is on the disk beside its place before a list of them gets its name; from then on they are as good as
written. A program that is stopped over giving them their names leaves the list, and the next one finishes.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from generator.records.store import (
    Meanwhile,
    Write,
    as_it_was,
    beside,
    missing_folders,
    take_new_place,
    undo,
    write_all,
)

LIST = ".being-written"
"""The list's name, in the folder that holds all of the files."""


class NoList(Exception):
    """What stands under the list's name is none.

    Attributes:
        path: The file.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        super().__init__(f"{path} is no list")


@dataclass(frozen=True)
class _Entry:
    """A file of the list: its place, the name that it has beside it, and what place it takes."""

    path: Path
    fresh: Path
    before: str
    after: str

    @property
    def stands(self) -> str:
        """The SHA-256 of what stands at its place; empty where nothing does."""
        return _hash_at(self.path)


def write_together(folder: Path, writes: Iterable[Write]) -> None:
    """Write files, all of them or none, also where the program is killed; see `finish`.

    Args:
        folder: Holds all of them. One alone needs no list, and of a file elsewhere none is kept.
        writes: The files; folders that are missing are made.

    Raises:
        Meanwhile: One of them is not as it was read, or exists, or another program is writing; nothing was
            written.
        OSError: The machine refused; nothing was written.
    """
    wanted = [Write(each.path.resolve(), each.after, each.before) for each in writes]
    root = folder.resolve()
    if len(wanted) < 2 or not all(each.path.is_relative_to(root) for each in wanted):
        write_all(wanted)
        return
    finish(folder)
    ready: list[tuple[Write, Path]] = []
    made: list[Path] = []
    try:
        for each in wanted:
            as_it_was(each)
            for needed in missing_folders(each.path.parent):
                needed.mkdir(exist_ok=True)
                made.append(needed)
            ready.append((each, beside(each)))
        entries = [_entry(each, fresh) for each, fresh in ready]
        write_all([Write(root / LIST, _told(entries, root))])
        _named(root / LIST, wanted, entries)
    finally:
        for _, fresh in ready:
            fresh.unlink(missing_ok=True)
        for missing in reversed(made):
            with suppress(OSError):  # What holds a file stays.
                missing.rmdir()


def finish(folder: Path) -> int:
    """Give those files their names that a program was stopped over.

    What a person wrote at one of the places since stays as it is. Another program that is writing at this
    moment is helped and not hindered.

    Args:
        folder: As of `write_together`.

    Returns:
        How many files the list names; 0 without one.

    Raises:
        NoList: It is no list that `write_together` writes, or names a file elsewhere.
        OSError: The machine refused.
    """
    listed = folder.resolve() / LIST
    try:
        data = listed.read_bytes()
    except FileNotFoundError:
        return 0
    entries = _listed(listed, data)
    for each in entries:
        if each.stands == each.before != each.after:
            with suppress(Meanwhile):  # Somebody's own is at its place since.
                _place(each)
    listed.unlink(missing_ok=True)
    for each in entries:
        each.fresh.unlink(missing_ok=True)
    return len(entries)


def is_unfinished(folder: Path) -> bool:
    """Whether a program was stopped over files of a folder, or is writing them at this moment."""
    return (folder / LIST).is_file()


def _named(listed: Path, wanted: list[Write], entries: list[_Entry]) -> None:
    """Give the files of the list their names and take it away; where that fails none has changed."""
    done: list[Write] = []
    try:
        _may_be_written(entries)
        for write, entry in zip(wanted, entries, strict=True):
            _place(entry)
            done.append(write)
    except BaseException:
        undo(done)
        listed.unlink(missing_ok=True)
        raise
    listed.unlink(missing_ok=True)


def _may_be_written(entries: Iterable[_Entry]) -> None:
    for each in entries:
        if each.stands not in {each.before, each.after}:
            raise Meanwhile(each.path)


def _place(entry: _Entry) -> None:
    """Give a file its name; one that has it, by another program, stays."""
    try:
        if entry.before:
            entry.fresh.replace(entry.path)
        else:
            take_new_place(entry.path, entry.fresh)
    except (FileNotFoundError, Meanwhile):
        if entry.stands != entry.after:
            raise Meanwhile(entry.path) from None


def _entry(write: Write, fresh: Path) -> _Entry:
    before = _hash(write.before) if write.before is not None else ""
    return _Entry(write.path, fresh, before, _hash(write.after))


def _told(entries: Iterable[_Entry], folder: Path) -> bytes:
    rows = [
        {
            "path": os.path.relpath(each.path, folder),
            "fresh": os.path.relpath(each.fresh, folder),
            "before": each.before,
            "after": each.after,
        }
        for each in entries
    ]
    return (json.dumps(rows, indent=1) + "\n").encode()


def _listed(listed: Path, data: bytes) -> list[_Entry]:
    """The files of a list; none of them lies outside of the folder."""
    folder = listed.parent
    try:
        rows = [(each["path"], each["fresh"], each["before"], each["after"]) for each in json.loads(data)]
        entries = [
            _Entry(folder / path, folder / fresh, before, after) for path, fresh, before, after in rows
        ]
        inside = all(_is_inside(each, folder) for each in entries)
    except (ValueError, TypeError, KeyError):
        raise NoList(listed) from None
    if not inside:
        raise NoList(listed)
    return entries


def _is_inside(entry: _Entry, folder: Path) -> bool:
    return all(path.resolve().is_relative_to(folder) for path in (entry.path, entry.fresh))


def _hash(data: bytes) -> str:
    return sha256(data).hexdigest()


def _hash_at(path: Path) -> str:
    try:
        return _hash(path.read_bytes())
    except FileNotFoundError:
        return ""
