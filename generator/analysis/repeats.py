"""Repeats: the mean of several readings or runs, their scatter in place of what is new in each of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.specimens import Spread
from generator.analysis.uncertainty import Key, Ledger, Scope, Uncertain, rectangle, scatter, total


@dataclass(frozen=True)
class Repeats:
    """What a mean is over.

    Attributes:
        key: Identity of the mean.
        what: What is repeated, for the budget ("readings").
        holds: Scopes that are new in each repeat, and so are in the scatter already.
        scope: How far the scatter of the mean reaches.
        unit: Unit of the figures' errors.
        resolution: Smallest step of a repeat, in `unit`; 0 where not known.
    """

    key: Key
    what: str
    holds: frozenset[Scope]
    scope: Scope
    unit: str
    resolution: float = 0.0


def mean_of_repeats(
    ledger: Ledger, numbers: Sequence[Uncertain], spread: Spread | None, of: Repeats
) -> Uncertain:
    """Mean of repeats with the experimental standard deviation of the mean, s/√n (GUM 4.2.3, equation 5).

    Errors common to the repeats stay as they are; those that are new in each are left out, since the scatter
    holds them. A scatter below the resolution shows only that the repeats fall on one step, so
    resolution/√12 is added once (GUM F.2.2.1).

    Args:
        ledger: Where the inputs are made.
        numbers: The repeats, at least one.
        spread: Standard deviation of one repeat; not asked for where there is one only.
        of: What they are.

    Returns:
        The mean; of one repeat, the repeat itself.

    Raises:
        ValueError: There are no repeats, or two and more without a spread.
    """
    n = len(numbers)
    if n == 0:
        raise ValueError(f"{of.key}: a mean of no {of.what}")
    if n == 1:
        return numbers[0]
    if spread is None:
        raise ValueError(f"{of.key}: {n} {of.what} and no spread")
    return ledger.without(total(numbers) / n, of.holds) + _scatter(ledger, n, spread, of)


def _scatter(ledger: Ledger, n: int, spread: Spread, of: Repeats) -> Uncertain:
    """What the scatter of n repeats leaves in their mean: nought, with its uncertainty."""
    label, key = f"scatter of the {of.what}", (*of.key, of.what)
    source = f"{n} {of.what}" if spread.origin == "own" else f"{n} {of.what}, {spread.origin} spread"
    deviation = spread.deviation / math.sqrt(n)
    part = scatter((*key, "scatter"), label, deviation, of.unit, of.scope, dof=spread.dof, source=source)
    if spread.deviation >= of.resolution:
        return ledger.input(part)
    step = rectangle((*key, "resolution"), f"{label}, resolution", of.resolution / 2, of.unit, of.scope)
    return ledger.input(part) + ledger.input(step)
