"""How often the 95 % interval of a rise read by infra-red holds the truth, and of a difference of two.

What the camera shows is made by quadratures of Planck's law (`tests.simulator.meters.indication`); what is
behind it is found by the evaluation's own steps. Emissivity and what is mirrored are drawn once a case: all
pieces of it are under one tape.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from generator.analysis.accuracy import ErrorSpec
from generator.analysis.infrared import Settings, surface
from generator.analysis.instrument import Reading, measured
from generator.analysis.linear import combined_uncertainty
from generator.analysis.surfaces import uncertain_surface
from generator.analysis.uncertainty import Ledger, Uncertain, rectangle
from tests.simulator.heat import Array
from tests.simulator.meters import Optics, generator, indication
from tests.studies import plant, reduced
from tests.studies.coverage import ITEMS, RISE, Budgets, Held, Told, judged

CAMERA = (0.0, 2.0)
"""Stated half-widths: share of the reading and a fixed part in K."""


@dataclass(frozen=True)
class Tape:
    """What the camera looks at, and how far off that may be.

    Attributes:
        emissivity: Of the tape.
        within: Half-width of that.
        reflected: Temperature of what it mirrors, °C.
        off: Half-width of that, K.
    """

    emissivity: float = 0.93
    within: float = 0.03
    reflected: float = 21.0
    off: float = 3.0

    @property
    def settings(self) -> Settings:
        """How the camera is set, to the evaluation."""
        return Settings(0.95, "set", 20.0)

    @property
    def optics(self) -> Optics:
        """The same to the simulator."""
        return Optics(0.95, 20.0, self.emissivity, self.reflected)


POOR = Tape(emissivity=0.70)
"""A painted surface at the lower end of what gives a figure."""


@dataclass(frozen=True)
class Row:
    """One cell of the table.

    Attributes:
        ratio: Standard uncertainty of all shared errors over the standard deviation between pieces.
        count: n, pieces of each item; of one piece the truth is its own.
        tape: What is looked at.
    """

    ratio: float
    count: int
    tape: Tape = Tape()


class Seen(Budgets):
    """Budgets of rises by camera over the air by a probe."""

    def __init__(self, row: Row, exponent: tuple[float, float]) -> None:
        super().__init__(Told(RISE, "K", plant.STEP_K))
        specs = replace(reduced.Specs.at(1.0, exponent), reads_low=0.0)
        draw = generator(0, "template")
        typical = plant.heated(draw, np.full((1, 1, 1), plant.resistance_for(RISE)), scale=0.0)
        read = (typical.body[0], typical.air[0], typical.current[0])
        showed = indication(typical.body[0], row.tape.optics)
        for item in range(ITEMS):
            made = []
            for piece in range(row.count):
                name = f"{item}-{piece}"
                heated = reduced.run(self.ledger, specs, read, name)
                heated = replace(heated, hot=_surfaces(self.ledger, row.tape, showed, name))
                number = reduced.reduce(self.ledger, specs, heated, name, str(item)).rise
                made.append(reduced.gathered(self.ledger, number, name))
            self.pieces.append(made)


def study(seed: int, row: Row, cases: int) -> Held:
    """Simulate, draw, judge.

    Args:
        seed: Of everything.
        row: Ratio, number of pieces, and the tape.
        cases: How many of each.
    """
    draw = generator(seed, "infra-red", f"{row.ratio:g} {row.tape.emissivity:g}", str(row.count))
    exponent = (plant.exponent(RISE), reduced.MEASURED)
    template = Seen(row, exponent)
    shared = template.ledger.without(template.pieces[0][0], {"run", "reading"})
    spread = combined_uncertainty(shared) / row.ratio if row.count > 1 else 0.0
    ohms = plant.resistance_for(RISE)
    deviation = spread * plant.ohms_per_kelvin(RISE)
    shape = (cases, ITEMS, row.count)
    readings = plant.heated(draw, draw.normal(ohms, deviation, shape), seen=_camera(row.tape))
    behind = np.array([_behind(row.tape, each) for each in readings.body[:, -1].tolist()])
    found = reduced.rises(replace(readings, body=behind[:, np.newaxis]), 0.0, exponent[0]).reshape(shape)
    true = np.full((cases, ITEMS), plant.mean_rise(ohms, deviation))
    if row.count == 1:
        true = readings.rise.reshape(cases, ITEMS)
    pieces_drawn = template.drawn(draw, cases, spread)
    mean, apart, share = judged(template, found, true, "simulated")
    mean_drawn, apart_drawn, _ = judged(template, pieces_drawn, np.full((cases, ITEMS), RISE), "drawn")
    return Held(cases, mean, mean_drawn, apart, apart_drawn, share)


def _camera(tape: Tape) -> plant.Seen:
    """One camera and one tape a case."""

    def seen(draw: np.random.Generator, body: Array, shape: tuple[int, ...]) -> Array:
        cases, items, pieces = shape
        runs = items * pieces
        emissivity, reflected = (
            np.repeat(middle + half * draw.uniform(-1, 1, (cases, 1)), runs, axis=0)
            for middle, half in ((tape.emissivity, tape.within), (tape.reflected, tape.off))
        )
        showed = indication(body, tape.optics, emissivity, reflected)
        error = plant.meter(draw, CAMERA, cases, runs)
        return plant.shown(draw, showed, error, plant.NOISE_K, plant.STEP_K)

    return seen


def _behind(tape: Tape, showed: float) -> float:
    return surface(showed, tape.settings, tape.emissivity, tape.reflected).temperature


def _surfaces(ledger: Ledger, tape: Tape, showed: Array, run: str) -> tuple[Uncertain, ...]:
    camera = ErrorSpec("camera", "K", *CAMERA, resolution=plant.STEP_K, repeatability=plant.NOISE_K)
    emissivity = ledger.input(rectangle(("tape",), "emissivity", tape.within, "1", "shared"), tape.emissivity)
    around = ledger.input(rectangle(("around",), "mirrored", tape.off, "K", "shared"), tape.reflected)
    return tuple(
        uncertain_surface(
            measured(ledger, each, camera, Reading(("camera",), "temperature", run, place)),
            tape.settings,
            emissivity,
            around,
        )
        for place, each in enumerate(showed.tolist())
    )
