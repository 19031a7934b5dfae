"""Uncertain numbers, each input made once, so that errors which are shared are shared.

Propagation is the law of JCGM 100:2008 (GUM), 5.1, as the GTC library carries it out: an uncertain number
knows its sensitivity to every input below it, so that an error common to two readings cancels in their
difference and no correlation coefficient is ever written down.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Hashable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal, TypeVar, cast

import GTC

from generator.analysis import number
from generator.analysis.linear import elementary, influences, kept, linear

Uncertain = number.Uncertain
"""An uncertain real number, as the ledger makes them."""

Key = tuple[str, ...]
"""Identity of an input: figures that use the same key share the error."""

Made = TypeVar("Made")

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


@dataclass(frozen=True, slots=True)
class Component:
    """What one input does to one figure.

    Attributes:
        input: The input.
        estimate: The value taken for it, in its own unit (0 for an error).
        sensitivity: ∂y/∂x, in the figure's unit over the input's.
        contribution: Sensitivity × standard uncertainty, signed, in the figure's unit.
    """

    input: Input
    estimate: float
    sensitivity: float
    contribution: float

    @property
    def half_width(self) -> float:
        """Half-width in the figure's unit of a rectangular input; ValueError for another shape."""
        return abs(self.sensitivity) * self.input.half_width


Known = tuple[Input, float, str]
"""An input, its estimate, and which reading it is of; empty for an input that is one for all."""


class Ledger:
    """The inputs of one evaluation, each made once.

    Figures of two ledgers share nothing; one ledger serves one report.
    """

    def __init__(self) -> None:
        self._made: dict[Key, tuple[Input, Uncertain]] = {}
        self._known: dict[object, Known] = {}
        self._once: dict[Hashable, Any] = {}

    def input(self, entry: Input, estimate: float = 0.0) -> Uncertain:
        """The uncertain number of an input; the same one whenever the same key asks.

        Args:
            entry: What is known of it.
            estimate: Its value in its own unit.

        Raises:
            ValueError: The key was used before for another input or another estimate.
        """
        found = self._made.get(entry.key)
        if found is not None:
            known, number = found
            if known != entry or number.x != estimate:
                raise ValueError(f"{entry.key} was {known} at {number.x} and is now {entry} at {estimate}")
            return number
        number = self._new(entry, estimate) if entry.standard_uncertainty > 0 else self.exact(estimate)
        self._made[entry.key] = entry, number
        return number

    def each(self, entry: Input, reading: str) -> Uncertain:
        """The number, around 0, of an error new in each reading; its uncertainty is above 0.

        Args:
            entry: What is known of it in any reading.
            reading: Which one; it stands behind the key.
        """
        name = (*entry.key, reading)
        found = self._made.get(name)
        if found is None:
            found = self._made[name] = entry, self._new(entry, 0.0, reading)
        return found[1]

    def _new(self, entry: Input, estimate: float, reading: str = "") -> Uncertain:
        made = elementary(estimate, entry.standard_uncertainty, entry.dof)
        self._known.update((influence, (entry, estimate, reading)) for influence, _ in influences(made))
        return made

    def once(self, name: Hashable, make: Callable[[], Made]) -> Made:
        """Numbers that many readings contain, made at the first call of their name.

        Args:
            name: All that they depend on, their inputs' figures among it.
            make: Makes them.
        """
        if name not in self._once:
            self._once[name] = make()
        return cast("Made", self._once[name])

    def exact(self, value: float) -> Uncertain:
        """A number without uncertainty, in the form that arithmetic expects."""
        return cast("Uncertain", GTC.constant(value))

    def components(self, figure: Uncertain, without: Collection[Scope] = ()) -> tuple[Component, ...]:
        """What each input does to a figure.

        Args:
            figure: A number made from this ledger's inputs.
            without: Scopes to leave out.

        Returns:
            Components that are not zero, largest first, equals by key.

        Raises:
            ValueError: The figure rests on an input of another ledger.
        """
        found = [
            Component(replace(entry, key=(*entry.key, reading)) if reading else entry, *rest)
            for (entry, estimate, reading), part in self._parts(figure)
            if entry.scope not in without
            for rest in ((estimate, part / entry.standard_uncertainty, part),)
        ]
        return tuple(sorted(found, key=_largest_first))

    def parts(self, figure: Uncertain) -> tuple[Component, ...]:
        """The same in the order in which the inputs were made, readings of a channel under one key."""
        return tuple(
            Component(entry, estimate, part / entry.standard_uncertainty, part)
            for (entry, estimate, _), part in self._parts(figure)
        )

    def contributions(self, figure: Uncertain) -> list[tuple[Input, float]]:
        """Each input of a figure and what it contributes, signed; in the order of `parts`."""
        return [(known[0], part) for known, part in self._parts(figure)]

    def _parts(self, figure: Uncertain) -> list[tuple[Known, float]]:
        known, parts = self._known, list(influences(figure))
        # Errors that cancel leave a last bit or nothing, as the order of adding has it.
        least = 1e-12 * math.hypot(*[part for _, part in parts])
        try:
            return [(known[each], part) for each, part in parts if abs(part) > least]
        except KeyError as stranger:
            raise ValueError("the figure rests on an input of another ledger") from stranger

    def noise(self, figure: Uncertain) -> float:
        """Combined standard uncertainty of what is new in each reading of a figure."""
        return math.hypot(*(part for entry, part in self.contributions(figure) if entry.scope == "reading"))

    def without(self, figure: Uncertain, scopes: Collection[Scope]) -> Uncertain:
        """The same value without the errors of some scopes, linear in the others."""
        known = self._known
        return kept(figure, lambda influence: known[influence][0].scope not in scopes)


def total(numbers: Sequence[Uncertain]) -> Uncertain:
    """Sum of uncertain numbers."""
    return linear(math.fsum(number.x for number in numbers), ((1.0, number) for number in numbers))


def weighted(weights: Sequence[float], numbers: Sequence[Uncertain]) -> Uncertain:
    """Linear combination Σwᵢ·xᵢ of uncertain numbers.

    Raises:
        ValueError: The lengths differ.
    """
    pairs = list(zip(weights, numbers, strict=True))
    value = math.fsum([weight * number.x for weight, number in pairs])
    return linear(value, [pair for pair in pairs if pair[0] != 0])


def combined(components: Iterable[Component]) -> float:
    """Combined standard uncertainty √Σu_i² of independent components (GUM 5.1.2, equation 10)."""
    return math.hypot(*(part.contribution for part in components))


def effective_dof(components: Iterable[Component]) -> float:
    """Effective degrees of freedom of components; see `welch_satterthwaite`."""
    return welch_satterthwaite([(part.contribution, part.input.dof) for part in components])


def welch_satterthwaite(contributions: Sequence[tuple[float, float]]) -> float:
    """Effective degrees of freedom of independent contributions u_i of ν_i (GUM G.4.1, equation G.2b).

    Returns:
        ν_eff = u_c⁴ / Σ(u_i⁴/ν_i), not truncated; infinite where no contribution has finite ν.
    """
    whole = math.hypot(*(contribution for contribution, _ in contributions))
    if whole == 0:
        return math.inf
    # Shares of u_c first: the fourth power of a small contribution would underflow.
    bottom = math.fsum((contribution / whole) ** 4 / dof for contribution, dof in contributions)
    return 1 / bottom if bottom > 0 else math.inf


def _largest_first(part: Component) -> tuple[float, Key]:
    # Nine digits decide, so that the last bit of a sum never swaps two rows of a budget.
    return -float(f"{abs(part.contribution):.9g}"), part.input.key
