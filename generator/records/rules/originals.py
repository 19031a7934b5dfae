"""Files that meters wrote: there, and to the byte as they were when their readings went into a record."""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from generator.fault import Fault
from generator.records.files import content
from generator.records.library import Library
from generator.records.rules.common import absent
from generator.records.schema.originals import FOLDER, Original
from generator.records.schema.run import RunRecord
from generator.records.schema.sitting import Sitting

MOST_BYTES = 50_000_000
"""A camera's sequence as text comes to less than this."""


def folder_of(record: Path) -> Path:
    """Where the originals of a run or a sitting lie.

    Args:
        record: The file of the record.
    """
    return (record.parent if record.parent.name == "sittings" else record.parents[1]) / FOLDER


def check(library: Library) -> Iterator[Fault]:
    """The originals that runs and sittings name."""
    for _, runs in sorted(library.runs.items()):
        for run in runs.values():
            yield from _originals(run, library)
    for sitting in library.sittings.values():
        yield from _originals(sitting, library)


def _originals(record: RunRecord | Sitting, library: Library) -> Iterator[Fault]:
    if not record.originals:
        return
    folder = folder_of(record.place_of().file)
    there = sorted(each.name for each in folder.iterdir()) if folder.is_dir() else []
    for original in record.originals:
        if original.file not in there:
            place, path = original.place_of("file"), original.path_of("file")
            yield absent(f"there is no file in {folder.name}/", original.file, there, place, path)
        else:
            yield from _bytes(original, folder / original.file)
        yield from _columns(original, record, library)


def _bytes(original: Original, path: Path) -> Iterator[Fault]:
    data = content(path, MOST_BYTES)
    if isinstance(data, Fault):
        yield data
    elif (found := sha256(data).hexdigest()) == original.sha256:
        return
    elif original.sha256 in _with_other_ends(data):
        what = (
            f"of {original.file} only the line ends are other ones than the meter wrote, as git and editors "
            f"change them; put the file back as it was, and give git a line for it: "
            f"`reports/**/{FOLDER}/** -text` in .gitattributes"
        )
        yield original.fault(("sha256",), what)
    else:
        what = (
            f"{original.file} is no longer as the meter wrote it: its SHA-256 is {found[:12]}…, "
            f"not {original.sha256[:12]}…; put the file back as it was, or import it anew"
        )
        yield original.fault(("sha256",), what)


def _with_other_ends(data: bytes) -> Iterator[str]:
    """The SHA-256 of a file with either kind of line ends."""
    plain = data.replace(b"\r\n", b"\n")
    yield from (sha256(each).hexdigest() for each in (plain, plain.replace(b"\n", b"\r\n")))


def _columns(original: Original, record: RunRecord | Sitting, library: Library) -> Iterator[Fault]:
    """Each column that a file's column went into is there."""
    table = library.table(record.readings, record.place_of().file)
    if table is None:
        return
    labels = [column.head.label for column in table.columns]
    for name, label in original.columns.items():
        if label not in labels:
            place, path = original.place_of("columns", name), original.path_of("columns", name)
            yield absent("the readings have no column", label, labels, place, path)
