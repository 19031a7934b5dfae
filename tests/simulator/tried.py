"""What is not read off one pull: plugs pushed in again and again, and tries of which some fail."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.simulator.meters import Accuracy, Meter, generator


@dataclass(frozen=True)
class Pushed:
    """One plug pushed into one socket so many times.

    Attributes:
        force: Mean over all pushes that could ever be made, N.
        shown: What the gauge's pointer was left at, N, push by push.
    """

    force: float
    shown: tuple[float, ...]


def pushed(seed: int, item: str, force: float, gauge: Accuracy, *, times: int, scatter: float) -> Pushed:
    """Push a plug in; the gauge errs by what it keeps and by what is new in each run.

    Args:
        seed: Of every random number.
        item: Id of the item.
        force: Mean of the piece, N.
        gauge: As stated, in N.
        times: Pushes.
        scatter: Standard deviation from one push to the next, as a share of the force.
    """
    draw = generator(seed, "push", item)
    true = force * (1.0 + draw.normal(0.0, scatter, times))
    meter = Meter.drawn(gauge, seed, "gauge", "first")
    shown = meter.reads(true, meter.in_run(draw), draw)
    return Pushed(force, tuple(float(each) for each in shown))


def failed(seed: int, item: str, specimen: str, chance: float, tries: int) -> int:
    """How many of so many tries on one piece failed, each by the same chance."""
    return int(np.asarray(generator(seed, "tries", item, specimen).binomial(tries, chance)))
