"""Writes the files that a new bench begins with."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from generator.pages.locate import templates
from generator.records.schemas import FOLDER, line_for, schema_files

DOT = "dot-"
"""A template of `.gitignore` is called `dot-gitignore`: packaging tools leave files with a dot out."""


class Occupied(Exception):
    """Some of the files exist already; nothing was written."""


def new_bench(folder: Path, parts: tuple[str, ...]) -> tuple[Path, ...]:
    """Write the files of a new bench; all of them or none.

    Args:
        folder: Where to; made where it does not exist.
        parts: Folders of `site_templates` to copy, in order; a later one may not hold a file of an earlier.

    Returns:
        The files written, in order of their names.

    Raises:
        Occupied: A file of that name exists; names the first of them.
        OSError: The machine does not let a file or folder be made there.
    """
    contents = {folder / name: content for part in parts for name, content in _records(templates() / part)}
    contents |= {folder / FOLDER / name: content for name, content in schema_files().items()}
    taken = sorted(path.as_posix() for path in contents if path.exists() or path.is_symlink())
    if taken:
        raise Occupied(_told(taken))
    written: list[Path] = []
    made: list[Path] = []
    try:
        for path in sorted(contents):
            for above in _missing(path.parent):
                above.mkdir()
                made.append(above)
            with path.open("xb") as file:
                written.append(path)
                file.write(contents[path])
    except OSError:
        for path in written:
            path.unlink(missing_ok=True)
        for above in reversed(made):
            above.rmdir()
        raise
    return tuple(written)


def _told(taken: list[str]) -> str:
    """The files in the way, a few by name."""
    named = ", ".join(taken[:_NAMED])
    others = f" and {len(taken) - _NAMED} more" if len(taken) > _NAMED else ""
    there = "exists" if len(taken) == 1 else "exist"
    return f"{named}{others} {there} already, so nothing was written."


_NAMED = 3


def _missing(folder: Path) -> Iterator[Path]:
    """The folders that have to be made for this one, the highest first."""
    if not folder.is_dir():
        yield from _missing(folder.parent) if folder.parent != folder else ()
        yield folder


def _records(source: Path) -> Iterator[tuple[Path, bytes]]:
    """The files of a template, each record with the line that names its schema to an editor."""
    for name, content in _files(source):
        yield name, line_for(PurePosixPath(name.as_posix())).encode() + content


def _files(source: Path) -> Iterator[tuple[Path, bytes]]:
    for path in sorted(source.rglob("*")):
        if path.is_file():
            yield _undotted(path.relative_to(source)), path.read_bytes()


def _undotted(name: Path) -> Path:
    parts = (f".{part.removeprefix(DOT)}" if part.startswith(DOT) else part for part in name.parts)
    return Path(*parts)
