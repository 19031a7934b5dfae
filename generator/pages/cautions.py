"""Which cautions a page bears: those of its methods' hazard classes, and what the methods add."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from generator.records.schema.method import Hazard, Method

Signal = Literal["danger", "warning", "caution"]

GRAVEST_FIRST: dict[Hazard, Signal] = {
    "mains": "danger",
    "overload": "warning",
    "extra-low voltage": "warning",
    "chemical": "warning",
    "mechanical": "caution",
}
"""Signal word of each class, after the meanings of ANSI Z535.6 (from memory)."""

BEFORE_ALL = frozenset({"mains", "overload"})
"""Classes whose cautions stand before any figure."""


@dataclass(frozen=True)
class Cautions:
    """What the templates of the cautions are given.

    Attributes:
        hazards: Hazard classes, gravest first; their texts are the templates'.
        signal: The signal word of the gravest.
        added: What the methods add, each once.
        protection: How the tester was protected, as the methods say, each once.
        first: Whether all of them stand before the figures.
    """

    hazards: tuple[Hazard, ...]
    signal: Signal
    added: tuple[str, ...]
    protection: tuple[str, ...]
    first: bool


def cautions(methods: Iterable[Method]) -> Cautions:
    """The cautions of the methods together; a method may add, never remove.

    Raises:
        ValueError: No method was given, so no hazard is known.
    """
    known = tuple(methods)
    found = {hazard for method in known for hazard in method.hazard}
    hazards = tuple(hazard for hazard in GRAVEST_FIRST if hazard in found)
    if not hazards:
        raise ValueError("no method, so no hazard is known")
    return Cautions(
        hazards,
        GRAVEST_FIRST[hazards[0]],
        _once(text for method in known for text in method.cautions),
        _once(method.protection for method in known if method.protection),
        not BEFORE_ALL.isdisjoint(hazards),
    )


def _once(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))
