"""Files are written whole or not at all: beside their place, then renamed; several together."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path


class Meanwhile(Exception):
    """A file is no longer as it was read.

    Attributes:
        path: The file.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        super().__init__(f"{path} changed meanwhile")


@dataclass(frozen=True)
class Write:
    """What a file is to hold.

    Attributes:
        path: The file.
        after: Its new bytes.
        before: The bytes that it was read with; None where it does not exist yet.
    """

    path: Path
    after: bytes
    before: bytes | None = None


def write_all(writes: Iterable[Write]) -> None:
    """Write files: all of them, or none.

    Each is written and flushed beside its place before the first of them takes it, in the order given.

    Args:
        writes: The files; folders that are missing are made.

    Raises:
        Meanwhile: One of them is not as it was read, or exists; nothing was written.
        OSError: The machine refused; nothing was written.
    """
    wanted = [Write(each.path.resolve(), each.after, each.before) for each in writes]
    made: list[Path] = []
    ready: list[tuple[Write, Path]] = []
    done: list[Write] = []
    try:
        for each in wanted:
            _as_it_was(each)
            for folder in missing_folders(each.path.parent):
                folder.mkdir()
                made.append(folder)
            ready.append((each, _beside(each)))
        for each, fresh in ready:
            _as_it_was(each)
            fresh.replace(each.path)
            done.append(each)
    except BaseException:
        _undo(done)
        raise
    finally:
        for _, fresh in ready:
            fresh.unlink(missing_ok=True)
        for folder in reversed(made if len(done) < len(wanted) else ()):
            with suppress(OSError):
                folder.rmdir()


def _as_it_was(write: Write) -> None:
    there = write.path.read_bytes() if write.path.exists() else None
    if there != write.before:
        raise Meanwhile(write.path)


def _beside(write: Write) -> Path:
    """The new bytes on the disk, under a name that no reader of records looks at."""
    fresh = write.path.with_name(f".{write.path.name}.new")
    try:
        with fresh.open("wb") as file:
            file.write(write.after)
            file.flush()
            os.fsync(file.fileno())
        if write.before is not None:
            fresh.chmod(write.path.stat().st_mode & 0o7777)
    except OSError:
        fresh.unlink(missing_ok=True)
        raise
    return fresh


def _undo(done: list[Write]) -> None:
    for each in reversed(done):
        if each.before is None:
            each.path.unlink(missing_ok=True)
        else:
            each.path.write_bytes(each.before)


def missing_folders(folder: Path) -> Iterator[Path]:
    """The folders that have to be made for this one, the highest first."""
    if not folder.is_dir():
        yield from missing_folders(folder.parent) if folder.parent != folder else ()
        yield folder
