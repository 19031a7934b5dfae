"""The demonstration bench: who made what, which piece was heated when, and what was true of it.

The populations are chosen so that the pieces' rises come out near 14 K for the plain cable and 28, 30, 53, 62
and 75 K for the holders, all but one piece, whose contact worsens; the pieces and all errors are then drawn.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from tests.simulator.heat import COPPER, Fitting, Opening
from tests.simulator.meters import Accuracy, Conduction, generator
from tests.simulator.pull import Grip, Pulled, pulled
from tests.simulator.rig import LEAD, MARK, SCHEDULE, Place, Plan, Population, Record, Rig, Wiring

SEED = 20260224
REPORT = "fuse-holders-30a"

LOGGER = Accuracy(share=0.005, fixed=0.5, resolution=0.1, noise=0.04)
CLAMP = Accuracy(share=0.01, fixed=0.2, resolution=0.1, noise=0.02)
VOLTMETER = Accuracy(share=0.005, fixed=0.3, resolution=0.1, noise=0.04)
RIG = Rig(SEED, LOGGER, CLAMP, VOLTMETER)

CABLE = "cable"
POPULATIONS = {
    CABLE: Population(resistance=LEAD, spread=0.0, to_box=0.0395, capacity=17.0, coefficient=COPPER),
    "tessvik-t30": Population(resistance=1.70e-3, spread=0.04),
    "veldrun-v30": Population(resistance=1.78e-3, spread=0.04),
    "okvarn-ih30": Population(resistance=3.14e-3, spread=0.03),
    "pallsto-f30": Population(resistance=3.43e-3, spread=0.03),
    "grenlo-30": Population(resistance=4.43e-3, spread=0.05),
}
WORSENING = {("grenlo-30", "C"): 0.2}
"""Item and letter of the pieces whose joint worsens, to the share of the resistance gained per hour."""

SCALE = Accuracy(share=0.01, fixed=2.0, resolution=2.0, noise=1.0)
GRIPS = {
    "tessvik-t30": Grip(force=388.0, spread=0.05),
    "veldrun-v30": Grip(force=296.0, spread=0.08),
    "okvarn-ih30": Grip(force=242.0, spread=0.06),
    "pallsto-f30": Grip(force=118.0, spread=0.10),
    "grenlo-30": Grip(force=84.0, spread=0.12),
}
TOOLS = {
    "tessvik-t30": "screwdriver, hand-tight",
    "veldrun-v30": "ratchet crimper",
    "okvarn-ih30": "lever",
    "pallsto-f30": "pliers",
    "grenlo-30": "pliers",
}


@dataclass(frozen=True)
class Heating:
    """One run file: what was heated on which day, and what was particular to it.

    Attributes:
        date: ISO date.
        item: Id of the item, or `cable`.
        specimen: Letter of the piece; for the cable its number in the series.
        channel: Of the probe on the body, with `with k7` where it is not the channel's own.
        air: Temperature of the room at the start, °C.
        ramp: Its drift, K an hour.
        minutes: When the meters were read.
        openings: When the lid was lifted.
        slips: Minute and factor of a clamp reading taken with its jaw not shut.
        remark: The comment at the top of the file.
        air_each: The air was noted at each so many readings.
        meters: Of those that may be left out: the bench meter, which reads the drop.
        events: Time and what happened, beyond the trims, which are written by themselves.
        excluded: Minute of a row and the reason why it does not count.
        deviations: From the method.
    """

    date: str
    item: str
    specimen: str
    channel: str
    air: float
    ramp: float
    minutes: tuple[int, ...] = SCHEDULE
    openings: tuple[Opening, ...] = ()
    slips: tuple[tuple[int, float], ...] = ()
    remark: str = ""
    air_each: int = 1
    meters: tuple[str, ...] = ("bench-meter-1",)
    events: tuple[tuple[int, str], ...] = ()
    excluded: dict[int, str] = field(default_factory=dict)
    deviations: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """Id of the run, which is the file's name."""
        return f"{self.date}-{self.item.partition('-')[0]}-{self.specimen.lower()}"

    @property
    def record(self) -> Record:
        """What was read, and what was true."""
        plan = Plan(self.name, self.minutes, self.air, self.ramp, openings=self.openings, slips=self.slips)
        return RIG.heat(plan, (place(self.item, self.specimen, self.channel),))


@dataclass(frozen=True)
class Sitting:
    """Pieces in series: one current, one air.

    Attributes:
        date: ISO date, and the sitting's id.
        air: Temperature of the room at the start, °C.
        ramp: Its drift, K an hour.
        channels: Item and letter, as `okvarn-ih30:A`, to the channel of its probe.
    """

    date: str
    air: float
    ramp: float
    channels: dict[str, str]

    @property
    def record(self) -> Record:
        """What was read, and what was true, pieces in the order of the channels."""
        keys = (key.split(":") for key in self.channels)
        places = (
            place(item, specimen, channel)
            for (item, specimen), channel in zip(keys, self.channels.values(), strict=True)
        )
        return RIG.heat(Plan(self.date, air=self.air, ramp=self.ramp), tuple(places))


def piece(item: str, specimen: str) -> Fitting:
    """The piece itself; the same one whenever it is heated."""
    # Each pass of the cable is the same cable.
    name = "1" if item == CABLE else specimen
    sound = POPULATIONS[item].drawn(generator(SEED, "piece", item, name), 1)
    return replace(sound, worsening=WORSENING.get((item, specimen), 0.0))


