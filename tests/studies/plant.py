"""Many heatings at once on the simulator's bench, each case with meters of its own.

The heat balance, the supply, the room and the moments of reading are the simulator's. The meters keep to
their stated variance, but split it otherwise than the evaluation supposes: how much of an error is new in
each run differs from meter to meter.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from tests.simulator import surroundings
from tests.simulator.heat import Array, Box, Fitting, grid, resistance, settled_rise, steady_rise, warm_up
from tests.simulator.meters import Error, rounded
from tests.simulator.rig import AIR_LAG, MARK, SCHEDULE, SET

SECONDS = np.array(SCHEDULE) * 60.0
TIMES = grid(MARK + 1)
CHUNK = 8_000
HISTORIES = 600

LOGGER = (0.005, 0.5)
PROBE = (0.004, 1.5)
CLAMP = (0.01, 0.2)
VOLTMETER = (0.005, 0.3)
"""Stated half-widths: share of the reading and a fixed part; in K, K, A and mV."""

STEP_K, NOISE_K = 0.1, 0.1
STEP_A, NOISE_A = 0.1, 0.1
STEP_MV, NOISE_MV = 0.1, 0.1
"""Resolution and repeatability as stated, and as they are."""

READS_LOW = 1.5
"""Most that a probe may draw off, K."""

HOLDER = 3.0e-3
"""Resistance at 20 °C of a holder that comes to some 50 K, Ω."""

AIR, AIR_RANGE, RAMP_RANGE = 21.0, 1.2, 0.8
"""The room at the start, °C, how far it differs from run to run, and how fast it may drift, K/h."""


Seen = Callable[[np.random.Generator, Array, tuple[int, ...]], Array]
"""From true temperatures of bodies to what is shown of them; see `heated`."""


@dataclass(frozen=True)
class Readings:
    """What was written down of many runs; each array has the shape (runs, readings).

    Attributes:
        body: °C.
        air: °C.
        current: A.
        drop: mV.
        rise: What was true at the mark of each run's piece, at the set current in that run's mean air, K;
            shape (runs,).
        settled: The same when nothing moves any more, K; shape (runs,).
    """

    body: Array
    air: Array
    current: Array
    drop: Array
    rise: Array
    settled: Array


@dataclass(frozen=True)
class Line:
    """An error of each run, offset + gain·value; shape (runs,) each."""

    offset: Array
    gain: Array

    def at(self, value: Array) -> Array:
        """The error where each run reads a row of values."""
        return np.asarray(self.offset[:, np.newaxis] + self.gain[:, np.newaxis] * value)


def meter(draw: np.random.Generator, stated: tuple[float, float], cases: int, runs: int) -> Line:
    """One meter a case, read in so many runs: kept errors and errors new in each run, rectangular."""
    new = _new(draw, cases)
    kept = np.sqrt(1.0 - new**2)
    gain, offset = (
        half * (kept * draw.uniform(-1, 1, (cases, 1)) + new * draw.uniform(-1, 1, (cases, runs)))
        for half in stated
    )
    return Line(offset.ravel(), gain.ravel())


def _new(draw: np.random.Generator, cases: int) -> Array:
    """Part of each half-width that is new in each run: 0.2 to 0.3, where the evaluation supposes 0.25."""
    return np.asarray(draw.uniform(0.2, 0.3, (cases, 1)))


def thermometer(draw: np.random.Generator, scale: float, cases: int, runs: int) -> Line:
    """A channel and its probe; the tolerance of the probe is the fixed part below 375 °C."""
    channel = meter(draw, (scale * LOGGER[0], scale * LOGGER[1]), cases, runs)
    probe = meter(draw, (0.0, scale * PROBE[1]), cases, runs)
    return Line(channel.offset + probe.offset, channel.gain)


def heated(
    draw: np.random.Generator,
    resistances: Array,
    *,
    scale: float = 1.0,
    worsening: float = 0.0,
    moving_room: float = 1.0,
    seen: Seen | None = None,
    sets: int = 1,
) -> Readings:
    """Heat pieces, each in a run of its own.

    Args:
        draw: For everything.
        resistances: At 20 °C, Ω; shape (cases, items, pieces).
        scale: Of the stated accuracy of logger, probes and clamp.
        worsening: Share of the resistance gained per hour.
        moving_room: How much of its ramp and wandering the room has, from 0 to 1.
        seen: What reads the bodies, in place of probes: from their true temperatures, °C, one row a run, with
            cases, items and pieces, to what is shown.
        sets: Of meters in a case: one reads all its pieces, or as many as there are items one item each.
    """
    cases, items, pieces = resistances.shape
    step = max(1, CHUNK // (items * pieces))
    parts = [
        _chunk(
            draw,
            resistances[at : at + step],
            scale,
            worsening=worsening,
            moving_room=moving_room,
            seen=seen,
            sets=sets,
        )
        for at in range(0, cases, step)
    ]
    return Readings(
        *(np.concatenate([getattr(part, name) for part in parts]) for name in Readings.__dataclass_fields__)
    )


def _chunk(
    draw: np.random.Generator,
    resistances: Array,
    scale: float,
    *,
    worsening: float,
    moving_room: float,
    seen: Seen | None,
    sets: int,
) -> Readings:
    cases, items, each = resistances.shape
    count, runs = resistances.size, items * each
    by = cases * sets, runs // sets
    hot, cool = (thermometer(draw, scale, *by) for _ in range(2))
    clamp = meter(draw, (scale * CLAMP[0], scale * CLAMP[1]), *by)
    volts = meter(draw, VOLTMETER, *by)
    supply, room, at = _histories(draw, count, moving_room)
    current = supply * (SET - clamp.at(np.full((count, 1), SET)))
    pieces = Fitting(resistances.ravel(), worsening=worsening)
    warming = warm_up(pieces, Box(), np.ascontiguousarray(current.T), np.ascontiguousarray(room.T))
    body = _read(warming.contact, at)
    lagged = surroundings.lagged(np.ascontiguousarray(room.T), AIR_LAG).T
    air = _read(lagged, at)
    around = np.mean(room[:, :-6], axis=1)
    drop = _read(1e3 * current * resistance(pieces, warming.contact, TIMES), at)
    amps = _read(current, at)
    if seen is None:
        low = scale * _drawn_off(draw, resistances.shape)
        told = shown(draw, body - low * (body - air) / 50.0, hot, NOISE_K, STEP_K)
    else:
        told = seen(draw, body, resistances.shape)
    return Readings(
        told,
        shown(draw, air, cool, NOISE_K, STEP_K),
        shown(draw, amps, clamp, NOISE_A, STEP_A),
        shown(draw, drop, volts, NOISE_MV, STEP_MV),
        _steady(pieces, around),
        _settled(pieces, around),
    )


def _drawn_off(draw: np.random.Generator, shape: tuple[int, ...]) -> Array:
    """What the probe's wire takes, K at a rise of 50 K: by the way of holding, a little by the item."""
    cases, items, pieces = shape
    own = _new(draw, cases)
    common, other = draw.uniform(-1, 1, (cases, 1)), draw.uniform(-1, 1, (cases, items))
    low = READS_LOW / 2.0 * (1.0 + np.sqrt(1.0 - own**2) * common + own * other)
    return np.repeat(low, pieces, axis=1).reshape(-1, 1)


