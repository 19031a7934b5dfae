"""Heat balance of a fitting in a closed box: a fast contact in a slow box, in a moving room.

It is not the model that the evaluation fits (one exponential): it has two time constants, its power follows
the warm resistance, and the room and the current move while it heats.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

STEP = 10.0
"""Step of the time grid, s; the fast time constant is some thirty times longer."""


@dataclass(frozen=True)
class Fitting:
    """One piece, or many at once.

    Attributes:
        resistance: Of contact, fuse and body at 20 °C, Ω; shape (pieces,).
        coefficient: Growth of the resistance per kelvin above 20 °C, 1/K.
        to_box: Heat conductance from the contact to the box and its cable, W/K.
        capacity: Heat capacity of contact and body, J/K.
        worsening: Share of the resistance gained per hour under current; 0 for a sound joint.
    """

    resistance: Array
    coefficient: float = 0.003
    to_box: float = 0.07
    capacity: float = 32.0
    worsening: float = 0.0


@dataclass(frozen=True)
class Opening:
    """The lid lifted for a moment.

    Attributes:
        start: When, s from switching on.
        length: For how long, s.
        factor: How many times better the box loses heat meanwhile.
    """

    start: float
    length: float
    factor: float = 4.0


@dataclass(frozen=True)
class Box:
    """The closed box, the air and the cable in it.

    Attributes:
        to_room: Heat conductance to the room, W/K.
        capacity: Heat capacity, J/K.
        cable: Resistance at 20 °C of the cable inside, Ω.
        openings: When the lid was lifted.
    """

    to_room: float = 0.6
    capacity: float = 620.0
    cable: float = 1.4e-3
    openings: tuple[Opening, ...] = ()


COPPER = 0.00393
"""Growth of copper's resistance per kelvin, 1/K: IEC 60028 as commonly quoted, from memory."""


@dataclass(frozen=True)
class Warming:
    """What happened on the grid.

    Attributes:
        times: s from switching on; shape (steps + 1,).
        contact: Temperature of the contact, °C; shape (pieces, steps + 1).
        box: Temperature of the box, °C; shape (pieces, steps + 1).
    """

    times: Array
    contact: Array
    box: Array


def grid(minutes: float) -> Array:
    """Times from switching on to the end, s, one each `STEP`."""
    return np.arange(0.0, minutes * 60.0 + STEP / 2.0, STEP)


def resistance(fitting: Fitting, temperature: Array, time: float | Array) -> Array:
    """Resistance of each piece when warm, Ω.

    Args:
        fitting: The pieces.
        temperature: Of their contacts, °C; shape (pieces,) or (pieces, times).
        time: s from switching on.
    """
    cold = fitting.resistance if temperature.ndim == 1 else fitting.resistance[:, np.newaxis]
    warm: Array = cold * (1.0 + fitting.coefficient * (temperature - 20.0))
    return np.asarray(warm * (1.0 + fitting.worsening * np.asarray(time) / 3600.0))


def warm_up(fitting: Fitting, box: Box, current: Array, room: Array) -> Warming:
    """Heat the pieces, each in a box of its own, from the temperature of the room.

    Runge-Kutta of fourth order; current and room are straight between the points of the grid.

    Args:
        fitting: The pieces.
        box: The kind of box.
        current: A, on the grid.
        room: Temperature of the air round the box, °C, on the grid.
    """
    drive = np.stack([current, room])
    balance = _Balance(fitting, box)
    state = np.full((2, len(fitting.resistance)), room[0])
    track = [state]
    for at in range(len(current) - 1):
        state = balance.step(state, at * STEP, drive[:, at], drive[:, at + 1])
        track.append(state)
    whole = np.stack(track, axis=-1)
    return Warming(np.arange(len(current), dtype=np.float64) * STEP, whole[0], whole[1])


@dataclass(frozen=True)
class _Balance:
    """What flows where: a state is temperatures of contacts and boxes, a drive the current and the room."""

    fitting: Fitting
    box: Box

    def step(self, state: Array, time: float, begin: Array, end: Array) -> Array:
        half, middle = STEP / 2.0, (begin + end) / 2.0
        first = self.slope(state, time, begin)
        second = self.slope(state + first * half, time + half, middle)
        third = self.slope(state + second * half, time + half, middle)
        last = self.slope(state + third * STEP, time + STEP, end)
        return np.asarray(state + (first + 2.0 * second + 2.0 * third + last) * STEP / 6.0)

    def slope(self, state: Array, time: float, drive: Array) -> Array:
        (contact, inside), (current, room) = state, drive
        made = current**2 * resistance(self.fitting, contact, time)
        by_cable = current**2 * self.box.cable * (1.0 + COPPER * (inside - 20.0))
        passed = self.fitting.to_box * (contact - inside)
        lost = self.box.to_room * self.better(time) * (inside - room)
        return np.stack(
            [(made - passed) / self.fitting.capacity, (by_cable + passed - lost) / self.box.capacity]
        )

    def better(self, time: float) -> float:
        for opening in self.box.openings:
            if opening.start <= time < opening.start + opening.length:
                return opening.factor
        return 1.0


def steady_rise(
    fitting: Fitting, box: Box, minutes: float, room: float = 22.0, current: float = 30.0
) -> Array:
    """Rise over a still room at a steady current after so many minutes, K; shape (pieces,)."""
    still = np.ones(len(grid(minutes)))
    warming = warm_up(fitting, box, still * current, still * room)
    return np.asarray(warming.contact[:, -1] - room)


def settled_rise(fitting: Fitting, box: Box, room: float = 22.0, current: float = 30.0) -> Array:
    """Rise over a still room when everything has stopped moving, K; shape (pieces,). The joint must be sound.

    Both balances are straight lines in the two temperatures, so this is a pair of linear equations.
    """
    power = current**2 * fitting.resistance
    cable = current**2 * box.cable
    # (to_box - power a) x - to_box y = power (1 + a (room - 20)), x and y being rises over the room.
    contact = fitting.to_box - power * fitting.coefficient
    inside = fitting.to_box + box.to_room - cable * COPPER
    made = power * (1.0 + fitting.coefficient * (room - 20.0))
    by_cable = cable * (1.0 + COPPER * (room - 20.0))
    return np.asarray((made * inside + fitting.to_box * by_cable) / (contact * inside - fitting.to_box**2))
