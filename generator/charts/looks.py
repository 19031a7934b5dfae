"""Which colour role, marker and dash an item has: by its place in the report, the same in every chart."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Role = Literal["s1", "s2", "s3", "s4", "s5", "s6", "ink", "soft"]
"""What a colour is for; style sheets and the live chart fill it in."""

Dash = Literal["solid", "dot", "dash", "dashdot", "longdashdot", "dashdotdot", "longdash"]
Marker = Literal["circle", "triangle-up", "square", "diamond", "triangle-down", "pentagon", "none"]


@dataclass(frozen=True)
class Look:
    """How an item is told from the others, by colour and without it.

    Attributes:
        role: Its colour's role.
        marker: Its marker.
        dash: Its line.
    """

    role: Role
    marker: Marker
    dash: Dash


ITEMS = (
    Look("s1", "circle", "solid"),
    Look("s2", "triangle-up", "dot"),
    Look("s3", "square", "dash"),
    Look("s4", "diamond", "dashdot"),
    Look("s5", "triangle-down", "longdashdot"),
    Look("s6", "pentagon", "dashdotdot"),
)

OTHERS = Look("soft", "none", "solid")
"""Items beyond the sixth: named, and in the soft colour."""

CONTROL = Look("soft", "none", "longdash")

DASHES: dict[Dash, tuple[int, ...]] = {
    "solid": (),
    "dot": (2, 3),
    "dash": (6, 3),
    "dashdot": (8, 3, 2, 3),
    "longdashdot": (12, 3, 2, 3),
    "dashdotdot": (8, 3, 2, 3, 2, 3),
    "longdash": (10, 5),
}
"""Strokes and gaps in px; the style sheet holds the same."""


def look_of(order: int) -> Look:
    """The look of the item at a place in the report's list, counted from 0."""
    return ITEMS[order] if order < len(ITEMS) else OTHERS
