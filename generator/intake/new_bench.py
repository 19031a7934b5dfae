"""Writes the files that a new bench begins with."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.pages.locate import templates

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
        Occupied: A file of that name exists; names all of them.
    """
    contents = {folder / name: content for part in parts for name, content in _files(templates() / part)}
    taken = sorted(path.as_posix() for path in contents if path.exists() or path.is_symlink())
    if taken:
        raise Occupied(f"these files exist already, so nothing was written: {', '.join(taken)}")
    written: list[Path] = []
    try:
        for path in sorted(contents):
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("xb") as file:
                written.append(path)
                file.write(contents[path])
    except OSError:
        for path in written:
            path.unlink(missing_ok=True)
        raise
    return tuple(written)


def _files(source: Path) -> Iterator[tuple[Path, bytes]]:
    for path in sorted(source.rglob("*")):
        if path.is_file():
            yield _undotted(path.relative_to(source)), path.read_bytes()


def _undotted(name: Path) -> Path:
    parts = (f".{part.removeprefix(DOT)}" if part.startswith(DOT) else part for part in name.parts)
    return Path(*parts)
