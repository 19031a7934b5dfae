"""The difference of two figures, with the errors that they share cancelled."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.interval import Estimate, estimate, parts, tail
from generator.analysis.specimens import OWN_FROM, Figure, Origin, Spread, with_spread
from generator.analysis.uncertainty import Component, Ledger


@dataclass(frozen=True)
class Difference:
    """First figure less second.

    Attributes:
        estimate: The difference and its 95 % interval.
        p: Two-sided probability of a difference at least as large where there is none, 2·(1 − F(|d|)).
        components: What the interval is made of.
        spread_known: False where a side has no spread: then the figure speaks of the pieces tested only.
        by: Which spreads it rests on, each once: own alone is Welch's comparison; empty where none is known.
    """

    estimate: Estimate
    p: float
    components: tuple[Component, ...]
    spread_known: bool
    by: tuple[Origin, ...] = ()


def difference(ledger: Ledger, first: Figure, second: Figure, pooled: Spread | None) -> Difference:
    """First figure less second.

    Errors that both share cancel as far as they are shared. The scatter is of the pooled s where a side has
    fewer than five pieces, each side's own (Welch) where both have five and more; a single piece brings the
    spread that its method declares, or none.

    Args:
        ledger: The ledger that both figures were made with.
        first: A figure.
        second: Another, in the same unit.
        pooled: Spread pooled over the report's items; None where no item has two pieces.

    Raises:
        ValueError: The units differ.
    """
    if first.unit != second.unit:
        raise ValueError(f"a difference of {first.unit} and {second.unit}")
    sides = [(_spread(side, pooled, (first, second)), side.pieces) for side in (first, second)]
    number = with_spread(
        ledger,
        first.number - second.number,
        (*first.key, "less", *second.key),
        first.unit,
        sides,
    )
    components = ledger.parts(number)
    return Difference(
        estimate=estimate(number.x, components, first.unit),
        p=min(1.0, 2 * tail(abs(number.x), parts(components))),
        components=components,
        spread_known=all(spread is not None for spread, _ in sides),
        by=tuple(sorted({spread.origin for spread, _ in sides if spread is not None})),
    )


def _spread(side: Figure, pooled: Spread | None, pair: tuple[Figure, Figure]) -> Spread | None:
    few = any(each.pieces < OWN_FROM for each in pair)
    return pooled if few and side.pieces > 1 else side.spread
