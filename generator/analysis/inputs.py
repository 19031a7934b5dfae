"""Sources of error: what is known of each input before any figure is made of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Key = tuple[str, ...]
"""Identity of an input: figures that use the same key share the error."""

Distribution = Literal["rectangular", "normal", "t"]

Scope = Literal["shared", "run", "reading", "spread"]
"""How far an error reaches: all runs of its instrument, one run, one reading; or it is the pieces' spread."""

NEW_IN_EACH_RUN: frozenset[Scope] = frozenset({"run", "reading"})
"""Scopes that the scatter between runs already holds."""


@dataclass(frozen=True, slots=True)
class Input:
    """One source of error.

    Attributes:
        key: Its identity; two figures that use the same key share the error.
        label: Plain words for the budget; rows of a budget with the same label are printed as one.
        distribution: Its shape.
        standard_uncertainty: In `unit`.
        unit: Unit of the input, not of what it acts on ("1" for a share).
        scope: How far the error reaches.
        dof: Degrees of freedom of the standard uncertainty; infinite where it is taken as known.
        assumed: True where the figure is a printed default and not one that was measured or stated.
        source: Where the figure comes from.
    """

    key: Key
    label: str
    distribution: Distribution
    standard_uncertainty: float
    unit: str
    scope: Scope
    dof: float = math.inf
    assumed: bool = False
    source: str = ""

    def __post_init__(self) -> None:
        if not self.key:
            raise ValueError("an input needs a key")
        if not (math.isfinite(self.standard_uncertainty) and self.standard_uncertainty >= 0):
            raise ValueError(f"{self.key}: standard uncertainty is {self.standard_uncertainty}")
        if not self.dof >= 1:
            raise ValueError(f"{self.key}: {self.dof} degrees of freedom")
        if self.distribution == "t" and math.isinf(self.dof):
            raise ValueError(f"{self.key}: a t distribution needs finite degrees of freedom")

    @property
    def half_width(self) -> float:
        """Half-width of a rectangle, in `unit`.

        Raises:
            ValueError: The input is no rectangle.
        """
        if self.distribution != "rectangular":
            raise ValueError(f"{self.key}: a {self.distribution} distribution has no half-width")
        return self.standard_uncertainty * math.sqrt(3)


def rectangle(
    key: Key,
    label: str,
    half_width: float,
    unit: str,
    scope: Scope,
    *,
    assumed: bool = False,
    source: str = "",
) -> Input:
    """An input that lies anywhere within ± `half_width` with equal probability (GUM 4.3.7): u = a/√3."""
    return Input(
        key, label, "rectangular", half_width / math.sqrt(3), unit, scope, assumed=assumed, source=source
    )


def scatter(
    key: Key,
    label: str,
    deviation: float,
    unit: str,
    scope: Scope,
    *,
    dof: float = math.inf,
    assumed: bool = False,
    source: str = "",
) -> Input:
    """An input of standard uncertainty `deviation`: normal, or t where its degrees of freedom are finite."""
    shape: Distribution = "normal" if math.isinf(dof) else "t"
    return Input(key, label, shape, deviation, unit, scope, dof=dof, assumed=assumed, source=source)
