"""Pulls a cable out of its holder: the force at which it lets go, and what the scale shows of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.simulator.meters import Accuracy, Meter, generator


@dataclass(frozen=True)
class Grip:
    """How all pieces of one product hold their cable.

    Attributes:
        force: Median of the force at which they let go, N.
        spread: Standard deviation of its logarithm from piece to piece.
    """

    force: float
    spread: float

    @property
    def mean(self) -> float:
        """Mean over all pieces ever made, N: of a log-normal, median · e^(spread²/2)."""
        return float(self.force * np.exp(self.spread**2 / 2.0))


@dataclass(frozen=True)
class Pulled:
    """One pull.

    Attributes:
        force: At which the cable came out, N.
        shown: What the scale's drag pointer was left at, N.
    """

    force: float
    shown: float


def pulled(seed: int, item: str, specimen: str, grip: Grip, scale: Accuracy) -> Pulled:
    """Pull the cable out of one piece; the scale errs by what it keeps and by what is new in each pull.

    Args:
        seed: Of every random number.
        item: Id of the item.
        specimen: Letter of the piece.
        grip: Of the item.
        scale: As stated, in N.
    """
    draw = generator(seed, "pull", item, specimen)
    force = float(grip.force * np.exp(draw.normal(0.0, grip.spread)))
    meter = Meter.drawn(scale, seed, "scale", "first")
    shown = meter.reads(np.array([force]), meter.in_run(draw), draw)
    return Pulled(force, float(shown[0]))
