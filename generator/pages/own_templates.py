"""A bench's own templates: what goes wrong in one is told with its file and line, as of any of its files."""

from __future__ import annotations

import linecache
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from traceback import walk_tb

from generator.fault import Fault, Place, RecordsRefused


@contextmanager
def blamed(own: Path, root: Path) -> Iterator[None]:
    """Turn what goes wrong in a template below a folder into a fault of that file.

    Args:
        own: The folder of templates that somebody else wrote.
        root: The folder that paths are told relative to.

    Raises:
        RecordsRefused: A template of the folder can't be read or filled; with its line.
    """
    try:
        yield
    except RecordsRefused:
        raise
    except Exception as error:
        place = _place(error, own.absolute())
        if place is None:  # of our own templates, or of the code: it keeps its traceback
            raise
        what = f"this template can't be filled: {error}"
        raise RecordsRefused([Fault(place, "", what)], root) from error


def _place(error: Exception, own: Path) -> Place | None:
    """The line of a template that can't be read, else the innermost own line that was being filled."""
    at = [(frame.f_code.co_filename, line) for frame, line in walk_tb(error.__traceback__)]
    read = (getattr(error, "filename", None), getattr(error, "lineno", None))
    for name, line in (read, *reversed(at)):
        if isinstance(name, str) and isinstance(line, int) and Path(name).absolute().is_relative_to(own):
            linecache.checkcache(name)
            text = linecache.getline(name, line).rstrip("\n")
            return Place(Path(name).absolute(), line, len(text) - len(text.lstrip()) + 1, text)
    return None
