"""What lies in the folders of a bench, and the bytes of one file, however odd either is."""

from __future__ import annotations

import stat
import unicodedata
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from generator.fault import Fault, Place

RECORD_ENDINGS = (".yml", ".yaml")
CSV_ENDING = ".csv"
HIDDEN_ENDING = ".txt"
"""What an editor puts behind a name without showing it: `run.yml.txt`."""


def walk(
    folder: Path,
    faults: list[Fault],
    skip: Callable[[Path], bool],
    above: frozenset[tuple[int, int]] = frozenset(),
) -> Iterator[Path]:
    """Every file below a folder, sorted; links to files and folders are followed.

    What begins with a point is left alone: it belongs to an editor or to the machine.

    Args:
        folder: Where to look.
        faults: Takes what is at fault: names that are one and the same to other machines, folders that cannot
            be opened, a record's name on something that is no file.
        skip: Whether a folder is not looked into.
        above: Device and number of each folder on the way down, so that no link leads round in a circle.
    """
    try:
        itself = _number(folder)
        names = sorted(each.name for each in folder.iterdir() if not each.name.startswith("."))
    except OSError as error:
        faults.append(Fault(Place(folder), "", f"the folder cannot be opened: {reason(error)}"))
        return
    if itself in above:
        faults.append(Fault(Place(folder), "", "this link leads back to a folder above it; take it out"))
        return
    faults.extend(_clashes(folder, names))
    for name in names:
        path = folder / name
        kind = _kind(path)
        if kind == "file":
            yield path
        elif kind == "folder" and not is_record_name(name):
            if not skip(path):
                yield from walk(path, faults, skip, above | {itself})
        elif is_record_name(name):
            faults.append(Fault(Place(path), "", _NO_FILE[kind]))


_NO_FILE = {
    "folder": "this is a folder, and a record is a file; rename the folder or take it out",
    "nothing": "this is a link to a file that is not there; put the file itself here",
    "other": "this is no ordinary file; put a text file in its place",
    "closed": "the file cannot be opened: permission denied",
}


def is_record_name(name: str) -> bool:
    """Whether a file of this name would be a record or a table of readings, its spelling aside."""
    return name.lower().removesuffix(HIDDEN_ENDING).endswith((*RECORD_ENDINGS, CSV_ENDING))


def content(path: Path, most: int) -> bytes | Fault:
    """The bytes of a file.

    Args:
        path: The file.
        most: How many bytes it may have.

    Returns:
        Its bytes, or why it cannot be read. A pipe or a device is never waited for.
    """
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode):
            return Fault(Place(path), "", _NO_FILE["folder" if stat.S_ISDIR(found.st_mode) else "other"])
        if found.st_size > most:
            what = (
                f"the file has {found.st_size / 1e6:.1f} MB; one of this type has {most / 1e6:g} MB at most"
            )
            return Fault(Place(path), "", what)
        return path.read_bytes()
    except OSError as error:
        return Fault(Place(path), "", f"the file cannot be opened: {reason(error)}")


def reason(error: OSError) -> str:
    """Why the machine refused, in its own words, lower case."""
    return (error.strerror or "it cannot be read").lower()


def _kind(path: Path) -> str:
    """What stands under a name: `file`, `folder`, `nothing` behind a link, `other`, or `closed` to us."""
    try:
        mode = path.stat().st_mode
    except PermissionError:
        return "closed"
    except OSError:
        return "nothing"
    if stat.S_ISREG(mode):
        return "file"
    return "folder" if stat.S_ISDIR(mode) else "other"


def _number(folder: Path) -> tuple[int, int]:
    found = folder.stat()
    return found.st_dev, found.st_ino


def _clashes(folder: Path, names: Iterable[str]) -> Iterator[Fault]:
    first: dict[str, str] = {}
    for name in names:
        same = unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())
        if same in first:
            # Told of the one that is not spelt as ids are, so that nothing that names the other is in want.
            odd, other = (first[same], name) if name == same else (name, first[same])
            what = f"'{other}' beside it is the same name to many machines; rename one of the two"
            yield Fault(Place(folder / odd), "", what)
        first.setdefault(same, name)
