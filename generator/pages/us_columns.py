"""Columns in US units beside those of a file to take away: the file itself stays in SI."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from decimal import Decimal

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN
from generator.charts.systems import FREEZING_F
from generator.pages.format import CELSIUS, FAHRENHEIT
from generator.records.systems import in_both

Cell = str | int | float | Decimal | None

AMOUNTS = (
    "value",
    "difference",
    "half-width of its 95 % interval",
    "half-width of the value's 95 % interval",
    "half-width at the pair's level",
    "standard uncertainty",
    "next piece from",
    "next piece to",
    "limit of 9 in 10 pieces",
    "over the control of the day",
    "half-width of that",
    "limit",
)
"""Columns whose unit stands in the column "unit" of their row."""

POINTS = frozenset({"value", "limit", "next piece from", "next piece to", "limit of 9 in 10 pieces"})
"""Amounts that are points on the scale of a temperature and take its offset: all others are differences."""

_UNIT = "unit"
_CONVERT: dict[str, Callable[[float], float]] = {
    "(K)": lambda kelvin: kelvin * FAHRENHEIT_PER_KELVIN,
    "(°C)": lambda celsius: celsius * FAHRENHEIT_PER_KELVIN + FREEZING_F,
}
"""By the unit in a heading. A difference takes no offset: 50 K are 90 °F."""


def with_us_columns(
    heads: Sequence[str], rows: Iterable[Sequence[Cell]]
) -> tuple[tuple[str, ...], Iterator[tuple[Cell, ...]]]:
    """Headings and rows with a column in °F behind for each in K or °C, and amounts in their US unit.

    Args:
        heads: Headings; a unit stands in brackets, or in a column "unit".
        rows: A cell a heading.
    """
    own = [(at, head.rpartition(" ")) for at, head in enumerate(heads) if head.rpartition(" ")[2] in _CONVERT]
    amounts = [at for at, head in enumerate(heads) if head in AMOUNTS] if _UNIT in heads else []
    more = [f"{name} ({FAHRENHEIT})" for _, (name, _, _) in own]
    if amounts:
        more += [f"{heads[at]}, in the US unit" for at in amounts] + ["US unit"]

    def longer(row: Sequence[Cell]) -> tuple[Cell, ...]:
        converted = [_converted(row[at], _CONVERT[unit]) for at, (_, _, unit) in own]
        return (
            *row,
            *converted,
            *(_amounts(row, heads, amounts, str(row[heads.index(_UNIT)])) if amounts else ()),
        )

    return (*heads, *more), (longer(row) for row in rows)


def _amounts(row: Sequence[Cell], heads: Sequence[str], at: Sequence[int], unit: str) -> tuple[Cell, ...]:
    symbol, factor = _us(unit)
    if not symbol:
        return (None,) * (len(at) + 1)
    converts = (
        _CONVERT["(°C)"] if heads[each] in POINTS and unit == CELSIUS else lambda it: it * factor
        for each in at
    )
    return (*(_converted(row[each], convert) for each, convert in zip(at, converts, strict=True)), symbol)


def _us(unit: str) -> tuple[str, float]:
    """The US unit that stands for a unit, and how many of it one is; an empty symbol where there is none."""
    if unit in {"K", CELSIUS}:
        return FAHRENHEIT, FAHRENHEIT_PER_KELVIN
    units = in_both(unit)
    if units is None:
        return "", 1.0
    return units.us.symbol, units.factor(unit) if unit == units.metric.symbol else 1.0


def _converted(cell: Cell, convert: Callable[[float], float]) -> Cell:
    """Six significant digits, as the cell itself has."""
    return float(f"{convert(cell):.6g}") + 0.0 if isinstance(cell, int | float) else None
