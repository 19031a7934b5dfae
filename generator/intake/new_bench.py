"""Writes the files that a new bench begins with."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from generator.pages.locate import templates
from generator.records.schemas import FOLDER, line_for, schema_files
from generator.records.store import Occupied, write_new

__all__ = ["Occupied", "new_bench"]

DOT = "dot-"
"""A template of `.gitignore` is called `dot-gitignore`: packaging tools leave files with a dot out."""


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
    return write_new({**contents, **{folder / FOLDER / name: each for name, each in schema_files().items()}})


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
