"""A conductor as people call it: `4 mm2 class 5`, `12 AWG stranded`, or an area alone."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, cast

from generator.analysis.conductors import SIZES
from generator.records.grammar import QuantityError
from generator.records.quantity import parse_quantity
from generator.records.units import Gauge

Make = Literal["class 1", "class 2", "class 5", "solid", "stranded", ""]
"""Class of IEC 60228, make of an American gauge, or nothing said."""

_CONDUCTOR = re.compile(r"(?P<size>.+?)(?:,?\s+(?P<make>class\s+\d|solid|stranded))?", re.ASCII)
_EXAMPLES = ("4 mm2 class 5", "12 AWG stranded", "12 AWG solid")


@dataclass(frozen=True)
class Conductor:
    """A conductor.

    Attributes:
        text: As written.
        area: mm².
        gauge: Its American gauge, 0 for 1/0 and −1 for 2/0; None for one of another name.
        make: Its class or make.
    """

    text: str
    area: float
    gauge: int | None
    make: Make


def parse_conductor(text: str) -> Conductor:
    """Read a conductor's size and make.

    Args:
        text: As typed: an area with a class of IEC 60228, an American gauge that is solid or stranded, or an
            area alone.

    Raises:
        QuantityError: It is something else, or a size that its standard does not have.
    """
    found = _CONDUCTOR.fullmatch(" ".join(text.split()))
    size = parse_quantity(found["size"] if found else text, "area")
    make = (found["make"] or "") if found else ""
    area = size.si * 1e6
    if isinstance(size.unit, Gauge):
        if make not in {"solid", "stranded"}:
            raise QuantityError("solid or stranded? strands have up to 3 % more resistance", _EXAMPLES[1:])
        return Conductor(text.strip(), area, round(size.value), cast("Make", make))
    if make in {"solid", "stranded"}:
        raise QuantityError("an area in mm2 goes by its class of IEC 60228: 1, 2 or 5", _EXAMPLES[:1])
    if make and make not in {"class 1", "class 2", "class 5"}:
        raise QuantityError(f"no {make} of plain copper is known here: 1, 2 or 5", _EXAMPLES[:1])
    if make and not any(abs(area - each) < 1e-6 * each for each in SIZES):
        known = tuple(f"{each:g} mm2 {make}" for each in SIZES)
        raise QuantityError(f"IEC 60228 has no such size of {make} that is known here", known)
    if area <= 0:
        raise QuantityError("a conductor has an area above nought", _EXAMPLES)
    return Conductor(text.strip(), area, None, cast("Make", make))
