"""Runs of a known curve: what is printed as settled rise, settled or not, worsening or not.

The curve is a fast part and a slow part of a tenth, both driven by the square of a current that creeps; it is
solved exactly. Only noise is added, so that a verdict is the curve's and the noise's.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from generator.analysis.current import rms_current
from generator.analysis.fit import HeatingFit, NoFit, fit_heating, why_not_printed, widened
from generator.analysis.settling import Criterion, disturbed, settling
from generator.analysis.worsening import Coefficient, Electrical, Noise, Trend, trend
from tests.simulator.heat import Array
from tests.simulator.meters import generator, rounded
from tests.simulator.rig import SCHEDULE, SET
from tests.studies import plant

SECONDS = np.array(SCHEDULE) * 60.0
END = float(SECONDS[-1])
AIR = 22.0
RISE_NOISE = 0.1
"""Stated standard deviation of a reading of a rise, K, as it is."""

AMPS, VOLTS = plant.NOISE_A, plant.NOISE_MV * 1e-3
"""Standard deviations of a reading of current, A, and drop, V, before rounding."""

NOISE = Noise(
    math.hypot(VOLTS, plant.STEP_MV * 1e-3 / math.sqrt(12.0)),
    math.hypot(AMPS, plant.STEP_A / math.sqrt(12.0)),
    math.hypot(plant.NOISE_K, plant.STEP_K / math.sqrt(12.0)),
)
"""As the meters state it."""

COLD = 3.0e-3
"""Resistance at 20 °C, Ω."""


@dataclass(frozen=True)
class Kind:
    """One kind of run.

    Attributes:
        rise: Settled, K.
        taus: Length of the run over the main time constant.
        slow: Share of the rise that is slow.
        slower: Time constant of the slow part over the main one.
        drift: Of the supply, largest share an hour, either way.
        worsening: Share of the resistance gained per hour.
    """

    rise: float = 50.0
    taus: float = 5.0
    slow: float = 0.0
    slower: float = 3.0
    drift: float = 0.0
    worsening: float = 0.0


@dataclass(frozen=True)
class Settled:
    """Settled rises of so many runs, with the noise of the readings as the only error.

    Attributes:
        runs: How many.
        printed: Of these, how many were printed.
        held: Of those printed, how many hold the true settled rise.
        held_plain: Of those printed, how many would hold it if they were not widened.
    """

    runs: int
    printed: int
    held: int
    held_plain: int


@dataclass(frozen=True)
class Judged:
    """What was said of so many runs.

    Attributes:
        runs: How many.
        settled: Called settled.
        rising: Called still rising.
        worsening: Called worsening.
        disturbed: Called disturbed.
    """

    runs: int
    settled: int
    rising: int
    worsening: int
    disturbed: int


def settled_rises(seed: int, kind: Kind, runs: int) -> Settled:
    """Simulate runs at a steady current and fit them.

    Args:
        seed: Of everything.
        kind: Of the runs; its supply does not drift.
        runs: How many.
    """
    draw = generator(seed, "settled", repr(kind))
    times, true = SECONDS.tolist(), curve(kind, 0.0)
    printed, held, plain = 0, 0, 0
    for _ in range(runs):
        fit = fit_heating(times, (true + draw.normal(0.0, RISE_NOISE, true.shape)).tolist(), RISE_NOISE)
        if why_not_printed(fit) is None:
            low, high = widened(fit)
            printed += 1
            held += low <= kind.rise <= high
            plain += abs(fit.settled - kind.rise) <= fit.settled_half_width
    return Settled(runs, printed, held, plain)


def verdicts(seed: int, kind: Kind, runs: int) -> Judged:
    """Simulate runs and say how they ended.

    Args:
        seed: Of everything.
        kind: Of the runs.
        runs: How many.
    """
    draw = generator(seed, "verdicts", repr(kind))
    found = np.array([_verdict(draw, kind) for _ in range(runs)])
    return Judged(runs, *(int(each) for each in found.sum(axis=0)))


def _verdict(draw: np.random.Generator, kind: Kind) -> list[bool]:
    # A supply at either end of its drift or anywhere between.
    creep = kind.drift * draw.uniform(-1.0, 1.0)
    current = SET * (1.0 + creep * SECONDS / 3600.0)
    risen = curve(kind, creep)
    read = risen + draw.normal(0.0, RISE_NOISE, risen.shape)
    amps = rounded(current + draw.normal(0.0, AMPS, risen.shape), plant.STEP_A)
    warm = COLD * (1.0 + draw.uniform(0.002, 0.004) * (AIR + risen - 20.0))
    warm *= 1.0 + kind.worsening * SECONDS / 3600.0
    volts = rounded(current * warm + draw.normal(0.0, VOLTS, risen.shape), plant.STEP_MV * 1e-3)
    corrected, fit = _corrected(read, amps)
    verdict = settling(SECONDS.tolist(), corrected, RISE_NOISE, Criterion(), fit).verdict
    return [
        verdict == "settled",
        verdict == "still-rising",
        resistance_trend(volts, amps, AIR + read, NOISE).worsening,
        disturbed(corrected, RISE_NOISE) is not None,
    ]


def worsening_on_bench(seed: int, worsening: float, runs: int) -> int:
    """How many runs of the simulator's heat balance are called worsening, warm resistance heating the piece.

    Args:
        seed: Of everything.
        worsening: Share of the resistance gained per hour; 0 for sound pieces.
        runs: How many.
    """
    draw = generator(seed, "bench", f"{worsening:g}")
    ohms = draw.uniform(2.0e-3, 4.0e-3, (runs, 1, 1))
    read = plant.heated(draw, ohms, worsening=worsening)
    return sum(
        resistance_trend(1e-3 * drop, amps, body, NOISE).worsening
        for drop, amps, body in zip(read.drop, read.current, read.body, strict=True)
    )


def curve(kind: Kind, creep: float) -> Array:
    """Rise at each reading, K, under a current that grows by a share `creep` an hour.

    The response of a first-order lag to (1 + d·t)² from rest: the polynomial u − τu' + τ²u'' less its start,
    which fades.
    """
    d = creep / 3600.0
    total = np.zeros_like(SECONDS)
    main = END / kind.taus
    for share, tau in ((1.0 - kind.slow, main), (kind.slow, kind.slower * main)):
        steady = (1.0 + d * SECONDS) ** 2 - 2.0 * d * tau * (1.0 + d * SECONDS) + 2.0 * (d * tau) ** 2
        total += (
            kind.rise
            * share
            * (steady - (1.0 - 2.0 * d * tau + 2.0 * (d * tau) ** 2) * np.exp(-SECONDS / tau))
        )
    return total


def resistance_trend(volts: Array, amps: Array, celsius: Array, noise: Noise) -> Trend:
    """The trend of the resistance over the warm readings.

    Raises:
        ValueError: There are too few readings.
    """
    readings = [
        Electrical(time, drop, current, temperature)
        for time, drop, current, temperature in zip(
            SECONDS.tolist(), volts.tolist(), amps.tolist(), celsius.tolist(), strict=True
        )
    ]
    found = trend(readings, noise, Coefficient())
    if found is None:
        raise ValueError("too few readings")
    return found


def _corrected(read: Array, amps: Array) -> tuple[list[float], HeatingFit | None]:
    """Rises at the set current, and their curve; by the way round the circle of the time constant."""
    times, plain = SECONDS.tolist(), read.tolist()
    try:
        first = fit_heating(times, plain, RISE_NOISE)
    except NoFit:
        return plain, None
    factors = [(SET / rms_current(times, amps.tolist(), time, first.tau)) ** 2 for time in times]
    corrected = [rise * factor for rise, factor in zip(plain, factors, strict=True)]
    try:
        return corrected, fit_heating(times, corrected, RISE_NOISE)
    except NoFit:
        return corrected, None
