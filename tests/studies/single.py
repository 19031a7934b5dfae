"""Coverage of single runs, each through the whole chain: lag, curve, mark, current, probe, difference."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.analysis.comparison import difference
from generator.analysis.fit import UNSEEN, why_not_printed
from generator.analysis.interval import estimate, half_width, parts
from generator.analysis.specimens import figure
from generator.analysis.uncertainty import Component, Ledger
from tests.simulator.heat import Array
from tests.simulator.meters import generator
from tests.studies import plant, reduced


@dataclass(frozen=True)
class Meters:
    """What the bench has.

    Attributes:
        scale: Of the stated accuracy.
        measured: Whether the method measured the exponent of the current, or has the default 2 ± 0.4.
        rise: Of both pieces, K.
        moving_room: How much of its ramp and wandering the room has.
        sets: One reads both pieces, or two one each.
    """

    scale: float = 1.0
    measured: bool = True
    rise: float = 50.0
    moving_room: float = 1.0
    sets: int = 1

    @property
    def specs(self) -> reduced.Specs:
        """As stated."""
        return reduced.Specs.at(
            self.scale, (plant.exponent(self.rise), reduced.MEASURED) if self.measured else reduced.DEFAULT
        )


@dataclass(frozen=True)
class Held:
    """How many of the cases held the truth.

    Attributes:
        cases: Of each.
        rise: Of the first piece at the mark, by the simulator.
        rise_drawn: The same with each case's components drawn directly.
        difference: First less second piece, by the simulator.
        difference_drawn: The same with each case's components drawn directly.
        printed: Settled rises of first pieces that are printed.
        settled: Of these, how many hold it.
    """

    cases: int
    rise: int
    rise_drawn: int
    difference: int
    difference_drawn: int
    printed: int
    settled: int


def study(seed: int, meters: Meters, cases: int) -> Held:
    """Two pieces a case, read by one set of meters in a run each; the truth is that of the pieces.

    Args:
        seed: Of everything.
        meters: Of the bench.
        cases: How many.
    """
    draw = generator(
        seed,
        "single" if meters.sets == 1 else "single by meters of their own",
        f"{meters.scale:g}",
        str(meters.measured),
        f"{meters.rise:g} {meters.moving_room:g}",
    )
    ohms = np.full((cases, 2, 1), plant.resistance_for(meters.rise))
    readings = plant.heated(draw, ohms, scale=meters.scale, moving_room=meters.moving_room, sets=meters.sets)
    specs = [replace(meters.specs, named=str(item % meters.sets)) for item in (0, 1)]
    found = np.array([_case(draw, specs, readings, case) for case in range(cases)])
    return Held(cases, *(int(each) for each in found.sum(axis=0)))


def _case(
    draw: np.random.Generator, specs: Sequence[reduced.Specs], readings: plant.Readings, case: int
) -> list[bool]:
    ledger = Ledger()
    figures, curves = [], []
    for item in (0, 1):
        row, name = 2 * case + item, f"{item}"
        read: tuple[Array, ...] = (readings.body[row], readings.air[row], readings.current[row])
        heated = reduced.run(ledger, specs[item], (read[0], read[1], read[2]), name)
        found = reduced.reduce(ledger, specs[item], heated, name, name)
        curves.append(found)
        figures.append(figure(ledger, (name,), [found.rise], None, unit="K"))
    first = ledger.components(figures[0].number)
    told = estimate(figures[0].number.x, first, "K")
    between = difference(ledger, figures[0], figures[1], None)
    true = readings.rise[2 * case : 2 * case + 2].tolist()
    return [
        abs(told.value - true[0]) <= told.half_width,
        abs(drawn(draw, first)) <= told.half_width,
        abs(between.estimate.value - true[0] + true[1]) <= between.estimate.half_width,
        abs(drawn(draw, between.components)) <= between.estimate.half_width,
        *_settled(ledger, curves[0], float(readings.settled[2 * case])),
    ]


def _settled(ledger: Ledger, found: reduced.Reduced, true: float) -> tuple[bool, bool]:
    """Whether the settled rise is printed, and whether it is and holds the truth."""
    if why_not_printed(found.fit) is not None:
        return False, False
    value = found.settled.x
    reach = half_width(parts(ledger.components(found.settled)))
    return True, value - reach <= true <= value + reach + UNSEEN * abs(value)


def drawn(draw: np.random.Generator, components: Iterable[Component]) -> float:
    """An error made by drawing each of a budget's components from its own distribution."""
    return math.fsum(part.sensitivity * _one(draw, part) for part in components)


def _one(draw: np.random.Generator, part: Component) -> float:
    u = part.input.standard_uncertainty
    if part.input.distribution == "rectangular":
        return part.input.half_width * draw.uniform(-1.0, 1.0)
    return u * (draw.normal() if math.isinf(part.input.dof) else draw.standard_t(part.input.dof))
