"""A heating as it was planned: one piece by itself, or several in series; and how they were heated."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from tests.simulator.head import Head
from tests.simulator.heat import Box, Opening
from tests.simulator.populations import RIG, place
from tests.simulator.rig import LEAD, SCHEDULE, SET, Place, Plan, Record


@dataclass(frozen=True)
class Setup:
    """How pieces were heated.

    Attributes:
        method: Id and version.
        conditions: As a record writes them.
        strip: Length of bare conductor.
        point: Where the temperature is read, as the method names it.
        current: What was set, A.
        box: What each piece lay in.
        lead: Resistance at 20 °C of the cable between the marks besides the piece, Ω.
        times: Item to how many times its own resistance it has with what is plugged into it; once where left
            out.
    """

    method: str
    conditions: str
    strip: str
    point: str = "body"
    current: float = SET
    box: Box = field(default_factory=Box)
    lead: float = LEAD
    times: dict[str, float] = field(default_factory=dict)

    def place(self, item: str, specimen: str, channel: str) -> Place:
        """A piece in the rig, as it was heated."""
        return place(item, specimen, channel, self.lead, self.times.get(item, 1.0))


HOLDER_SETUP = Setup(
    "closed-box-heating/2",
    "{conductor: 4 mm2 class 5, enclosure: closed box 2 l, air-measured: beside the box}",
    "10 mm",
)


@dataclass(frozen=True)
class Heating:
    """One run file: what was heated on which day, and what was particular to it.

    Attributes:
        date: ISO date.
        item: Id of the item, or `cable`.
        specimen: Letter of the piece; for the cable its number in the series.
        channel: Of the probe on the body, with `with k7` where it is not the channel's own; empty where an
            infra-red head looks at it.
        air: Temperature of the room at the start, °C.
        ramp: Its drift, K an hour.
        minutes: When the meters were read.
        openings: When the lid was lifted.
        slips: Minute and factor of a clamp reading taken with its jaw not shut.
        remark: The comment at the top of the file.
        air_each: The air was noted at each so many readings.
        events: Time and what happened, beyond the trims, which are written by themselves.
        excluded: Minute of a row and the reason why it does not count.
        deviations: From the method.
        setup: How it was heated.
        head: The infra-red head, where one looks at the body.
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
    events: tuple[tuple[int, str], ...] = ()
    excluded: dict[int, str] = field(default_factory=dict)
    deviations: tuple[str, ...] = ()
    setup: Setup = HOLDER_SETUP
    head: Head | None = None

    @property
    def name(self) -> str:
        """Id of the run, which is the file's name."""
        return f"{self.date}-{self.item.partition('-')[0]}-{self.specimen.lower()}"

    @property
    def record(self) -> Record:
        """What was read, and what was true."""
        setup = self.setup
        plan = Plan(
            self.name,
            self.minutes,
            self.air,
            self.ramp,
            self.openings,
            self.slips,
            current=setup.current,
            box=setup.box,
        )
        place = setup.place(self.item, self.specimen, self.channel)
        return RIG.heat(plan, (replace(place, head=self.head),))

    @property
    def meter(self) -> str:
        """What reads the body, as a record names it."""
        return self.head.name if self.head is not None else f"logger-1/{self.channel}"


@dataclass(frozen=True)
class Sitting:
    """Pieces in series: one current, one air.

    Attributes:
        date: ISO date, and the sitting's id.
        air: Temperature of the room at the start, °C.
        ramp: Its drift, K an hour.
        channels: Item and letter, as `okvarn-ih30:A`, to the channel of its probe.
        setup: How they were heated.
        remarks: Comments at the top of the file.
    """

    date: str
    air: float
    ramp: float
    channels: dict[str, str]
    setup: Setup = HOLDER_SETUP
    remarks: tuple[str, ...] = ()

    @property
    def record(self) -> Record:
        """What was read, and what was true, pieces in the order of the channels."""
        keys = (key.split(":") for key in self.channels)
        places = (
            self.setup.place(item, specimen, channel)
            for (item, specimen), channel in zip(keys, self.channels.values(), strict=True)
        )
        setup = self.setup
        plan = Plan(self.date, air=self.air, ramp=self.ramp, current=setup.current, box=setup.box)
        return RIG.heat(plan, tuple(places))
