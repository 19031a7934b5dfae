"""An item begun: a product and its first pieces."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from string import ascii_uppercase

from generator.intake.begun import Begun, begun

MOST_PIECES = len(ascii_uppercase)


@dataclass(frozen=True)
class NewItem:
    """What a person said of a product; texts as typed, empty where nothing was said.

    Attributes:
        id: Its id.
        maker: Who made it.
        model: Its model.
        what: What it is.
        pieces: How many pieces there are.
        got: How they were had.
        from_: From whom.
        date: The day.
        paid: What was paid for the pack.
        pack: Pieces in the pack.
        marks: Marks on them.
        condition: Their condition.
        chosen: How they were chosen.
    """

    id: str
    maker: str
    model: str
    what: str
    pieces: int
    got: str
    from_: str
    date: str
    paid: str
    pack: str
    marks: str
    condition: str
    chosen: str

    @property
    def letters(self) -> str:
        """The letters of its pieces."""
        return ascii_uppercase[: self.pieces]


def new_item(root: Path, item: NewItem) -> Begun:
    """Begin the record of an item."""
    return begun(root, f"items/{item.id}.yml", "item.yml.jinja", item=item)
