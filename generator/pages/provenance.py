"""Where the pieces of an item came from: those of one purchase together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.evaluation.prices import piece_price
from generator.pages.format import Day, day, money
from generator.records.schema.item import Item, Specimen


@dataclass(frozen=True)
class Provenance:
    """Pieces that were had in one way, as far as the record says; texts are empty where it says nothing."""

    letters: tuple[str, ...]
    got: str
    whom: str
    had: Day | None
    price: str
    pack: int
    marks: str
    condition: str
    chosen: str


def provenance(letters: Iterable[str], item: Item) -> tuple[Provenance, ...]:
    """Pieces gathered where everything said of them is the same."""
    alike: dict[tuple[object, ...], list[str]] = {}
    for letter in letters:
        alike.setdefault(_said(item.specimens[letter]), []).append(letter)
    return tuple(_gathered(each, item.specimens[each[0]]) for each in alike.values())


def _said(piece: Specimen) -> tuple[object, ...]:
    price = piece.paid.text if piece.paid else ""
    return (
        piece.got,
        piece.from_,
        piece.date,
        price,
        piece.pack,
        piece.marks,
        piece.lot,
        piece.condition,
        piece.chosen,
    )


def _gathered(letters: Sequence[str], piece: Specimen) -> Provenance:
    price = piece_price(piece)
    marks = ", ".join(part for part in (piece.marks, piece.lot) if part)
    return Provenance(
        tuple(letters),
        piece.got,
        piece.from_ or "",
        day(piece.date) if piece.date else None,
        money(price) if price else "",
        piece.pack,
        marks,
        piece.condition or "",
        piece.chosen or "",
    )
