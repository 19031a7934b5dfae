"""Several pieces of one item: their mean, the spread between them, and the figure that both make."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.uncertainty import (
    NEW_IN_EACH_RUN,
    Component,
    Key,
    Ledger,
    Uncertain,
    rectangle,
    scatter,
    total,
)

OWN_FROM = 5
"""From this number of pieces on an item's own spread is used."""


Origin = Literal["pooled", "own", "declared"]
"""From the pieces of several items together, of one item alone, or declared by the method."""


@dataclass(frozen=True)
class Spread:
    """Standard deviation between pieces of one item.

    Attributes:
        deviation: In the figure's unit.
        dof: Degrees of freedom ν, at least 1.
        origin: From the pieces of several items together, of this item alone, or declared by the method.
    """

    deviation: float
    dof: float
    origin: Origin


@dataclass(frozen=True)
class Figure:
    """A figure of one item.

    Attributes:
        key: Identity of the measure and the item.
        number: The value with every error but the spread; parts new in each run are left out where the
            spread already holds them.
        pieces: n, the number of pieces behind it.
        spread: The spread between pieces; None where it is not known.
        unit: Unit of the figure.
    """

    key: Key
    number: Uncertain
    pieces: int
    spread: Spread | None
    unit: str


def own_spread(values: Sequence[float]) -> Spread | None:
    """Sample standard deviation of the pieces of one item, ν = n − 1; None for fewer than two."""
    squares, dof = _squares(values)
    return Spread(math.sqrt(squares / dof), dof, "own") if dof else None


def pooled_spread(items: Iterable[Sequence[float]]) -> Spread | None:
    """Pooled standard deviation over items with at least two pieces: s² = Σ(nᵢ−1)sᵢ²/Σ(nᵢ−1).

    The pooled estimate of variance of ISO 3534-1 and GUM H.5.2.2; None where no item has two pieces.
    """
    found = [_squares(values) for values in items]
    dof = sum(each for _, each in found)
    if dof == 0:
        return None
    return Spread(math.sqrt(math.fsum(squares for squares, _ in found) / dof), dof, "pooled")


def spread_for(values: Sequence[float], pooled: Spread | None, declared: Spread | None) -> Spread | None:
    """The spread that an item's figure uses.

    Five pieces and more: its own. Two to four: the pooled one of the report's items. One: the one that the
    method declares, or none.

    Args:
        values: Figures of the item's pieces.
        pooled: Over all items of the report, this one included.
        declared: By the method.
    """
    if len(values) >= OWN_FROM:
        return own_spread(values)
    return pooled if len(values) > 1 else declared


def figure(
    ledger: Ledger,
    key: Key,
    pieces: Sequence[Uncertain],
    spread: Spread | None,
    *,
    unit: str,
    resolution: float = 0.0,
) -> Figure:
    """Mean over the pieces of an item.

    Args:
        ledger: Where the inputs are made.
        key: Identity of the measure and the item.
        pieces: The figure of each piece, at least one.
        spread: From `spread_for`.
        unit: Unit of the figures.
        resolution: Smallest step of a figure, in `unit`.

    Returns:
        The mean. From two pieces on the parts that are new in each run are left out, since the scatter of
        the pieces holds them; a spread below the resolution shows only that they fall on one step, so
        resolution/√12 is added once.

    Raises:
        ValueError: There are no pieces, or two and more without a spread.
    """
    n = len(pieces)
    if n == 0:
        raise ValueError(f"{key}: a mean of no pieces")
    if n > 1 and spread is None:
        raise ValueError(f"{key}: {n} pieces and no spread")
    mean = total(pieces) / n
    if n > 1 and spread is not None:
        mean = ledger.without(mean, NEW_IN_EACH_RUN)
        if spread.deviation < resolution:
            step = rectangle((*key, "resolution"), "resolution of the figure", resolution / 2, unit, "shared")
            mean = mean + ledger.input(step)
    return Figure(key, mean, n, spread, unit)


def components(ledger: Ledger, of: Figure) -> tuple[Component, ...]:
    """Everything uncertain about a figure: its errors, and the spread s/√n with its degrees of freedom."""
    return ledger.parts(with_spread(ledger, of.number, of.key, of.unit, ((of.spread, of.pieces),)))


def with_spread(
    ledger: Ledger, number: Uncertain, key: Key, unit: str, sides: Iterable[tuple[Spread | None, int]]
) -> Uncertain:
    """A number with the scatter of the means behind it.

    Args:
        ledger: Where the inputs are made.
        number: A figure or a difference of figures, without spread.
        key: Identity of the number.
        unit: Its unit.
        sides: Spread and number of pieces of each mean in it. Means that use one and the same estimate s
            share its degrees of freedom: u² = s²·Σ1/nᵢ with ν of s, not two parts of ν each. Each item's own
            is another estimate, even where both come out alike.
    """
    shares: list[tuple[Spread, list[float]]] = []
    for spread, n in sides:
        if spread is None:
            continue
        same = (parts for of, parts in shares if of == spread and spread.origin != "own")
        if (parts := next(same, None)) is None:
            shares.append((spread, parts := []))
        parts.append(1 / n)
    for place, (spread, parts) in enumerate(shares):
        entry = scatter(
            (*key, "spread", str(place)),
            f"spread between pieces, {spread.origin}",
            spread.deviation * math.sqrt(math.fsum(parts)),
            unit,
            "spread",
            dof=spread.dof,
        )
        number = number + ledger.input(entry)
    return number


def _squares(values: Sequence[float]) -> tuple[float, int]:
    """Sum of squared deviations from the mean, and n − 1 (0 for an empty sequence)."""
    if len(values) < 2:
        return 0.0, 0
    mean = math.fsum(values) / len(values)
    return math.fsum((each - mean) ** 2 for each in values), len(values) - 1
