"""Conditions of a run against those of its method: what is out of tolerance, and what runs don't share."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from generator.records.quantity import Quantity, Range
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.run import Run, Said
    from generator.records.schema.method import Method

AMBIENT = "ambient"
CURRENT = "current"
STEADY = 2.0
"""Air that goes by more than this, in K an hour, is told as a deviation; our choice."""


@dataclass(frozen=True)
class Departure:
    """A condition that was not as the method asks.

    Attributes:
        condition: Its key.
        asked: What the method asks, as its record has it.
        found: What the run says, as its record has it; of the air the lowest and the highest reading.
        air: Lowest and highest air in °C, where it was the air.
    """

    condition: str
    asked: str
    found: str
    air: tuple[float, float] | None = None


@dataclass(frozen=True)
class Unlike:
    """Something that the method leaves open and the runs do not share.

    Attributes:
        what: Its key: a condition, or how a piece was connected.
        values: Each value as written, with the ids of its runs.
    """

    what: str
    values: tuple[tuple[str, tuple[str, ...]], ...]


def departures(run: Run, method: Method, air: Sequence[float]) -> tuple[Departure, ...]:
    """Conditions of a run that are outside the method's tolerances.

    The current is left out: its readings are held against its tolerance one by one. What a run does not say
    was as the method asks.

    Args:
        run: The run.
        method: The version that it was made by.
        air: The air at its readings, °C.
    """
    return tuple(_departures(run, method, air))


def unlike(runs: Iterable[Run]) -> tuple[Unlike, ...]:
    """What differs between runs that stand side by side, each inside its method's tolerances."""
    found: dict[str, dict[str, list[str]]] = {}
    for run in runs:
        for what, text in _open(run):
            found.setdefault(what, {}).setdefault(text, []).append(run.id)
    return tuple(
        Unlike(what, tuple((text, tuple(ids)) for text, ids in values.items()))
        for what, values in found.items()
        if len({plainly(text) for text in values}) > 1
    )


def plainly(text: str) -> str:
    """The text with what does not change its meaning taken out: case, spaces, the form of a small 2."""
    return " ".join(unicodedata.normalize("NFKC", text).split()).casefold()


def _departures(run: Run, method: Method, air: Sequence[float]) -> Iterator[Departure]:
    for key, asked in method.conditions.items():
        if key == AMBIENT and isinstance(asked, Range):
            if air and not (asked.holds(min(air)) and asked.holds(max(air))):
                yield Departure(key, asked.text, "", (min(air), max(air)))
        elif key != CURRENT and key in run.conditions and not _kept(run.conditions[key], asked):
            yield Departure(key, _text(asked), _text(run.conditions[key]))


def _kept(said: Said, asked: Any) -> bool:
    if isinstance(asked, Toleranced) and isinstance(said, Quantity):
        share = asked.value.si if asked.within.quantity == "ratio" else 1.0
        return abs(said.si - asked.value.si) <= abs(asked.within.si * share) * (1 + 1e-12)
    if isinstance(asked, Range) and isinstance(said, Quantity):
        return asked.holds(said.si)
    return plainly(_text(said)) == plainly(_text(asked))


def _open(run: Run) -> Iterator[tuple[str, str]]:
    """What a run says that the method may leave open: exact text apart, a quantity may lie within a range."""
    for key, said in run.conditions.items():
        if key not in {AMBIENT, CURRENT}:
            yield key, _text(said)
    made = run.termination
    parts: Mapping[str, Any] = {} if made is None else {
        "strip": made.strip, "insertion": made.insertion, "torque": made.torque, "tool": made.tool
    }  # fmt: skip
    for key, value in parts.items():
        if value is not None:
            yield key, _text(value)
    if run.infrared is not None:
        yield "surface", run.infrared.surface.text
    if run.place:
        yield "place", run.place


def _text(said: Any) -> str:
    if isinstance(said, Toleranced):
        return f"{said.value.text} ± {said.within.text}"
    return str(getattr(said, "text", said))
