"""Errors that are new each time, in each run or each reading: told once, one influence for each time."""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.analysis.inputs import Input, Key
from generator.analysis.linear import elementary, influence_of
from generator.analysis.number import Uncertain

Known = tuple[tuple[tuple[Input, float], ...], float, Key]
"""What an influence is: its inputs, each with its share of the standard uncertainty (their squares add up to
1); their estimate; and what stands behind their keys: which run or reading it is of."""


class Register:
    """What each influence of a ledger is.

    Attributes:
        known: By influence.
        made: Of what is new each time: by key the numbers of each time.
    """

    def __init__(self) -> None:
        self.known: dict[object, Known] = {}
        self.made: dict[Key, dict[Key, Uncertain]] = {}

    def add(self, number: Uncertain, known: Known) -> None:
        """Tell what the one influence of an elementary number is."""
        self.known[influence_of(number)] = known


class Each:
    """Errors that are new each time, and the same ones whenever the same time asks.

    Whatever is made of a reading has its resolution and its repeatability in one proportion, so one influence
    carries both, and they are told apart when a figure is taken to pieces.
    """

    def __init__(self, entries: Sequence[Input], register: Register) -> None:
        """Prepare the errors.

        Args:
            entries: What is known of them at any time, around 0, at least one, each above 0; several are of
                infinite degrees of freedom.
            register: Where what is made is told.
        """
        self._whole = math.hypot(*(entry.standard_uncertainty for entry in entries))
        self._dof = min(entry.dof for entry in entries)
        if len(entries) > 1 and math.isfinite(self._dof):
            raise ValueError(f"{entries[0].key}: a part of finite degrees of freedom acts by itself")
        self._shares = tuple((entry, entry.standard_uncertainty / self._whole) for entry in entries)
        self._register = register
        # Another error of the same keys finds what was made, and is told apart by its shares.
        self._made = register.made.setdefault(entries[0].key, {})

    def of(self, which: Key) -> Uncertain:
        """The errors of one time together, around 0.

        Args:
            which: Which run or reading; it stands behind the keys.

        Raises:
            ValueError: The key stands for another input already.
        """
        found = self._made.get(which)
        if found is None:
            found = self._made[which] = elementary(0.0, self._whole, self._dof)
            self._register.add(found, (self._shares, 0.0, which))
        elif self._register.known[influence_of(found)][0] is not self._shares:
            raise ValueError(f"{(*self._shares[0][0].key, *which)} is another input already")
        return found
