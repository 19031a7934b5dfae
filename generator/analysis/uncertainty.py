"""Uncertain numbers, each input made once, so that errors which are shared are shared.

Propagation is the law of JCGM 100:2008 (GUM), 5.1, as the GTC library carries it out: an uncertain number
knows its sensitivity to every input below it, so that an error common to two readings cancels in their
difference and no correlation coefficient is ever written down.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Hashable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar, cast

import GTC

from generator.analysis import number
from generator.analysis.each import Each, Known, Register
from generator.analysis.inputs import (
    NEW_IN_EACH_RUN,
    Distribution,
    Input,
    Key,
    Scope,
    rectangle,
    scatter,
)
from generator.analysis.linear import elementary, influences, kept, linear

__all__ = [
    "NEW_IN_EACH_RUN",
    "Component",
    "Distribution",
    "Each",
    "Input",
    "Key",
    "Ledger",
    "Scope",
    "Uncertain",
    "combined",
    "effective_dof",
    "rectangle",
    "scatter",
    "total",
    "weighted",
    "welch_satterthwaite",
]

Uncertain = number.Uncertain
"""An uncertain real number, as the ledger makes them."""

Made = TypeVar("Made")

NOTHING_BESIDE = 1e-12
"""Share of a figure's uncertainty that is none: what cancels leaves a last bit, by the order of adding."""


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


class Ledger:
    """The inputs of one evaluation, each made once.

    Figures of two ledgers share nothing; one ledger serves one report.
    """

    def __init__(self) -> None:
        self._made: dict[Key, tuple[Input, Uncertain]] = {}
        self._register = Register()
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
        number = self.exact(estimate)
        if entry.standard_uncertainty > 0:
            number = elementary(estimate, entry.standard_uncertainty, entry.dof)
            self._register.add(number, (((entry, 1.0),), estimate, ()))
        self._made[entry.key] = entry, number
        return number

    def each(self, entries: Sequence[Input]) -> Each:
        """Errors that are new in each run or reading, the same ones whenever the same inputs ask.

        Args:
            entries: What is known of them in any of these, at least one, each above 0.
        """
        return self.once(tuple(entries), lambda: Each(entries, self._register))

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
            Component(replace(entry, key=(*entry.key, *which)) if which else entry, *rest)
            for entry, estimate, which, part in self._parts(figure)
            if entry.scope not in without
            for rest in ((estimate, part / entry.standard_uncertainty, part),)
        ]
        return tuple(sorted(found, key=_largest_first))

    def parts(self, figure: Uncertain) -> tuple[Component, ...]:
        """The same in the order in which the inputs were made, readings and runs under one key."""
        return tuple(
            Component(entry, estimate, part / entry.standard_uncertainty, part)
            for entry, estimate, _, part in self._parts(figure)
        )

    def contributions(self, figure: Uncertain) -> list[tuple[Input, float]]:
        """Each input of a figure and what it contributes, signed; in the order of `parts`."""
        known, parts = self._known(figure)
        least = NOTHING_BESIDE * math.hypot(*parts)
        return [
            (entry, own)
            for (inputs, _, _), part in zip(known, parts, strict=True)
            for entry, share in inputs
            if abs(own := part * share) > least
        ]

    def _parts(self, figure: Uncertain) -> list[tuple[Input, float, Key, float]]:
        """Input, estimate, which run or reading, and contribution of each."""
        known, parts = self._known(figure)
        least = NOTHING_BESIDE * math.hypot(*parts)
        return [
            (entry, estimate, which, own)
            for (inputs, estimate, which), part in zip(known, parts, strict=True)
            for entry, share in inputs
            if abs(own := part * share) > least
        ]

    def _known(self, figure: Uncertain) -> tuple[list[Known], Sequence[float]]:
        """What each influence of a figure is, and its component."""
        found, parts = influences(figure)
        known = self._register.known
        try:
            return [known[influence] for influence in found], parts
        except KeyError as stranger:
            raise ValueError("the figure rests on an input of another ledger") from stranger

    def noise(self, figure: Uncertain) -> float:
        """Combined standard uncertainty of what is new in each reading of a figure."""
        return math.hypot(*(part for entry, part in self.contributions(figure) if entry.scope == "reading"))

    def without(self, figure: Uncertain, scopes: Collection[Scope]) -> Uncertain:
        """The same value without the errors of some scopes, linear in the others."""
        known = self._register.known
        return kept(figure, lambda influence: known[influence][0][0][0].scope not in scopes)


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
    finite = [(contribution, dof) for contribution, dof in contributions if dof < math.inf]
    bottom = math.fsum((contribution / whole) ** 4 / dof for contribution, dof in finite)
    return 1 / bottom if bottom > 0 else math.inf


def _largest_first(part: Component) -> tuple[float, Key]:
    # Nine digits decide, so that the last bit of a sum never swaps two rows of a budget.
    return -float(f"{abs(part.contribution):.9g}"), part.input.key
