"""Linear combinations of uncertain numbers in one step.

GTC carries a sum along as a chain of additions, each of which merges the influences of both sides again. A
reading is a sum of some ten errors and a mean of some hundred: joined at once they cost a tenth. The numbers
stay GTC's own, made of its vectors of components; a test holds both ways against one another.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from operator import attrgetter
from typing import TYPE_CHECKING, Any, cast

from GTC.lib import UncertainReal
from GTC.vector import Vector

if TYPE_CHECKING:
    from generator.analysis.uncertainty import Uncertain

UID = attrgetter("uid")
"""Identity of an influence; ascending in the order in which the inputs were made."""


def linear(value: float, terms: Iterable[tuple[float, Uncertain]]) -> Uncertain:
    """An uncertain number by its value and its sensitivities to other numbers.

    Args:
        value: The estimate.
        terms: Sensitivity and number, each number as often as is convenient.

    Returns:
        The number whose components of uncertainty are Σ sensitivity × component.
    """
    joined: dict[Any, float] = {}
    for sensitivity, number in terms:
        for influence, component in _components(number):
            joined[influence] = joined.get(influence, 0.0) + sensitivity * component
    order = sorted(joined, key=UID)
    components = Vector(index=order, value=[joined[influence] for influence in order])
    return cast("Uncertain", UncertainReal(value, components, Vector(), Vector()))


def influences(number: Uncertain) -> list[tuple[object, float]]:
    """Identity and signed component of uncertainty of each input of a number, in the order of the inputs."""
    return [(influence.uid, component) for influence, component in _components(number)]


def combined_uncertainty(number: Uncertain) -> float:
    """Combined standard uncertainty √Σu_i² of a number made of independent inputs."""
    return math.hypot(*(component for _, component in _components(number)))


def _components(number: Uncertain) -> Iterable[tuple[Any, float]]:
    return cast("Iterable[tuple[Any, float]]", cast("Any", number)._u_components.iteritems())  # noqa: SLF001
