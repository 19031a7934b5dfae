"""An error of which a part is common to all runs and the rest new in each."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from generator.analysis.linear import with_younger
from generator.analysis.uncertainty import Each, Input, Ledger, Scope, Uncertain


@dataclass(frozen=True)
class Split:
    """An error in its two parts.

    Attributes:
        ledger: Where its inputs are made.
        common: The part that every run has; None without one.
        new: The part that each run has anew; None without one.
    """

    ledger: Ledger
    common: Uncertain | None
    new: Each | None

    def of(self, run: str) -> Uncertain:
        """The error in one run."""
        if self.new is None:
            return self.ledger.exact(0.0) if self.common is None else self.common
        own = self.new.of((run,))
        return own if self.common is None else with_younger(self.common, own)


def split(ledger: Ledger, whole: Input | None, unshared: float, assumed: frozenset[str]) -> Split:
    """Split an error of half-width a into √(1 − unshared²)·a common to all runs and unshared·a new in each.

    Args:
        ledger: Where the inputs are made.
        whole: The error as a whole; None where there is none.
        unshared: Part of it that is new in each run, 0 to 1.
        assumed: Names of the figures behind it that are printed defaults.

    Raises:
        ValueError: The unshared part is not between 0 and 1.
    """
    if not 0 <= unshared <= 1:
        words = "an error" if whole is None else f"{whole.key}"
        raise ValueError(f"{words}: the unshared part is {unshared}, not between 0 and 1")
    if whole is None or whole.standard_uncertainty == 0:
        return Split(ledger, None, None)
    u = whole.standard_uncertainty
    common = replace(
        whole,
        label=f"{whole.label}, common to its runs",
        standard_uncertainty=u * math.sqrt(1 - unshared**2),
        scope="shared",
        assumed=takes_for_granted(assumed, "shared"),
    )
    new = replace(
        whole,
        key=(*whole.key, "run"),
        label=f"{whole.label}, new in each run",
        standard_uncertainty=u * unshared,
        scope="run",
        assumed=takes_for_granted(assumed, "run"),
    )
    return Split(
        ledger,
        ledger.input(common) if unshared < 1 else None,
        ledger.each((new,)) if unshared > 0 else None,
    )


def takes_for_granted(assumed: frozenset[str], scope: Scope) -> bool:
    """Whether a part of an error rests on printed defaults; how it is split counts at what is new."""
    return bool(assumed - {"resolution", "repeatability"} - (frozenset() if scope == "run" else {"unshared"}))
