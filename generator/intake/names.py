"""Ids made from what a person calls a thing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.records.tree import slug

LONGEST = 40
"""Characters that an id may have."""


def id_from(*words: str) -> str:
    """The id that some words come nearest to, cut behind a whole word; empty where there is none."""
    whole = slug(" ".join(words))
    if len(whole) < LONGEST or "-" not in whole:
        return whole
    return whole.rpartition("-")[0]


def free(folder: Path, name: str, ending: str = "") -> str:
    """The first of `name`, `name-2`, `name-3` … that nothing in the folder is called; empty for no name.

    Args:
        folder: Where it is to stand.
        name: An id.
        ending: What is put behind it in the folder.
    """
    if not name:
        return ""
    return next(each for each in _numbered(name) if not (folder / f"{each}{ending}").exists())


def _numbered(name: str) -> Iterator[str]:
    yield name
    number = 1
    while True:
        number += 1
        tail = f"-{number}"
        yield f"{name[: LONGEST - len(tail)].rstrip('-')}{tail}"