def _histories(draw: np.random.Generator, count: int, moving_room: float) -> tuple[Array, Array, Array]:
    """Supply as a share of what it was set to, room and moments of reading, each run's taken from a store."""
    still = Error(0.0, 0.0)
    supplies = np.stack(
        [surroundings.supply(draw, TIMES, SET, still, SCHEDULE).current / SET for _ in range(HISTORIES)]
    )
    rooms = np.stack(
        [surroundings.room(draw, TIMES, 0.0, draw.uniform(-RAMP_RANGE, RAMP_RANGE)) for _ in range(HISTORIES)]
    )
    moments = np.stack([surroundings.moments(draw, SCHEDULE, TIMES) for _ in range(HISTORIES)])
    one, two, three = (draw.integers(0, HISTORIES, count) for _ in range(3))
    start = AIR + draw.uniform(-AIR_RANGE, AIR_RANGE, (count, 1))
    return supplies[one], moving_room * rooms[two] + start, moments[three]


def _read(track: Array, at: Array) -> Array:
    """Values of each run's track at its own moments."""
    place = at / (TIMES[1] - TIMES[0])
    before: NDArray[np.int64] = np.minimum(place.astype(np.int64), track.shape[1] - 2)
    share = place - before
    rows = np.arange(len(track))[:, np.newaxis]
    return np.asarray(track[rows, before] * (1 - share) + track[rows, before + 1] * share)


def shown(draw: np.random.Generator, true: Array, error: Line, noise: float, step: float) -> Array:
    """What meters show of true values, one row a run: their errors, noise, and the last digit."""
    return rounded(true + error.at(true) + draw.normal(0.0, noise, true.shape), step)


def _steady(pieces: Fitting, air: Array) -> Array:
    """Rise at the mark at the set current in still air."""
    sound = Fitting(pieces.resistance, pieces.coefficient)
    steps = len(grid(MARK))
    still = np.ones((steps, len(air)))
    return np.asarray(warm_up(sound, Box(), SET * still, air * still).contact[:, -1] - air)


def _settled(pieces: Fitting, air: Array) -> Array:
    """Rise at the set current in still air when nothing moves any more."""
    cold = pieces.resistance
    rises = [
        settled_rise(Fitting(cold[at : at + 1], pieces.coefficient), Box(), room, SET)[0]
        for at, room in enumerate(air.tolist())
    ]
    return np.array(rises)


@lru_cache
def resistance_for(rise: float) -> float:
    """Resistance at 20 °C in Ω of the piece that comes to a rise at the mark, K."""

    def off(ohms: float) -> float:
        return float(steady_rise(Fitting(np.array([ohms])), Box(), MARK, AIR, SET)[0]) - rise

    return float(brentq(off, 1e-4, 6e-3, xtol=1e-9))


def ohms_per_kelvin(rise: float) -> float:
    """How much more resistance goes with a rise that is higher by one kelvin, Ω/K."""
    return resistance_for(rise + 0.5) - resistance_for(rise - 0.5)


def true_rises(ohms: Array) -> Array:
    """Rise at the mark at the set current in still air, K, of pieces by their resistance at 20 °C, Ω."""
    parts = np.array_split(ohms, -(-len(ohms) // CHUNK))
    return np.concatenate([steady_rise(Fitting(part), Box(), MARK, AIR, SET) for part in parts])


def mean_rise(ohms: float, deviation: float) -> float:
    """Mean rise at the mark, K, of pieces whose resistance is normal, by Gauss-Hermite quadrature."""
    nodes, weights = np.polynomial.hermite_e.hermegauss(15)
    rises = steady_rise(Fitting(ohms + deviation * nodes), Box(), MARK, AIR, SET)
    return float(np.sum(weights * rises) / np.sum(weights))


@lru_cache
def exponent(rise: float) -> float:
    """Exponent of the rise over the current, as a method measures it at two currents."""
    piece = Fitting(np.array([resistance_for(rise)]))
    low, high = (float(steady_rise(piece, Box(), MARK, AIR, SET * share)[0]) for share in (0.98, 1.02))
    return math.log(high / low) / math.log(1.02 / 0.98)
