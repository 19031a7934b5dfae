"""Heats pieces on a rig and reads the meters; gives back what was written down and what was true."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from tests.simulator import surroundings
from tests.simulator.head import Head
from tests.simulator.heat import (
    COPPER,
    Array,
    Box,
    Fitting,
    Opening,
    grid,
    resistance,
    settled_rise,
    steady_rise,
    warm_up,
)
from tests.simulator.meters import Accuracy, Conduction, Error, Meter, generator, probe, rounded

SCHEDULE = (0, 2, 5, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60)
SET, MARK = 30.0, 60
AIR_LAG = 120.0
"""Time constant of the probe in the air, s."""

ZERO_PAIRS = 5

LEAD = 0.47e-3
"""Resistance at 20 °C of 100 mm of 4 mm² cable, Ω (4.7 Ω/km): between the marks besides a holder."""


@dataclass(frozen=True)
class Population:
    """All pieces of one product as made.

    Attributes:
        resistance: Median at 20 °C, Ω.
        spread: Standard deviation of its logarithm from piece to piece.
        to_box: Heat conductance from the contact to the box, W/K.
        capacity: Heat capacity of one piece, J/K.
        coefficient: Growth of the resistance per kelvin above 20 °C, 1/K.
        worsening: Share of the resistance gained per hour under current.
    """

    resistance: float
    spread: float
    to_box: float = 0.07
    capacity: float = 32.0
    coefficient: float = 0.003
    worsening: float = 0.0

    def made(self, resistances: Array) -> Fitting:
        """Pieces with these resistances at 20 °C, Ω."""
        return Fitting(resistances, self.coefficient, self.to_box, self.capacity, self.worsening)

    def drawn(self, draw: np.random.Generator, pieces: int) -> Fitting:
        """So many pieces, taken at random."""
        return self.made(self.resistance * np.exp(draw.normal(0.0, self.spread, pieces)))

    def mean_rise(self, minutes: float, room: float = 22.0) -> float:
        """Mean over all pieces ever made of the rise at the mark, K, by Gauss-Hermite quadrature."""
        pieces, weights = self._all()
        return float(np.sum(weights * steady_rise(pieces, Box(), minutes, room, SET)))

    def mean_drop(self, minutes: float, room: float = 22.0) -> float:
        """Mean over all pieces ever made of the drop at the mark, V, likewise."""
        pieces, weights = self._all()
        warm = room + steady_rise(pieces, Box(), minutes, room, SET)
        return float(np.sum(weights * SET * resistance(pieces, warm, minutes * 60.0)))

    def _all(self) -> tuple[Fitting, Array]:
        """All pieces ever made by some of them, and the weight of each."""
        nodes, weights = np.polynomial.hermite_e.hermegauss(15)
        return self.made(self.resistance * np.exp(self.spread * nodes)), weights / np.sum(weights)


@dataclass(frozen=True)
class Wiring:
    """One thermometer: a probe on a channel of the logger."""

    channel: str
    probe: str


@dataclass(frozen=True)
class Place:
    """One piece (or bare cable) in the rig.

    Attributes:
        fitting: A single piece.
        wiring: The thermometer on its body.
        conduction: How far that thermometer reads low.
        lead: Resistance at 20 °C of the cable between the marks where the drop is read, Ω.
        head: Infra-red head that looks at it in place of the thermometer.
    """

    fitting: Fitting
    wiring: Wiring
    conduction: Conduction
    lead: float = LEAD
    head: Head | None = None


@dataclass(frozen=True)
class Plan:
    """What is particular to one heating.

    Attributes:
        name: Names its own random numbers.
        minutes: When the meters are read.
        air: Temperature of the room at the start, °C.
        ramp: Its drift, K an hour.
        openings: When the lid was lifted.
        slips: Minute and factor of a clamp reading taken with its jaw not shut.
        stop_limit: Indicated temperature at which the heating is stopped, °C.
        current: What the meter is set to show, A.
        box: What each piece lies in.
    """

    name: str
    minutes: tuple[int, ...] = SCHEDULE
    air: float = 21.5
    ramp: float = 0.6
    openings: tuple[Opening, ...] = ()
    slips: tuple[tuple[int, float], ...] = ()
    stop_limit: float = 110.0
    current: float = SET
    box: Box = field(default_factory=Box)


@dataclass(frozen=True)
class Truth:
    """What nobody at the bench knows.

    Attributes:
        rise: At the mark, at a steady set current over the run's mean air, K; of a run that was stopped what
            it would have come to.
        settled: The same when nothing moves any more, K; None of a joint that worsens, which never settles.
        drop: Across the piece alone at the mark, at the same current and air, V.
        current: Mean true current, A.
    """

    rise: float
    settled: float | None
    drop: float
    current: float


@dataclass(frozen=True)
class Record:
    """What was written down, a row a reading.

    Attributes:
        minutes: As noted.
        air: As shown, °C; shape (readings,).
        current: As shown, A; shape (readings,).
        bodies: As shown, °C; shape (pieces, readings).
        drops: As shown, mV; shape (pieces, readings).
        trims: Minutes after whose reading the current was set again.
        stopped: Minute of the reading that reached the stop limit; None where the run was completed.
        zero: Pairs side by side without current, °C; shape (1 + pieces, pairs), the air's probe first; no
            numbers of a piece that an infra-red head looks at.
        truths: One a piece.
    """

    minutes: tuple[int, ...]
    air: Array
    current: Array
    bodies: Array
    drops: Array
    trims: tuple[int, ...]
    stopped: int | None
    zero: Array
    truths: tuple[Truth, ...]


@dataclass(frozen=True)
class Rig:
    """The bench with its meters.

    Attributes:
        seed: Of every random number.
        logger: As stated for its channels, in °C.
        clamp: As stated, in A.
        voltmeter: As stated, in mV.
        calibrated: Names the calibration in force; a new one draws new errors.
    """

    seed: int
    logger: Accuracy
    clamp: Accuracy
    voltmeter: Accuracy
    calibrated: str = "first"
    air: Wiring = field(default_factory=lambda: Wiring("CH1", "k1"))

    def heat(self, plan: Plan, places: tuple[Place, ...]) -> Record:
        """Heat pieces in series, each in a box of its own, and read the meters by the plan."""
        draw = generator(self.seed, "run", plan.name)
        clamp = Meter.drawn(self.clamp, self.seed, "clamp", self.calibrated)
        clamp_error = clamp.in_run(draw)
        times = grid(plan.minutes[-1] + 1)
        supply = surroundings.supply(draw, times, plan.current, clamp_error, plan.minutes)
        room = surroundings.room(draw, times, plan.air, plan.ramp)
        hour = _Hour(times, supply.current, room, surroundings.moments(draw, plan.minutes, times))
        shown = clamp.reads(hour.read(supply.current), clamp_error, draw)
        for minute, factor in plan.slips:
            row = plan.minutes.index(minute)
            shown[row] = rounded(shown[row] * factor, self.clamp.resolution)
        air, zero = self._read(self.air, hour.read(surroundings.lagged(room, AIR_LAG)), plan.air, draw)
        box = replace(plan.box, openings=plan.openings)
        seen = [self._watch(place, box, hour, draw) for place in places]
        bodies, zeros, drops = (
            np.stack([getattr(each, name) for each in seen]) for name in ("body", "zero", "drop")
        )
        rows, stopped = _rows(plan, bodies)
        return Record(
            plan.minutes[:rows],
            air[:rows],
            shown[:rows],
            bodies[:, :rows],
            drops[:, :rows],
            tuple(minute for minute in supply.trims if minute < plan.minutes[rows - 1]),
            stopped,
            np.vstack([zero, zeros]),
            tuple(_truth(place.fitting, hour, plan) for place in places),
        )

    def _watch(self, place: Place, box: Box, hour: _Hour, draw: np.random.Generator) -> _Seen:
        warming = warm_up(place.fitting, box, hour.current, hour.room)
        contact = warming.contact
        if place.head is not None:
            around = hour.read(warming.box[0])
            body = place.head.shows(self.seed, hour.read(contact[0]), around, draw)
            zero = np.full(ZERO_PAIRS, np.nan)
        else:
            seen = contact[0] - place.conduction.low(contact[0] - hour.room)
            body, zero = self._read(place.wiring, hour.read(seen), float(hour.room[0]), draw)
        # The cable between the marks is as warm as half way from the box to the contact.
        cable = (contact[0] + warming.box[0]) / 2.0
        lead = place.lead * (1.0 + COPPER * (cable - 20.0))
        warm = resistance(place.fitting, contact, hour.times)[0] + lead
        volts = Meter.drawn(self.voltmeter, self.seed, "voltmeter", self.calibrated)
        millivolts = 1e3 * hour.read(hour.current * warm)
        return _Seen(body, zero, volts.reads(millivolts, volts.in_run(draw), draw))

    def _read(
        self, wiring: Wiring, true: Array, cold: float, draw: np.random.Generator
    ) -> tuple[Array, Array]:
        """What one thermometer shows, first in the run, then in a zero check at the cold temperature."""
        meter = Meter.drawn(self.logger, self.seed, "logger", wiring.channel, self.calibrated)
        channel, tip = meter.in_run(draw), probe(self.seed, wiring.probe)
        offset = channel.offset + channel.gain * tip.about + tip.offset
        error = Error(offset, channel.gain + tip.gain, tip.about)
        return meter.reads(true, error, draw), meter.reads(np.full(ZERO_PAIRS, cold), error, draw)


@dataclass(frozen=True)
class _Hour:
    """What the run lived through, on the grid, and when it was looked at."""

    times: Array
    current: Array
    room: Array
    at: Array

    def read(self, values: Array) -> Array:
        return np.interp(self.at, self.times, values)


def _truth(fitting: Fitting, hour: _Hour, plan: Plan) -> Truth:
    air, mean = float(np.mean(hour.room)), float(np.mean(hour.current))
    rise = float(steady_rise(fitting, plan.box, MARK, air, plan.current)[0])
    warm = resistance(fitting, np.array([air + rise]), MARK * 60.0)[0]
    drop = float(plan.current * warm)
    if fitting.worsening:
        return Truth(rise, None, drop, mean)
    return Truth(rise, float(settled_rise(fitting, plan.box, air, plan.current)[0]), drop, mean)


@dataclass(frozen=True)
class _Seen:
    body: Array
    zero: Array
    drop: Array


def _rows(plan: Plan, bodies: Array) -> tuple[int, int | None]:
    """How many rows were read, and the minute of the stop."""
    hot = np.flatnonzero(np.any(bodies >= plan.stop_limit, axis=0))
    if len(hot) == 0:
        return len(plan.minutes), None
    return int(hot[0]) + 1, plan.minutes[int(hot[0])]
