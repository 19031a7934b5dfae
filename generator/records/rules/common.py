"""What the rules share: how a reference to nothing is told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from difflib import get_close_matches

from generator.fault import Fault, Place
from generator.records.schema.told import nearest
from generator.records.units import in_words

MOST = 12
"""More ids than these are not listed; then the nearest are."""


def offered(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """The ids that a message offers in place of one that does not exist."""
    listed = tuple(known)
    return listed if len(listed) <= MOST else tuple(get_close_matches(name, listed, n=5, cutoff=0.5))


def absent(what: str, name: str, known: Iterable[str], place: Place, path: str) -> Fault:
    """The fault of a reference to nothing.

    Args:
        what: What is not there, in plain words: `there is no instrument`; ` of this name` is put behind.
        name: The id as written.
        known: The ids that there are.
        place: Where the reference stands.
        path: Keys down to it.
    """
    listed = tuple(known)
    near = nearest(name, listed) if listed else ", and none at all"
    return Fault(place, path, f"{what} of this name{near}", name, offered(name, listed))


def plainly(quantity: str) -> str:
    """A quantity with its article, in the words of a message."""
    words = in_words(quantity)
    if words != quantity:
        return words
    return f"an {words}" if words[0] in "aeiou" else f"a {words}"


def twice(names: Iterable[str]) -> Iterator[tuple[int, str]]:
    """Position and name of every name that was there before."""
    seen: set[str] = set()
    for number, name in enumerate(names):
        if name in seen:
            yield number, name
        seen.add(name)
