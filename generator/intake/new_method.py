"""A method begun from a starter: complete but for what only the person knows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.intake.begun import Begun, begun
from generator.pages.render import Renderer

STARTERS: dict[str, tuple[str, ...]] = {
    "heating": ("current", "minutes", "conductor", "enclosure", "where", "stop-limit", "air", "because"),
    "drop": ("current", "conductor", "lead"),
    "pull-out": ("conductor",),
    "force": ("what", "better"),
    "torque": ("conductor",),
    "count": ("what", "better"),
    "endurance": ("what", "failure"),
    "check": ("question", "good"),
}
"""Each starter, and what it asks."""


USUAL_MINUTES = "60"
"""Length of a run, min: common practice, no source."""

SHORTEST, LONGEST = 30, 600
"""Of a run, min: twice the window that settling needs, and a working day."""

_CLOSE = (0, 2, 5, 10, 15, 20, 25, 30)
"""Minutes at which a part is read while it warms fast; our choice."""


@dataclass(frozen=True)
class NewMethod:
    """What a person said of a method; what a starter does not ask is empty.

    Attributes:
        id: Its id.
        starter: Which starter it begins from.
        title: Its title.
        current: The set current.
        minutes: Length of a run, and its time mark.
        conductor: The cable.
        enclosure: What it lies in.
        where: Where the probe sits.
        lead: Length of cable between the points where a drop is read.
        stop_limit: Temperature at which a run is stopped.
        air: The air that temperatures are told for.
        because: Why that air.
        what: What the force does, what is counted, or what is done again and again.
        failure: What counts as broken.
        better: `higher`, `lower` or `neither`.
        question: What a look answers.
        good: The answer one hopes for: `yes`, `no` or `neither`.
    """

    id: str
    starter: str
    title: str
    current: str = ""
    minutes: str = USUAL_MINUTES
    conductor: str = ""
    enclosure: str = ""
    where: str = ""
    lead: str = ""
    stop_limit: str = ""
    air: str = ""
    because: str = ""
    what: str = ""
    failure: str = ""
    better: str = ""
    question: str = ""
    good: str = ""

    @property
    def schedule(self) -> str:
        """When to read: close at first, then every 10 min, in the last 15 min every 5."""
        end = int(self.minutes)
        last = range(end - 15, end + 1, 5)
        between = range(_CLOSE[-1] + 10, last[0], 10)
        return " ".join(str(each) for each in sorted({*(t for t in _CLOSE if t <= end), *between, *last}))


def new_method(root: Path, method: NewMethod) -> Begun:
    """Begin version 1 of a method."""
    template = f"methods/{method.starter}.yml.jinja"
    return begun(root, f"methods/{method.id}/1.yml", template, method=method)


def title_of(root: Path, starter: str, said: Mapping[str, str]) -> str:
    """The title of a method, made from the answers to its starter."""
    return Renderer(root).text("starters/methods/title.jinja", starter=starter, said=said).strip()
