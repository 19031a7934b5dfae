"""Kinds of measure: how a run becomes a figure. A new kind is a module here and a line in `KINDS`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from generator.analysis.uncertainty import Ledger
from generator.evaluation.kinds import heating
from generator.evaluation.reduced import Reduced

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.run import Run
    from generator.records.schema.method import Method


@dataclass(frozen=True)
class Kind:
    """One kind of measure.

    Attributes:
        unit: Unit of its figures.
        reduce: From a run to its figure, by a measure of this kind.
        first_only: Whether only the first run of a piece counts, later ones being shown and not averaged.
    """

    unit: str
    reduce: Callable[[Ledger, Bench, Run, Method, Any], Reduced]
    first_only: bool


KINDS: dict[str, Kind] = {"heating": Kind("K", heating.reduce, first_only=True)}
"""By the `kind` of a method's measure."""
