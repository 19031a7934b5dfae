"""The demonstration bench's panel sockets: one piece of each, at two currents, by two versions."""

from __future__ import annotations

from dataclasses import dataclass

from tests.simulator.heat import Box
from tests.simulator.meters import Accuracy
from tests.simulator.populations import SEED
from tests.simulator.setups import Heating, Setup, Sitting
from tests.simulator.tried import Pushed, pushed

REPORT = "panel-sockets-12v"

CABLE_IN_BOX = 2.2e-3
"""Resistance at 20 °C of the 2.5 mm² cable inside, Ω."""

LEAD = 0.78e-3
"""Resistance at 20 °C of 100 mm of 2.5 mm² cable, Ω (7.8 Ω/km)."""

CONDITIONS = "{conductor: 2.5 mm2 class 5, enclosure: closed box 2 l, plug: %s, air-measured: beside the box}"


OWN_PLUG = "the plug that came with the socket"
OWN_PLUGS = {"tessvik-s12": 1.5, "okvarn-ps15": 1.15}
"""How many times the resistance with the reference plug is that with the plug that came with the socket."""


def setup(current: float, method: str, plug: str = "the reference plug") -> Setup:
    """How sockets were heated at a current, A."""
    times = OWN_PLUGS if plug == OWN_PLUG else {}
    return Setup(method, CONDITIONS % plug, "7 mm", "rear", current, Box(cable=CABLE_IN_BOX), LEAD, times)


CHANNELS = {
    "tessvik-s12:A": "CH3",
    "okvarn-ps15:A": "CH4",
    "ulmspar-u20:A": "CH5",
    "brundivar-b10:A": "CH6",
}
SITTINGS = (
    Sitting(
        "2026-03-25", 20.8, 0.5,
        {key: channel for key, channel in CHANNELS.items() if key.partition(":")[0] in OWN_PLUGS},
        setup(15.0, "socket-heating-15a/1", OWN_PLUG),
        ("By version 1: each socket with the plug of its own set.",),
    ),
    Sitting(
        "2026-04-14", 20.9, 0.6, CHANNELS, setup(10.0, "socket-heating-10a/1"),
        ("One socket of each in series, each in a box of its own, each with the reference plug in turn.",),
    ),
    Sitting(
        "2026-04-16", 21.4, 0.4, CHANNELS, setup(15.0, "socket-heating-15a/2"),
        ("The same four sockets, two days later, at the higher current.",),
    ),
)  # fmt: skip
EARLIER = Heating(
    "2026-03-24", "skavrint-p12", "A", "CH3", 20.6, 0.7,
    remark="By version 1, with the plug of the set. The piece went back to its owner the next day.",
    setup=setup(15.0, "socket-heating-15a/1", OWN_PLUG),
)  # fmt: skip

GAUGE = Accuracy(share=0.005, fixed=0.2, resolution=0.1, noise=0.03)
FORCES = {"tessvik-s12": 31.0, "okvarn-ps15": 22.5, "ulmspar-u20": 46.0, "brundivar-b10": 13.5}
"""Mean force to push the reference plug home, N."""

PUSHES, SCATTER = 10, 0.05


@dataclass(frozen=True)
class Push:
    """One run file: a plug pushed into a socket ten times.

    Attributes:
        item: Id of the item.
        date: ISO date.
        kept: How much of its force is left after the plugs before.
    """

    item: str
    date: str = "2026-04-13"
    kept: float = 1.0

    @property
    def name(self) -> str:
        """Id of the run, which is the file's name."""
        return f"{self.date}-push-{self.item.partition('-')[0]}-a"

    @property
    def record(self) -> Pushed:
        """What the gauge showed, and what was true."""
        drawn = self.item if self.kept == 1.0 else f"{self.item}, {self.kept}"
        force = FORCES[self.item] * self.kept
        return pushed(SEED, drawn, force, GAUGE, times=PUSHES, scatter=SCATTER)


PUSHED = tuple(Push(item) for item in FORCES)

WORN = "sockets-worn"
"""The report that no edition has published: the same sockets after two hundred plugs."""

WORN_DAY = "2026-11-21"
KEPT = {"tessvik-s12": 0.93, "okvarn-ps15": 0.7, "ulmspar-u20": 0.88}
PUSHED_WORN = tuple(Push(item, WORN_DAY, kept) for item, kept in KEPT.items())


def true_rises() -> dict[str, float]:
    """Heating run's id to the piece's true rise at the mark in that run's air, K."""
    rises = {EARLIER.name: EARLIER.record.truths[0].rise}
    for sitting in SITTINGS:
        for key, truth in zip(sitting.channels, sitting.record.truths, strict=True):
            rises[f"{sitting.date}/{key}"] = truth.rise
    return rises
