"""The demonstration bench's ring terminals: ten crimps of each, tugged, looked at and pulled off."""

from __future__ import annotations

from dataclasses import dataclass

from tests.simulator.bench import SCALE
from tests.simulator.populations import SEED
from tests.simulator.pull import Grip, Pulled, pulled
from tests.simulator.tried import failed

REPORT = "ring-terminals-m6"
METHOD = "crimp-pull/1"
DATE = "2026-05-06"
LETTERS = "ABCDEFGHJK"
"""Ten pieces; a letter I is taken for a figure."""

GRIPS = {
    "dorvekk-r6": Grip(force=372.0, spread=0.045),
    "skavrint-m6": Grip(force=352.0, spread=0.06),
    "ulmspar-46": Grip(force=248.0, spread=0.11),
}
BAD = ("dorvekk-r6", "G")
"""The crimp that two strands were left out of."""

BAD_HOLDS = 0.55
"""Share of the force that it holds."""

TUGS = 5
CHANCES = {"dorvekk-r6": 0.0, "skavrint-m6": 0.02, "ulmspar-46": 0.14}
"""Share of tugs in which a sound crimp moves."""

BAD_MOVES = 0.6


@dataclass(frozen=True)
class Crimp:
    """One run: a crimp tugged, looked at and pulled off.

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
    def bad(self) -> bool:
        """Whether strands were left out of it."""
        return (self.item, self.specimen) == BAD

    @property
    def pulled(self) -> Pulled:
        """What the scale showed, and what was true."""
        grip = GRIPS[self.item]
        held = Grip(grip.force * BAD_HOLDS, grip.spread) if self.bad else grip
        return pulled(SEED, self.item, self.specimen, held, SCALE)

    @property
    def moved(self) -> int:
        """In how many of the tugs it moved."""
        return failed(SEED, self.item, self.specimen, BAD_MOVES if self.bad else CHANCES[self.item], TUGS)


CRIMPS = tuple(Crimp(item, letter) for letter in LETTERS for item in GRIPS)
"""In the order in which they were pulled: one of each in turn."""
