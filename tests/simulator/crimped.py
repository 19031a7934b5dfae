"""The ring terminals' resistance, before they were pulled off: reversed pairs at a small current.

What is between the probes is the crimp and some cable, a little warmer than the air; the set-up makes a
thermal EMF, and the meters err by what they keep and by what is new in each run.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tests.simulator.heat import COPPER, Array
from tests.simulator.meters import Accuracy, Meter, generator, probe
from tests.simulator.populations import CLAMP, LOGGER, SEED, VOLTMETER
from tests.simulator.rig import LEAD
from tests.simulator.terminals import BAD, LETTERS

METHOD = "crimp-resistance/1"
CONTROL = "plain-cable"
DATE = "2026-05-05"
CURRENT = 20.0
"""Set, A."""

LENGTH, OFF = 50.0, 1.0
"""Of cable between the probe points, and how far off it may be, mm."""

TURNS = 3
"""Pairs of readings, the current one way and the other."""


@dataclass(frozen=True)
class Joint:
    """How all pieces of one product join their cable.

    Attributes:
        ohms: Median of the resistance at 20 °C, Ω.
        spread: Standard deviation of its logarithm from piece to piece.
    """

    ohms: float
    spread: float

    @property
    def mean(self) -> float:
        """Mean over all pieces ever made, Ω: of a log-normal, median · e^(spread²/2)."""
        return float(self.ohms * np.exp(self.spread**2 / 2.0))


JOINTS = {
    "dorvekk-r6": Joint(ohms=0.16e-3, spread=0.06),
    "skavrint-m6": Joint(ohms=0.21e-3, spread=0.05),
    "ulmspar-46": Joint(ohms=0.34e-3, spread=0.14),
}
BAD_TIMES = 1.4
"""By how much the crimp that two strands were left out of is the worse."""


@dataclass(frozen=True)
class Passed:
    """One run: current through a crimp, or through the cable alone, there and back.

    Attributes:
        item: Id of the item; the control's name for the cable alone.
        specimen: Letter of the piece; of the cable the number of the run.
    """

    item: str
    specimen: str

    @property
    def name(self) -> str:
        """Id of the run, which is the file's name."""
        return f"{DATE}-ohms-{self.item.partition('-')[0]}-{self.specimen.lower()}"

    @cached_property
    def ohms(self) -> float:
        """True resistance of the crimp alone at 20 °C, Ω; of the cable that of its length."""
        if self.item == CONTROL:
            return LEAD / 100.0 * LENGTH
        joint = JOINTS[self.item]
        drawn = joint.ohms * np.exp(
            generator(SEED, "joint", self.item, self.specimen).normal(0.0, joint.spread)
        )
        return float(drawn * (BAD_TIMES if (self.item, self.specimen) == BAD else 1.0))

    @cached_property
    def shown(self) -> Shown:
        """What the meters showed."""
        draw = generator(SEED, "ohms", self.item, self.specimen)
        air = generator(SEED, "ohms", "air").uniform(20.5, 22.0) + draw.uniform(-0.2, 0.2)
        warmer = draw.uniform(0.1, 0.4, 2 * TURNS)
        cable = 0.0 if self.item == CONTROL else LEAD / 100.0 * (LENGTH + draw.uniform(-OFF, OFF))
        warm = (self.ohms + cable) * (1.0 + COPPER * (air + warmer - 20.0))
        ways = np.tile([1.0, -1.0], TURNS)
        clamp = Meter.drawn(CLAMP, SEED, "clamp", "first")
        error = clamp.in_run(draw)
        # Set by the clamp, and so off by what it errs.
        current = ways * (CURRENT - float(error.at(np.array(CURRENT))) + draw.normal(0.0, 0.05, ways.size))
        told = air + float(probe(SEED, "k1").at(np.array(air)))
        emf = draw.uniform(-40e-6, 40e-6) + draw.normal(0.0, 3e-6, ways.size)
        return Shown(
            _read(VOLTMETER, ("voltmeter",), 1e3 * (current * warm + emf), draw),
            # The clamp tells how much, not which way.
            clamp.reads(np.abs(current), error, draw),
            _read(LOGGER, ("logger", "CH1"), np.full(ways.size, told), draw),
        )


@dataclass(frozen=True)
class Shown:
    """Readings in the order in which they were taken.

    Attributes:
        drop: mV.
        current: A.
        air: °C.
    """

    drop: Array
    current: Array
    air: Array


def _read(accuracy: Accuracy, name: tuple[str, ...], true: Array, draw: np.random.Generator) -> Array:
    meter = Meter.drawn(accuracy, SEED, *name, "first")
    return meter.reads(true, meter.in_run(draw), draw)


PASSED = (
    Passed(CONTROL, "1"),
    *(Passed(item, letter) for letter in LETTERS for item in JOINTS),
    Passed(CONTROL, "2"),
)
"""The cable alone first and last; between them one of each in turn."""
