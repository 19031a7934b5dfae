"""Files are written whole or not at all: beside their place, then given their name; several together."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

BESIDE = ".new"
"""Ends the name of a file that is not in its place yet; the name begins with a point."""


class Meanwhile(Exception):
    """A file is no longer as it was read.

    Attributes:
        path: The file.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        super().__init__(f"{path} changed meanwhile")


class Occupied(Exception):
    """Some of the files exist already; nothing was written."""


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

    Each is written and flushed beside its place before the first of them takes it, in the order given. A new
    file gets its name by a call that fails where the name exists, so that of two programs one wins.

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
            as_it_was(each)
            for folder in missing_folders(each.path.parent):
                if _made(folder):
                    made.append(folder)
            ready.append((each, beside(each)))
        for each, fresh in ready:
            as_it_was(each)
            _take_place(each, fresh)
            done.append(each)
    except BaseException:
        undo(done)
        raise
    finally:
        for _, fresh in ready:
            fresh.unlink(missing_ok=True)
        for folder in reversed(made if len(done) < len(wanted) else ()):
            with suppress(OSError):
                folder.rmdir()


def write_new(contents: Mapping[Path, bytes]) -> tuple[Path, ...]:
    """Write files that do not exist yet; all of them or none, whatever stops it.

    Args:
        contents: What each is to hold; folders that are missing are made.

    Returns:
        The files written, in order of their names.

    Raises:
        Occupied: A file of that name exists; names the first of them.
        OSError: The machine does not let a file or folder be made there.
    """
    taken = sorted(path.as_posix() for path in contents if path.exists() or path.is_symlink())
    if taken:
        raise Occupied(_told(taken))
    try:
        write_all(Write(path, contents[path]) for path in sorted(contents))
    except Meanwhile as late:
        raise Occupied(_told([late.path.as_posix()])) from None
    return tuple(sorted(contents))


def _made(folder: Path) -> bool:
    """Make a folder; False where another program made it meanwhile."""
    try:
        folder.mkdir()
    except FileExistsError:
        if not folder.is_dir():
            raise
        return False
    return True


def as_it_was(write: Write) -> None:
    """Raise Meanwhile where a file is not as it was read."""
    there = write.path.read_bytes() if write.path.exists() else None
    if there != write.before:
        raise Meanwhile(write.path)


def beside(write: Write) -> Path:
    """Put the new bytes on the disk, under a name that no reader of records and no other program takes."""
    fresh = write.path.with_name(f".{write.path.name}.{os.getpid()}{BESIDE}")
    try:
        with fresh.open("wb") as file:
            file.write(write.after)
            file.flush()
            os.fsync(file.fileno())
        if write.before is not None:
            fresh.chmod(write.path.stat().st_mode & 0o7777)
    except BaseException as stopped:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
        if isinstance(stopped, OSError):
            stopped.filename = os.fspath(write.path)  # A person knows the file, not the name beside it.
        raise
    return fresh


_LINKLESS = {errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK, errno.EXDEV}
"""What file systems say that know no second name of a file, as those of memory cards."""


def _take_place(write: Write, fresh: Path) -> None:
    if write.before is not None:
        fresh.replace(write.path)
    else:
        take_new_place(write.path, fresh)


def take_new_place(place: Path, fresh: Path) -> None:
    """Give a file that is beside its place its name there.

    Args:
        place: Its place.
        fresh: Where it is.

    Raises:
        Meanwhile: There is one of that name.
        OSError: The machine refused.
    """
    try:
        os.link(fresh, place)
    except FileExistsError:
        raise Meanwhile(place) from None
    except OSError as error:
        if error.errno not in _LINKLESS:
            raise
        _take_name(place, fresh)
    _flush_folder(place.parent)


def _take_name(place: Path, fresh: Path) -> None:
    """Take a name where files have one alone: an empty file holds it, and is replaced at once."""
    try:
        place.open("xb").close()
    except FileExistsError:
        raise Meanwhile(place) from None
    fresh.replace(place)


def _flush_folder(folder: Path) -> None:
    """The name on the disk, where a machine lets a folder be flushed."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def undo(done: list[Write]) -> None:
    """Put files back as they were read, the last first."""
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


def left_behind(folder: Path) -> Iterator[Path]:
    """Files below a folder that a program was stopped over before they had their name, sorted."""
    yield from sorted(folder.rglob(f".*{BESIDE}"))


def _told(taken: list[str]) -> str:
    """The files in the way, a few by name."""
    named = ", ".join(taken[:_NAMED])
    others = f" and {len(taken) - _NAMED} more" if len(taken) > _NAMED else ""
    there = "exists" if len(taken) == 1 else "exist"
    return f"{named}{others} {there} already, so nothing was written."


_NAMED = 3
