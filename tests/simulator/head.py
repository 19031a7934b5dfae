"""An infra-red head that looks at a piece in its box, in place of a probe: as set, and as was written."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.simulator.heat import Array
from tests.simulator.meters import Accuracy, Meter, Optics, indication

ACCURACY = Accuracy(share=0.01, fixed=1.0, resolution=0.1, noise=0.15)


@dataclass(frozen=True)
class Head:
    """A head in one run.

    Attributes:
        name: Id of its record.
        optics: How it was set, and what is true of the tape that it looked at.
        written: How it was set and what it looked at, as noted at the bench: key to value.
    """

    name: str
    optics: Optics
    written: tuple[tuple[str, str], ...]

    def shows(self, seed: int, surface: Array, around: Array, draw: np.random.Generator) -> Array:
        """What it shows of a surface, °C.

        Args:
            seed: Of the error that it keeps.
            surface: True temperatures, °C.
            around: Temperature of the box's walls, which the tape mirrors, °C.
            draw: For what is new in the run.
        """
        meter = Meter.drawn(ACCURACY, seed, self.name)
        faultless = indication(surface, self.optics, reflected=around)
        return meter.reads(faultless, meter.in_run(draw), draw)

    @property
    def lines(self) -> list[str]:
        """What a run's record says of it."""
        return ["infrared:", *(f"  {key}: {value}" for key, value in self.written)]


WRONGLY_SET = Head(
    "wall-head-1",
    Optics(emissivity_set=0.85, reflected_set=28.0, emissivity=0.945, band=(8.0, 14.0)),
    (
        ("emissivity-set", "0.95"),
        ("emissivity", "0.95"),
        ("emissivity-within", "0.02"),
        ("surface", '"tape, black vinyl"'),
        ("reflected", "28 degC"),
        ("reflected-within", "5 K"),
        ("distance", "60 mm"),
        ("target", "18 mm"),
    ),
)
"""Still set from another job, which nobody saw before the report was published."""
