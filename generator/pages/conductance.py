"""Heat over settled rise as pages tell it: run by run, in W for each °C or °F above the air."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN, rounded_range
from generator.charts.numerals import numeral, plain, true_minus
from generator.evaluation.findings import ItemFinding, MeasureFinding, RunFinding
from generator.pages.format import Around, Day, day, significant
from generator.pages.tables import digits
from generator.pages.us_columns import Cell
from generator.pages.ways import Step

HEAT = (
    "measure",
    "item",
    "piece",
    "run",
    "date",
    "heat as read (W)",
    "half-width of its 95 % interval (W)",
    "settled rise (K)",
    "settled rise, from (K)",
    "settled rise, to (K)",
    "heat over settled rise (W/K)",
    "heat over settled rise, from (W/K)",
    "heat over settled rise, to (W/K)",
    "why not",
)
"""Headings of the file of heat over settled rise, a row a run."""


@dataclass(frozen=True)
class ConductanceRow:
    """Heat over settled rise of one run; or why there is none."""

    piece: str
    day: Day
    told: Around | None
    why_not: str


def conductance_rows(item: ItemFinding) -> tuple[ConductanceRow, ...]:
    """Each run of an item's power beside a heating of the same run; none for another kind."""
    return tuple(
        ConductanceRow(
            run.specimen,
            day(run.date),
            None if found.why_not else per_kelvin(found.value, found.low, found.high),
            found.why_not or "",
        )
        for run in _runs(item)
        if (found := run.conductance) is not None
    )


def conductance_steps(run: RunFinding) -> tuple[Step, ...]:
    """From the heat and the settled rise of a run to the one over the other; none for another kind."""
    found = run.conductance
    if found is None:
        return ()
    if found.why_not is not None:
        return (Step("no-conductance", {"why": found.why_not}),)
    told = rounded_range(found.value, found.low, found.high)
    numbers = {
        "power": numeral(found.power, 4),
        "alpha": significant(found.coefficient, 3),
        "to_come": numeral(found.to_come, 2),
        "rise": numeral(found.rise, 3),
        "measure": found.measure,
        "value": told.value_text,
        "low": told.low_text,
        "high": told.high_text,
        "unrounded": plain(float(f"{found.value:.6g}")),
    }
    return (Step("conductance", numbers),)


def heat_rows(measures: tuple[MeasureFinding, ...]) -> Iterator[tuple[Cell, ...]]:
    """Rows below `HEAT`, items first, then controls."""
    for measure in measures:
        for item in (*measure.items, *measure.controls):
            for run in _runs(item):
                if run.conductance is not None:
                    yield (measure.measure, item.item, run.specimen, run.run, run.date, *_cells(run))


def _cells(run: RunFinding) -> tuple[Cell, ...]:
    found, heat = run.conductance, run.figure
    power = (digits(heat.value), digits(heat.half_width)) if heat is not None else (None, None)
    if found is None or found.why_not is not None:
        return (*power, *(None,) * 6, found.why_not if found is not None else None)
    numbers = (found.rise, found.rise_low, found.rise_high, found.value, found.low, found.high)
    return (*power, *(digits(each) for each in numbers), None)


def _runs(item: ItemFinding) -> Iterator[RunFinding]:
    yield from (run for piece in item.pieces for run in piece.runs)


def per_kelvin(value: float, low: float, high: float) -> Around:
    """Heat over a rise with its ends, for each K and for each °F, all in W/K."""
    own, us = (rounded_range(value, low, high, each) for each in (1.0, 1 / FAHRENHEIT_PER_KELVIN))
    return Around(
        *(true_minus(text) for each in (own, us) for text in (each.value_text, each.low_text, each.high_text))
    )
