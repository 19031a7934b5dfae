"""A measure in the unit that its figures are written in: figures, values, limits, spreads and budgets alike.

A budget and the steps to a figure keep to one prefix: beside a figure in mV a lead is told in mΩ and mΩ/m.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from generator.analysis.budget import Budget, Row
from generator.analysis.future import MostPieces, NextPiece
from generator.analysis.interval import Estimate
from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding, RunFinding
from generator.evaluation.sought import Sought, known
from generator.evaluation.spreads import Ahead
from generator.evaluation.statements import LimitFinding
from generator.evaluation.values import Value
from generator.pages.shown import Shown

PREFIXES = {1e6: "µ", 1e3: "m", 1.0: "", 1e-3: "k"}
"""By how many of the smaller unit one of SI is."""
PREFIXED = ("V", "Ω", "Ω/m")
"""Units of SI that go by one prefix where a figure of either stands among them."""

PREFIXED_BESIDE = frozenset({*PREFIXED, "W"})
"""Units of figures whose budgets have rows in these."""

MILLI = 1e3

Number = TypeVar("Number", float, float | None)


@dataclass(frozen=True)
class Electric:
    """Units of the numbers on the way to an electrical figure.

    Attributes:
        factor: What a number in V, Ω or Ω/m is multiplied by.
        prefix: Of these units.
    """

    factor: float
    prefix: str


def electric(unit: Shown) -> Electric:
    """The prefix of a figure in V or Ω; beside heat, what it is made of stands in mV and mΩ."""
    factor = unit.factor if unit.unit.lstrip("µmk") in PREFIXED else MILLI
    return Electric(factor, PREFIXES[factor])


def in_unit(unit: Shown, measure: MeasureFinding) -> MeasureFinding:
    """A measure with all that is told of its items in the unit that its figures are written in.

    Pairs, and what was found on the way from the readings, keep their own unit.

    Args:
        unit: How its figures are written.
        measure: In its own unit.
    """
    if unit.unit == measure.unit and measure.unit not in PREFIXED_BESIDE:
        return measure
    return replace(
        measure,
        unit=unit.unit,
        items=tuple(_item(unit, each) for each in measure.items),
        controls=tuple(_item(unit, each) for each in measure.controls),
        older=tuple(replace(each, value=each.value * unit.factor, unit=unit.unit) for each in measure.older),
    )


def _item(unit: Shown, item: ItemFinding) -> ItemFinding:
    return replace(
        item,
        figure=_estimate(unit, item.figure),
        budget=None if item.budget is None else _budget(unit, item.budget),
        spread=replace(item.spread, deviation=item.spread.deviation * unit.factor),
        pieces=tuple(_piece(unit, each) for each in item.pieces),
        limits=tuple(_limit(unit, each) for each in item.limits),
        ahead=None if item.ahead is None else _ahead(unit, item.ahead),
    )


def _piece(unit: Shown, piece: PieceFinding) -> PieceFinding:
    runs = tuple(_run(unit, each) for each in piece.runs)
    return replace(piece, figure=_estimate(unit, piece.figure), runs=runs)


def _run(unit: Shown, run: RunFinding) -> RunFinding:
    parts = run.parts
    return replace(
        run,
        figure=_estimate(unit, run.figure),
        parts=None if parts is None else Sought(lambda: _budget(unit, known(parts))),
        values=tuple(_value(unit, each) for each in run.values),
    )


def _value(unit: Shown, value: Value) -> Value:
    return replace(value, value=_times(unit, value.value), half_width=_times(unit, value.half_width))


def _limit(unit: Shown, found: LimitFinding) -> LimitFinding:
    pieces = tuple(
        replace(each, value=_times(unit, each.value), half_width=_times(unit, each.half_width))
        for each in found.pieces
    )
    return replace(found, limit=found.limit * unit.factor, pieces=pieces)


def _ahead(unit: Shown, found: Ahead) -> Ahead:
    coming: NextPiece = replace(
        found.next, low=found.next.low * unit.factor, high=found.next.high * unit.factor
    )
    most: MostPieces | None = found.most
    return Ahead(coming, None if most is None else replace(most, limit=most.limit * unit.factor))


def _estimate(unit: Shown, found: Estimate | None) -> Estimate | None:
    if found is None:
        return None
    return replace(
        found,
        value=found.value * unit.factor,
        standard_uncertainty=found.standard_uncertainty * unit.factor,
        half_width=found.half_width * unit.factor,
        low=found.low * unit.factor,
        high=found.high * unit.factor,
        unit=unit.unit,
    )


def _budget(unit: Shown, found: Budget) -> Budget:
    return Budget(
        _rows(unit, found.rows, found.unit), found.standard_uncertainty * unit.factor, found.dof, unit.unit
    )


def _rows(unit: Shown, rows: Sequence[Row], own: str) -> tuple[Row, ...]:
    return tuple(_row(unit, row, own) for row in rows)


def _row(unit: Shown, row: Row, own: str) -> Row:
    """A row whose input is in the figure's own unit, or goes by its prefix; ∂y/∂x goes with both units."""
    factor, symbol = 1.0, row.unit
    if row.unit in PREFIXED and own in PREFIXED_BESIDE:
        by = electric(unit)
        factor, symbol = by.factor, f"{by.prefix}{row.unit}"
    elif row.unit == own:
        factor, symbol = unit.factor, unit.unit
    return replace(
        row,
        value=row.value * factor,
        unit=symbol,
        standard_uncertainty=row.standard_uncertainty * factor,
        sensitivity=row.sensitivity * unit.factor / factor,
        contribution=row.contribution * unit.factor,
    )


def _times(unit: Shown, number: Number) -> Number:
    return number if number is None else number * unit.factor
