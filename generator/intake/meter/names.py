"""Columns by their names, as in the file, by the start of one, or by number."""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Sequence


def names_of(cells: Sequence[str]) -> tuple[str, ...]:
    """The columns' names, each on one line; of two called Value the first is `Value 1`."""
    cells = [" ".join(cell.split()) if "\n" in cell else cell for cell in cells]
    often = Counter(cells)
    seen: Counter[str] = Counter()
    names = []
    for cell in cells:
        seen[cell] += 1
        names.append(f"{cell} {seen[cell]}" if cell and often[cell] > 1 else cell)
    return tuple(names)


def named(names: Sequence[str], key: str) -> tuple[int, ...]:
    """The columns, from 0, that a hint may name by name: the one called so, else those that begin so."""
    wanted = _even(key)
    even = [_even(name) for name in names]
    if exact := tuple(place for place, name in enumerate(even) if name == wanted):
        return exact
    return tuple(
        place
        for place, name in enumerate(even)
        if wanted and name.startswith(wanted) and not name[len(wanted)].isalnum()
    )


def places(names: Sequence[str], key: str) -> tuple[int, ...]:
    """The columns, from 0, that a hint may name by name or by number."""
    if found := named(names, key):
        return found
    number = int(key) if key.strip().isdecimal() and len(key) < 6 else 0
    return (number - 1,) if 0 < number <= len(names) else ()


def _even(text: str) -> str:
    return " ".join(unicodedata.normalize("NFC", text).split())
