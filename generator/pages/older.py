"""What is told of a result from before, wherever it stands: as it was written, and what is known of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import ceil, log10

from generator.evaluation.older import OlderFinding
from generator.pages.format import Both, Day, as_printed, minutes, part_day, quantity
from generator.records.quantity import Quantity
from generator.records.units import UNITS

_USUAL = {"kgf": "N", "gf": "N", "kgf·cm": "N·m"}
"""Units of spreadsheets that no figure here is told in, and the one that is."""


@dataclass(frozen=True)
class OlderView:
    """One older result; texts are empty where the record says nothing.

    Attributes:
        measure: Name of the measure that it stands beside.
        value: The figure, its digits as written.
        half_width: The ± that was stated then; None where nobody knows it.
        rise: Whether it is a rise above the air.
        day: When; month and day may not be known.
        air: Air at the time.
        mark: Minutes after which it was read.
        pieces: How many; 0 where not known.
        meter: The meter.
        published: Where it was first published.
        title: What its batch is.
        how: How the results of its batch were had.
    """

    measure: str
    value: Both
    half_width: Both | None
    rise: bool
    day: Day
    air: Both | None
    mark: str
    pieces: int
    meter: str
    published: str
    title: str
    how: str


def older_view(found: OlderFinding, measure: str) -> OlderView:
    """From a finding to what the templates tell; `measure` is the measure's name."""
    result = found.result
    return OlderView(
        measure,
        quantity(_usual(result.value)),
        quantity(_usual(result.uncertainty)) if isinstance(result.uncertainty, Quantity) else None,
        result.value.quantity == "interval",
        part_day(result.date),
        quantity(result.air) if result.air else None,
        minutes(result.at.si) if result.at else "",
        result.pieces or 0,
        as_printed(result.meter or ""),
        as_printed(result.published or ""),
        as_printed(found.title),
        as_printed(found.how),
    )


def _usual(given: Quantity) -> Quantity:
    """A quantity in a unit that figures are told in: kilograms-force are newtons on these pages."""
    for symbol, usual in _USUAL.items():
        if given.unit.symbol == symbol:
            unit = next(each for each in UNITS if each.symbol == usual)
            places = max(0, ceil(-log10(given.last_digit) - 1e-9))
            return replace(given, value=unit.from_si(given.si), unit=unit, decimals=places)
    return given


def older_by_item(
    found: Iterable[OlderFinding], titles: Mapping[str, str]
) -> dict[str, tuple[OlderView, ...]]:
    """The older results of each item, in the order of the findings.

    Args:
        found: Of one measure or of several.
        titles: Names of the measures by id.
    """
    told: dict[str, tuple[OlderView, ...]] = {}
    for each in found:
        view = older_view(each, titles.get(each.measure, each.measure))
        told[each.item] = (*told.get(each.item, ()), view)
    return told
