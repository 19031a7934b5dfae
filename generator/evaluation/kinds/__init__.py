"""Kinds of measure: how a run becomes a figure. A new kind is a module here and a line in `KINDS`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from generator.evaluation.kinds import electrical, heating, scalar
from generator.evaluation.kinds.task import Task
from generator.evaluation.reduced import Reduced
from generator.evaluation.statements import Better
from generator.records.schema.electrical import ELECTRICAL


@dataclass(frozen=True)
class Kind:
    """One kind of measure.

    Attributes:
        unit: Unit of the figures of a measure of this kind.
        better: Which way such a measure is better; None where neither is.
        reduce: From a run to its figure, by a measure of this kind.
        first_only: Whether only the first run of a piece counts, later ones being shown and not averaged;
            else a piece's figure is the mean of its runs.
    """

    unit: Callable[[Any], str]
    better: Callable[[Any], Better | None]
    reduce: Callable[[Task[Any]], Reduced]
    first_only: bool


KINDS: dict[str, Kind] = {
    "heating": Kind(lambda _: "K", lambda _: "lower", heating.reduce, first_only=True),
    "scalar": Kind(scalar.unit_of, lambda measure: measure.better, scalar.reduce, first_only=False),
    **{
        name: Kind(electrical.unit_of, lambda measure: measure.better, electrical.reduce, first_only=False)
        for name in ELECTRICAL
    },
}
"""By the `kind` of a method's measure."""
