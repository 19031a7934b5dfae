"""Errors that are new in each reading of a channel: one influence a reading, however many errors it has."""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.analysis.inputs import Input
from generator.analysis.linear import elementary, influences
from generator.analysis.number import Uncertain

Known = tuple[tuple[tuple[Input, float], ...], float, str]
"""What an influence is: its inputs, each with its share of the standard uncertainty (their squares add up to
1); their estimate; and which reading it is of, empty for an input that is one for all."""


class EachReading:
    """The errors that are new in each reading of a channel.

    Whatever is made of a reading has its resolution and its repeatability in one proportion, so one influence
    carries both, and they are told apart when a figure is taken to pieces.
    """

    def __init__(self, entries: Sequence[Input], known: dict[object, Known]) -> None:
        """Prepare the errors of a channel.

        Args:
            entries: What is known of them in any reading, around 0, at least one above 0; several are of
                infinite degrees of freedom.
            known: Where what is made is told.
        """
        self.entries = tuple(entries)
        self._whole = math.hypot(*(entry.standard_uncertainty for entry in entries))
        self._dof = min(entry.dof for entry in entries)
        if len(self.entries) > 1 and math.isfinite(self._dof):
            raise ValueError(f"{self.entries[0].key}: a part of finite degrees of freedom acts by itself")
        self._shares = tuple((entry, entry.standard_uncertainty / self._whole) for entry in entries)
        self._known = known
        self._made: dict[str, Uncertain] = {}

    def of(self, reading: str) -> Uncertain:
        """The error of one reading, around 0; the same one whenever the same reading asks.

        Args:
            reading: Which one; it stands behind the keys.
        """
        found = self._made.get(reading)
        if found is None:
            found = self._made[reading] = elementary(0.0, self._whole, self._dof)
            for influence, _ in influences(found):
                self._known[influence] = self._shares, 0.0, reading
        return found