def place(item: str, specimen: str, channel: str) -> Place:
    """A piece in the rig, with the thermometer that a record names as `CH3` or `CH3 with k7`."""
    socket, _, other = channel.partition(" with ")
    common = generator(SEED, "conduction", "cement").uniform(0.2, 0.6)
    own = generator(SEED, "conduction", item).uniform(0.0, 0.3)
    wiring = Wiring(socket, other or f"k{socket.removeprefix('CH')}")
    # On the control the marks are as far apart as the cable that goes with a holder.
    lead = 0.0 if item == CABLE else LEAD
    return Place(piece(item, specimen), wiring, Conduction(common, own), lead)


STOPPED_AT = 42
"""The minute in which the worsening piece came to the stop limit."""

HEATINGS = (
    Heating("2026-02-24", CABLE, "1", "CH3", 20.9, 0.7, remark="First of the series: nothing but the cable."),
    Heating("2026-02-24", "tessvik-t30", "B", "CH3", 21.6, 0.5),
    Heating("2026-02-25", "veldrun-v30", "B", "CH3", 20.4, 0.9),
    Heating(
        "2026-02-25", "tessvik-t30", "C", "CH3", 21.8, 0.4, air_each=2,
        remark="Alone in the workshop: the air noted at every other reading.",
    ),
    Heating("2026-02-26", "veldrun-v30", "C", "CH4", 20.1, 1.1),
    Heating("2026-02-26", "okvarn-ih30", "B", "CH4", 21.9, 0.3),
    Heating("2026-02-27", "tessvik-t30", "D", "CH3", 19.8, 1.0),
    Heating(
        "2026-02-27", "grenlo-30", "B", "CH5", 21.3, 0.6, slips=((25, 0.93),),
        excluded={25: "jaw of the clamp not shut"},
    ),
    Heating(
        "2026-03-02", "okvarn-ih30", "C", "CH4", 20.6, 0.8, openings=(Opening(35 * 60.0, 10.0),),
        events=((35, "lid open ten seconds to free the probe lead"),),
    ),
    Heating(
        "2026-03-02", "veldrun-v30", "D", "CH4", 21.7, 0.2,
        minutes=tuple(41 if minute == 40 else minute for minute in SCHEDULE),
        deviations=("Read at 41 min in place of 40 min; someone at the door.",),
    ),
    Heating(
        "2026-03-05", "grenlo-30", "C", "CH5", 20.3, 0.9, minutes=(*SCHEDULE[:9], STOPPED_AT),
        remark="Switched off as the display went to the stop limit.",
    ),
    Heating("2026-03-05", "tessvik-t30", "E", "CH3", 21.5, -0.4, remark="Heating off; the room cools."),
    Heating(
        "2026-03-06", "veldrun-v30", "E", "CH5", 20.8, 0.6, meters=(),
        remark="The bench meter was lent out: no drops in this run.",
    ),
    Heating(
        "2026-03-06", "okvarn-ih30", "D", "CH4 with k8", 21.9, 0.5,
        remark="k4 came off when the box was closed; k8 took its place on the same channel.",
    ),
    Heating("2026-03-10", CABLE, "2", "CH3", 21.2, 0.5, remark="Last of the series: the same cable again."),
)  # fmt: skip

SITTING = Sitting(
    "2026-03-04",
    20.7,
    0.7,
    {
        "tessvik-t30:A": "CH3",
        "veldrun-v30:A": "CH4",
        "okvarn-ih30:A": "CH5",
        "pallsto-f30:A": "CH6",
        "grenlo-30:A": "CH7",
    },
)


@dataclass(frozen=True)
class Pull:
    """One run file: what was pulled out of its holder, on which day.

    Attributes:
        date: ISO date.
        item: Id of the item.
        specimen: Letter of the piece.
    """

    date: str
    item: str
    specimen: str

    @property
    def name(self) -> str:
        """Id of the run, which is the file's name."""
        return f"{self.date}-pull-{self.item.partition('-')[0]}-{self.specimen.lower()}"

    @property
    def record(self) -> Pulled:
        """What the scale showed, and what was true."""
        return pulled(SEED, self.item, self.specimen, GRIPS[self.item], SCALE)


PULLS = tuple(
    Pull(date, item, letter)
    for date, item, letters in (
        ("2026-03-11", "tessvik-t30", "ABCDE"),
        ("2026-03-11", "veldrun-v30", "ABCDE"),
        ("2026-03-12", "okvarn-ih30", "ABCD"),
        ("2026-03-12", "pallsto-f30", "A"),
        ("2026-03-12", "grenlo-30", "ABC"),
    )
    for letter in letters
)


@dataclass(frozen=True)
class Truths:
    """What was true of the whole bench.

    Attributes:
        pieces: Heating run's id to the piece's true rise at the mark in that run's air, K; of a run that was
            stopped what it would have come to.
        means: Item to the mean over all its sound pieces ever made, K.
        pulls: Pull run's id to the force at which that piece let go, N.
        mean_pulls: Item to the mean force over all its pieces ever made, N.
    """

    pieces: dict[str, float]
    means: dict[str, float]
    pulls: dict[str, float]
    mean_pulls: dict[str, float]


def truths() -> Truths:
    """What the evaluation ought to come near to."""
    pieces = {each.name: each.record.truths[0].rise for each in HEATINGS}
    for key, truth in zip(SITTING.channels, SITTING.record.truths, strict=True):
        pieces[f"{SITTING.date}/{key}"] = truth.rise
    air = float(np.mean([each.air + each.ramp / 2.0 for each in (*HEATINGS, SITTING)]))
    means = {item: population.mean_rise(MARK, air) for item, population in POPULATIONS.items()}
    pulls = {each.name: each.record.force for each in PULLS}
    return Truths(pieces, means, pulls, {item: grip.mean for item, grip in GRIPS.items()})
