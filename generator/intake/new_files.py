"""Puts new files in place: all of them or none, and never over one that exists."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from generator.records.store import missing_folders


class Occupied(Exception):
    """Some of the files exist already; nothing was written."""


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
    written: list[Path] = []
    made: list[Path] = []
    try:
        for path in sorted(contents):
            for above in missing_folders(path.parent):
                above.mkdir()
                made.append(above)
            with path.open("xb") as file:
                written.append(path)
                file.write(contents[path])
    except BaseException as stopped:
        for path in written:
            path.unlink(missing_ok=True)
        for above in reversed(made):
            with suppress(OSError):
                above.rmdir()
        if isinstance(stopped, FileExistsError) and stopped.filename in {str(path) for path in contents}:
            raise Occupied(_told([Path(str(stopped.filename)).as_posix()])) from None
        raise
    return tuple(written)


def _told(taken: list[str]) -> str:
    """The files in the way, a few by name."""
    named = ", ".join(taken[:_NAMED])
    others = f" and {len(taken) - _NAMED} more" if len(taken) > _NAMED else ""
    there = "exists" if len(taken) == 1 else "exist"
    return f"{named}{others} {there} already, so nothing was written."


_NAMED = 3
