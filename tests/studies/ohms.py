"""How often intervals of resistances hold the truth: current reversed, a lead taken off, told for 20 °C.

The simulated bench is not the evaluation's model: the thermal EMF wanders between the two directions, the
part warms a little by its own current, meters split their error otherwise, and readings are rounded.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from generator.analysis import conductors, electrical
from generator.analysis.accuracy import ErrorSpec, ProbeSpec
from generator.analysis.instrument import Reading, measured, probe_error
from generator.analysis.linear import combined_uncertainty
from generator.analysis.uncertainty import Ledger, Uncertain, rectangle
from generator.analysis.worsening import Coefficient
from tests.simulator.heat import COPPER, Array
from tests.simulator.meters import generator, rounded
from tests.simulator.rig import SET
from tests.studies import plant
from tests.studies.coverage import ITEMS, Budgets, Held, Told, judged

OHMS = 3.0e-3
"""Of both items at 20 °C, Ω."""

LENGTH, LENGTH_WITHIN = 0.1, 0.003
"""Of the lead, m."""

LEAD = conductors.of_class(4.0, 5)
ALPHA = Coefficient()
WARM = 31.0
"""How warm the parts are, °C."""

EMF, EMF_WANDERS = 0.2, 0.005
"""Thermal EMF of a run and how far it goes between the two directions, mV, standard deviations."""

CLAMP = ErrorSpec("clamp", "A", *plant.CLAMP, resolution=plant.STEP_A, repeatability=plant.NOISE_A)
VOLTS = ErrorSpec(
    "meter",
    "V",
    plant.VOLTMETER[0],
    plant.VOLTMETER[1] * 1e-3,
    resolution=plant.STEP_MV * 1e-3,
    repeatability=plant.NOISE_MV * 1e-3,
)
LOGGER = ErrorSpec("logger", "K", *plant.LOGGER, resolution=plant.STEP_K, repeatability=plant.NOISE_K)
PROBE = ProbeSpec("probe", plant.PROBE[1], plant.PROBE[0])


@dataclass(frozen=True)
class Combination:
    """One cell: all shared errors over the spread between pieces, and pieces of each item."""

    ratio: float
    count: int


class Resistances(Budgets):
    """Budgets of resistances at 20 °C."""

    def __init__(self, count: int) -> None:
        super().__init__(Told(OHMS, "Ω", plant.STEP_MV * 1e-3 / SET))
        self.pieces = [
            [_number(self.ledger, f"{item}-{each}") for each in range(count)] for item in range(ITEMS)
        ]


def _number(ledger: Ledger, run: str) -> Uncertain:
    """One run by the evaluation's own formulas, at typical readings."""
    lead = LEAD.value * LENGTH * (1 + COPPER * (WARM - 20))
    volts = SET * (OHMS * (1 + ALPHA.value * (WARM - 20)) + lead)
    drops = [
        measured(ledger, sign * volts, VOLTS, Reading(("meter",), "drop", run, row))
        for row, sign in enumerate((1, -1))
    ]
    amps = [measured(ledger, SET, CLAMP, Reading(("clamp",), "current", run, row)) for row in (0, 1)]
    warm = measured(ledger, WARM, LOGGER, Reading(("logger",), "temperature", run, 0))
    warm = warm + probe_error(ledger, WARM, PROBE, ("probe",), run)
    between, _ = electrical.of_reversed((drops[0], amps[0]), (drops[1], amps[1]))
    length = ledger.input(rectangle((run, "length"), "length", LENGTH_WITHIN, "m", "run"), LENGTH)
    metre = electrical.per_metre(ledger, ("metre",), LEAD)
    alpha = electrical.temperature_coefficient(ledger, ("alpha",), ALPHA)
    return electrical.at_20(between - electrical.warm(metre * length, warm), warm, alpha)


def study(seed: int, combination: Combination, cases: int) -> Held:
    """Simulate, draw, judge; of one piece the truth is its own, of several the mean of all ever made.

    Args:
        seed: Of everything.
        combination: Ratio and number of pieces.
        cases: How many of each.
    """
    count = combination.count
    template = Resistances(count)
    fixed = template.ledger.without(template.pieces[0][0], {"run", "reading"})
    spread = combined_uncertainty(fixed) / combination.ratio if count > 1 else 0.0
    draw = generator(seed, "ohms", f"{combination.ratio:g}", str(count))
    ohms = draw.normal(OHMS, spread, (cases, ITEMS, count))
    found = _measured(draw, ohms.reshape(cases, -1)).reshape(ohms.shape)
    true = np.full((cases, ITEMS), OHMS)
    mean, apart, share = judged(template, found, true, "simulated")
    by_budget = template.drawn(draw, cases, spread)
    mean_drawn, apart_drawn, _ = judged(template, by_budget, true, "drawn")
    return Held(cases, mean, mean_drawn, apart, apart_drawn, share)


def _measured(draw: np.random.Generator, ohms: Array) -> Array:
    """What pieces come to by the readings of simulated runs; shape (cases, runs)."""
    cases, runs = ohms.shape
    clamp = plant.meter(draw, plant.CLAMP, cases, runs)
    volts = plant.meter(draw, plant.VOLTMETER, cases, runs)
    hot = plant.thermometer(draw, 1.0, cases, runs)
    alpha = draw.uniform(ALPHA.value - ALPHA.half_width, ALPHA.value + ALPHA.half_width, (cases, 1))
    metre = LEAD.value + LEAD.half_width * draw.uniform(-1, 1, (cases, 1))
    length = LENGTH + LENGTH_WITHIN * draw.uniform(-1, 1, (cases, runs))
    warm = (WARM + draw.uniform(-1.2, 1.2, ohms.shape)).reshape(-1, 1)
    emf = draw.normal(0.0, EMF, ohms.shape).reshape(-1, 1)
    ratios = []
    for sign in (1.0, -1.0):
        # Between the directions it warms a little more by its own current.
        warm = warm + draw.uniform(0.0, 0.1, warm.shape)
        amps = SET * (1 + 0.003 * draw.normal(size=warm.shape))
        lead = (metre * length).reshape(-1, 1) * (1 + COPPER * (warm - 20))
        between = (ohms * (1 + alpha * (warm.reshape(ohms.shape) - 20))).reshape(-1, 1) + lead
        drop = sign * 1e3 * amps * between + emf + draw.normal(0.0, EMF_WANDERS, warm.shape)
        read = rounded(drop + volts.at(drop) + draw.normal(0.0, plant.NOISE_MV, drop.shape), plant.STEP_MV)
        shown = rounded(amps + clamp.at(amps) + draw.normal(0.0, plant.NOISE_A, amps.shape), plant.STEP_A)
        ratios.append(1e-3 * read / shown)
    seen = rounded(warm + hot.at(warm) + draw.normal(0.0, plant.NOISE_K, warm.shape), plant.STEP_K)
    less = LEAD.value * LENGTH * (1 + COPPER * (seen - 20))
    found = ((ratios[0] - ratios[1]) / 2 - less) / (1 + ALPHA.value * (seen - 20))
    return np.asarray(found.reshape(ohms.shape))
