"""Who got the pieces and how: the sentence at the top of a page, and the whole account further down."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.records.schema.item import Item, Specimen


@dataclass(frozen=True)
class Source:
    """So many pieces had in one way from one source; `whom` is empty where the record names none."""

    got: str
    whom: str
    count: int


@dataclass(frozen=True)
class PiecesOf:
    """The pieces of one item by source."""

    name: str
    sources: tuple[Source, ...]


@dataclass(frozen=True)
class Disclosure:
    """What the disclosure's words are made of.

    Attributes:
        pieces: Pieces tested.
        bought: How many of them were bought.
        others: The rest, by how and from whom.
        items: Every item's pieces, for the whole account.
        initiative: On whose initiative; empty where the reviewer's own.
        own_words: What the reviewer adds; empty without.
    """

    pieces: int
    bought: int
    others: tuple[Source, ...]
    items: tuple[PiecesOf, ...]
    initiative: str
    own_words: str


def disclosure(
    items: Mapping[str, Item], tested: Mapping[str, Iterable[str]], initiative: str, own_words: str
) -> Disclosure:
    """Count the pieces that were tested by how they were had.

    Args:
        items: The report's items by id, in its order.
        tested: Letters of the pieces that have runs, by item.
        initiative: As the record says; `own` for the reviewer's.
        own_words: What the reviewer adds.
    """
    by_item = {key: [items[key].specimens[letter] for letter in tested.get(key, ())] for key in items}
    every = _sources([piece for pieces in by_item.values() for piece in pieces])
    return Disclosure(
        sum(each.count for each in every),
        sum(each.count for each in every if each.got == "bought"),
        tuple(each for each in every if each.got != "bought"),
        tuple(PiecesOf(items[key].title, _sources(pieces)) for key, pieces in by_item.items() if pieces),
        "" if initiative == "own" else initiative,
        own_words,
    )


def _sources(pieces: Iterable[Specimen]) -> tuple[Source, ...]:
    counted = Counter((piece.got, piece.from_ or "") for piece in pieces)
    return tuple(Source(got, whom, count) for (got, whom), count in sorted(counted.items()))
