"""A method begun from a starter: complete but for what only the person knows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.intake.begun import Begun, begun
from generator.pages.render import Renderer

STARTERS: dict[str, tuple[str, ...]] = {
    "heating": ("current", "conductor", "enclosure", "where", "stop-limit", "air", "because"),
    "pull-out": ("conductor",),
    "force": ("what", "better"),
    "torque": ("conductor",),
    "count": ("what", "better"),
    "check": ("question", "good"),
}
"""Each starter, and what it asks."""


@dataclass(frozen=True)
class NewMethod:
    """What a person said of a method; what a starter does not ask is empty.

    Attributes:
        id: Its id.
        starter: Which starter it begins from.
        title: Its title.
        current: The set current.
        conductor: The cable.
        enclosure: What it lies in.
        where: Where the probe sits.
        stop_limit: Temperature at which a run is stopped.
        air: The air that temperatures are told for.
        because: Why that air.
        what: What the force does, or what is counted.
        better: `higher`, `lower` or `neither`.
        question: What a look answers.
        good: The answer one hopes for: `yes`, `no` or `neither`.
    """

    id: str
    starter: str
    title: str
    current: str = ""
    conductor: str = ""
    enclosure: str = ""
    where: str = ""
    stop_limit: str = ""
    air: str = ""
    because: str = ""
    what: str = ""
    better: str = ""
    question: str = ""
    good: str = ""


def new_method(root: Path, method: NewMethod) -> Begun:
    """Begin version 1 of a method."""
    template = f"methods/{method.starter}.yml.jinja"
    return begun(root, f"methods/{method.id}/1.yml", template, method=method)


def title_of(root: Path, starter: str, said: Mapping[str, str]) -> str:
    """The title of a method, made from the answers to its starter."""
    return Renderer(root).text("starters/methods/title.jinja", starter=starter, said=said).strip()
