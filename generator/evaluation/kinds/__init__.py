"""Kinds of measure: how a run becomes a figure. A new kind is a module here and a line in `KINDS`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from generator.evaluation.kinds import heating
from generator.evaluation.kinds.task import Task
from generator.evaluation.reduced import Reduced


@dataclass(frozen=True)
class Kind:
    """One kind of measure.

    Attributes:
        unit: Unit of its figures.
        reduce: From a run to its figure, by a measure of this kind.
        first_only: Whether only the first run of a piece counts, later ones being shown and not averaged.
    """

    unit: str
    reduce: Callable[[Task[Any]], Reduced]
    first_only: bool


KINDS: dict[str, Kind] = {"heating": Kind("K", heating.reduce, first_only=True)}
"""By the `kind` of a method's measure."""
