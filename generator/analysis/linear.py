"""Linear combinations of uncertain numbers in one step.

GTC carries a sum along as a chain of additions, each of which merges the influences of both sides again. A
reading is a sum of some ten errors and a mean of some hundred: joined at once they cost a tenth. The numbers
stay GTC's own, made of its leaves and its vectors of components; a test holds both ways against one another.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from operator import attrgetter
from typing import Any, cast

from GTC.context import _context
from GTC.lib import UncertainReal
from GTC.nodes import Leaf
from GTC.vector import Vector

from generator.analysis.number import Uncertain

Term = tuple[float, Uncertain]
"""Sensitivity to a number, and the number."""

UID = attrgetter("uid")
"""Identity of an influence; ascending in the order in which the inputs were made."""

NOTHING = Vector()
"""The components of what is independent on those that are not: none. GTC never changes a vector in place."""


def elementary(value: float, u: float, dof: float) -> Uncertain:
    """A number with an influence of its own, as GTC's `ureal`, left out of the register of its archives.

    Args:
        value: The estimate.
        u: Its standard uncertainty, above 0.
        dof: Degrees of freedom.
    """
    leaf = Leaf(_context._next_elementary_id(), None, u, dof)  # noqa: SLF001
    return cast("Uncertain", UncertainReal(value, _vector([leaf], [u]), NOTHING, NOTHING, leaf))


def influence_of(number: Uncertain) -> Any:
    """The influence of an elementary number."""
    return number._node  # type: ignore[attr-defined]  # noqa: SLF001


class Deferred(UncertainReal):  # type: ignore[misc]
    """A linear combination whose influences are joined when it is first looked at by itself.

    A reading is one of dozens that a figure is made of; the figure joins what they are made of, at once.
    """

    __slots__ = ("_terms",)
    _d_components = _i_components = NOTHING
    _node = None
    is_elementary = is_intermediate = False

    def __init__(self, value: float, terms: Sequence[Term]) -> None:
        self._x = value  # type: ignore[misc]  # a slot of the library's
        self._terms: Sequence[Term] | None = terms

    def __getattr__(self, name: str) -> Any:
        if name != "_u_components":
            raise AttributeError(name)
        found = self._u_components = _joined(self._terms or ())  # type: ignore[misc]
        self._terms = None
        return found


def deferred(value: float, terms: Sequence[Term]) -> Uncertain:
    """As `linear`, its influences joined when they are first asked for."""
    return cast("Uncertain", Deferred(value, terms))


def linear(value: float, terms: Iterable[Term]) -> Uncertain:
    """An uncertain number by its value and its sensitivities to other numbers.

    Args:
        value: The estimate.
        terms: Sensitivity and number, each number as often as is convenient.

    Returns:
        The number whose components of uncertainty are Σ sensitivity × component.
    """
    return cast("Uncertain", UncertainReal(value, _joined(terms), NOTHING, NOTHING))


def with_younger(number: Uncertain, younger: Uncertain) -> Uncertain:
    """The sum of two numbers of which one rests on inputs that were made after all of the other's.

    Raises:
        ValueError: It does not.
    """
    (before, parts), (after, others) = influences(number), influences(younger)
    if before and after and UID(before[-1]) >= UID(after[0]):
        raise ValueError("inputs of the second number are not younger than those of the first")
    components = _vector([*before, *after], [*parts, *others])
    return cast("Uncertain", UncertainReal(number.x + younger.x, components, NOTHING, NOTHING))


def _joined(terms: Iterable[Term]) -> Vector:
    # By number first: the readings of a run are all made of the same few errors of its meters.
    factors: dict[Any, float] = {}
    numbers: dict[Any, Any] = {}
    _gather(1.0, terms, factors, numbers)
    joined: dict[Any, float] = {}
    before = joined.get
    for name, factor in factors.items():
        vector = numbers[name]._u_components  # noqa: SLF001
        for influence, component in zip(vector._index, vector._value, strict=True):  # noqa: SLF001
            joined[influence] = before(influence, 0.0) + factor * component
    order = sorted(joined, key=UID)
    return _vector(order, [joined[influence] for influence in order])


def _gather(by: float, terms: Iterable[Term], factors: dict[Any, float], numbers: dict[Any, Any]) -> None:
    """Add up the sensitivities to each number, through what is deferred to what that is made of."""
    for sensitivity, number in terms:
        if type(number) is Deferred and number._terms is not None:  # noqa: SLF001
            _gather(by * sensitivity, number._terms, factors, numbers)  # noqa: SLF001
            continue
        name = id(number)
        if name in factors:
            factors[name] += by * sensitivity
        else:
            factors[name], numbers[name] = by * sensitivity, number


def kept(number: Uncertain, wanted: Callable[[Any], bool]) -> Uncertain:
    """The same value with the errors of some influences alone."""
    found = [pair for pair in zip(*influences(number), strict=True) if wanted(pair[0])]
    components = _vector([each for each, _ in found], [component for _, component in found])
    return cast("Uncertain", UncertainReal(number.x, components, NOTHING, NOTHING))


def influences(number: Uncertain) -> tuple[Sequence[Any], Sequence[float]]:
    """The inputs of a number in their order, and its signed component of uncertainty by each."""
    vector = number._u_components  # type: ignore[attr-defined]  # noqa: SLF001
    return vector._index, vector._value  # noqa: SLF001


def _vector(index: list[Any], value: list[float]) -> Vector:
    """A vector of GTC's, without the questions that its constructor asks of what it is given."""
    made = Vector.__new__(Vector)
    made._index, made._value = index, value  # noqa: SLF001
    return made


def combined_uncertainty(number: Uncertain) -> float:
    """Combined standard uncertainty √Σu_i² of a number made of independent inputs."""
    return math.hypot(*number._u_components._value)  # type: ignore[attr-defined]  # noqa: SLF001
