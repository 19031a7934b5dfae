"""Figures of simulated runs: the evaluation's own chain for one run, and plain values of many at once."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from generator.analysis.accuracy import ErrorSpec, ProbeSpec
from generator.analysis.fit import HeatingFit
from generator.analysis.heating import at_mark, at_set_current, current_exponent, reads_low
from generator.analysis.instrument import Reading, measured, probe_error
from generator.analysis.lag import lag_weights
from generator.analysis.linear import linear
from generator.analysis.uncertainty import Ledger, Uncertain, combined, scatter, weighted
from generator.evaluation.kinds.lagging import Heated, fit_twice
from generator.evaluation.kinds.records import Record, TimeConstant
from tests.simulator.heat import Array
from tests.simulator.rig import SET
from tests.studies import plant

MARK = plant.SECONDS[-1]
WITHIN = 30.0
NOISE = math.sqrt(2.0 * (plant.NOISE_K**2 + plant.STEP_K**2 / 12.0))
"""Stated standard deviation of a reading of a rise, K."""

DEFAULT = (2.0, 0.4)
"""Exponent of the rise over the current where the method did not measure it, and its half-width."""

MEASURED = 0.1
"""Half-width of an exponent that was measured at two currents."""

TAU = 620.0
"""Time constant that a control of this box has, s; it lags the air and the current of many runs at once."""


@dataclass(frozen=True)
class Specs:
    """What the meters state, at a scale of their accuracy.

    Attributes:
        logger: Of temperatures.
        probe: Of temperatures.
        clamp: Of the current.
        reads_low: Most that a probe draws off, K.
        exponent: Of the rise over the current, and its half-width.
        named: Which set of meters it is; sets share no error.
    """

    logger: ErrorSpec
    probe: ProbeSpec
    clamp: ErrorSpec
    reads_low: float
    exponent: tuple[float, float]
    named: str = ""

    @classmethod
    def at(cls, scale: float, exponent: tuple[float, float]) -> Specs:
        """Logger, probes and clamp at a scale of their accuracy; exponent of the current ± its half-width."""
        return cls(
            ErrorSpec(
                "logger",
                "K",
                scale * plant.LOGGER[0],
                scale * plant.LOGGER[1],
                resolution=plant.STEP_K,
                repeatability=plant.NOISE_K,
            ),
            ProbeSpec("probe", scale * plant.PROBE[1], scale * plant.PROBE[0]),
            ErrorSpec(
                "clamp",
                "A",
                scale * plant.CLAMP[0],
                scale * plant.CLAMP[1],
                resolution=plant.STEP_A,
                repeatability=plant.NOISE_A,
            ),
            scale * plant.READS_LOW,
            exponent,
        )


def run(ledger: Ledger, specs: Specs, readings: tuple[Array, Array, Array], name: str) -> Heated:
    """One run as uncertain numbers.

    Args:
        ledger: Where the inputs are made.
        specs: Of the meters.
        readings: Body, air and current of the run, a row each.
        name: Of the run.
    """
    body, air, current = readings
    times = tuple(plant.SECONDS.tolist())
    hot = _channel(ledger, specs, body, "CH3", name)
    around = _channel(ledger, specs, air, "CH1", name)
    driven = tuple(
        measured(ledger, each, specs.clamp, Reading(("clamp", specs.named), "current", name, place))
        for place, each in enumerate(current.tolist())
    )
    return Heated(times, hot, Record(times, around), Record(times, driven))


def _channel(ledger: Ledger, specs: Specs, values: Array, channel: str, name: str) -> tuple[Uncertain, ...]:
    sensor = ("logger", specs.named, channel)
    return tuple(
        measured(ledger, each, specs.logger, Reading(sensor, channel, name, place))
        + probe_error(ledger, each, specs.probe, ("probe", specs.named, channel), name)
        for place, each in enumerate(values.tolist())
    )


@dataclass(frozen=True)
class Reduced:
    """What a run comes to.

    Attributes:
        rise: At the mark at the set current, K.
        fit: Its curve.
        settled: Settled rise of the curve with every error, K, printed or not.
    """

    rise: Uncertain
    fit: HeatingFit
    settled: Uncertain


def reduce(ledger: Ledger, specs: Specs, heated: Heated, name: str, item: str) -> Reduced:
    """One run by the evaluation's own steps.

    Raises:
        NoFit: There is no curve.
    """
    exponent = current_exponent(ledger, ("exponent",), *specs.exponent)
    fit = fit_twice(heated, NOISE, SET, exponent.x)
    off = ledger.input(scatter((name, "tau"), "time constant", fit.rate_u / fit.rate**2, "s", "run"))
    tau = TimeConstant(fit.tau, off, "fit")
    risen = [
        hot - heated.air.at(time)
        for time, hot in zip(heated.times, heated.hot, strict=True)
        if hot is not None
    ]
    at = at_mark(ledger, heated.times, risen, MARK, within=WITHIN, key=(name, "rise"))
    felt = at.rise + heated.air.at(at.time) - heated.air.lagged(at.time, tau)
    felt = felt + heated.air.wandering(ledger, (name,), at.time)
    whole = felt + reads_low(ledger, specs.reads_low, ("point",), item)
    figure = at_set_current(whole, heated.driven.rms(at.time, tau), SET, exponent)
    # The curve is through rises at the set current: of the correction its errors alone are taken.
    factor = figure / felt
    read = weighted(fit.sensitivities[1], risen)
    settled = (read + (fit.settled - read.x)) * (factor * (whole.x / felt.x / factor.x))
    return Reduced(figure, fit, settled)


def rises(readings: plant.Readings, scale: float, exponent: float) -> Array:
    """Rises at the mark of many runs as plain numbers, lagged by the control's time constant."""
    weights = np.array(lag_weights(plant.SECONDS.tolist(), TAU, MARK))
    # After nearly six time constants the weights of the lag are those of the mean square.
    square = readings.current**2 @ weights
    whole = readings.body[:, -1] - readings.air @ weights + scale * plant.READS_LOW / 2.0
    return np.asarray(whole * (SET**2 / square) ** (exponent / 2.0))


def valued(number: Uncertain, value: float) -> Uncertain:
    """A number of another value with the same errors."""
    return linear(value, ((1.0, number),))


def gathered(ledger: Ledger, number: Uncertain, name: str) -> Uncertain:
    """A run's figure with the noise of its many readings as one input."""
    noise = [part for part in ledger.components(number) if part.input.scope == "reading"]
    entry = scatter((name, "noise"), "noise of the readings", combined(noise), "K", "reading")
    return ledger.without(number, {"reading"}) + ledger.input(entry)
