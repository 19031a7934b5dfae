"""The fuse holders opened fifty times each, and a meter's probe held to their slot, in one sitting."""

from __future__ import annotations

from dataclasses import dataclass

from tests.simulator.populations import SEED
from tests.simulator.tried import failed

METHOD = "holder-handling/1"
DATE = "2026-03-09"
OPENINGS = 50

CHANCES = {
    "tessvik-t30": 0.001,
    "veldrun-v30": 0.004,
    "okvarn-ih30": 0.015,
    "pallsto-f30": 0.06,
    "grenlo-30": 0.12,
}
"""Share of openings after which the lid does not hold."""

LETTERS = {
    "tessvik-t30": "ABCDE",
    "veldrun-v30": "ABCDE",
    "okvarn-ih30": "ABCD",
    "pallsto-f30": "A",
    "grenlo-30": "ABC",
}
REACHED = {
    "tessvik-t30": ("yes", ""),
    "veldrun-v30": ("no", "the leads are moulded in"),
    "okvarn-ih30": ("yes", "through the slot of the lever"),
    "pallsto-f30": ("no", "the lid has no slot"),
    "grenlo-30": ("yes", "beside the fuse"),
}
SOFTENED = ("grenlo-30", "C")
"""The piece that was stopped at the limit."""


@dataclass(frozen=True)
class Handled:
    """One run: a piece opened, and looked at.

    Attributes:
        item: Id of the item.
        specimen: Letter of the piece.
    """

    item: str
    specimen: str

    @property
    def key(self) -> str:
        """Its name in the sitting."""
        return f"{self.item}:{self.specimen}"

    @property
    def loose(self) -> int:
        """After how many of the openings the lid did not hold."""
        return failed(SEED, self.item, self.specimen, CHANCES[self.item], OPENINGS)

    @property
    def reached(self) -> tuple[str, str]:
        """Whether a probe reaches the contact, and what was seen."""
        if (self.item, self.specimen) == SOFTENED:
            return "could not tell", "the slot has closed where the body softened in its heating"
        return REACHED[self.item]


HANDLED = tuple(Handled(item, letter) for item, letters in LETTERS.items() for letter in letters)
AGAIN = tuple(Handled("okvarn-ih30", letter) for letter in "EFG")
SITTINGS = {
    DATE: (
        "After the heatings and before the pulls. A stroke on paper for each lid that sprang open.",
        HANDLED,
    ),
    "2026-10-05": ("The pieces of the changed stock, as the others in March.", AGAIN),
}
"""Date to the comment at the top of its file, and what was opened."""
