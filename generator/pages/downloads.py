"""Readings and results as plain files: UTF-8, commas, a decimal point, a unit in each heading, ISO dates.

All are in SI, with rises in K; columns in US units stand behind.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence

from generator.analysis.interval import Estimate
from generator.evaluation.findings import ItemFinding, MeasureFinding, ReportFinding, RunFinding
from generator.pages.us_columns import Cell, with_us_columns

READINGS = (
    "run",
    "date",
    "item",
    "piece",
    "method",
    "time (min)",
    "temperature (°C)",
    "air (°C)",
    "current (A)",
    "rise (K)",
    "half-width of its 95 % interval (K)",
    "bound",
    "excluded because",
    "measure",
    "value",
    "half-width of the value's 95 % interval",
    "unit",
)
RESULTS = (
    "measure",
    "item",
    "control",
    "piece",
    "stock",
    "pieces",
    "value",
    "half-width of its 95 % interval",
    "standard uncertainty",
    "coverage factor",
    "unit",
    "why not",
)
PAIRS = (
    "measure",
    "item with the smaller figure",
    "other item",
    "difference",
    "half-width at the pair's level",
    "unit",
    "p",
    "difference shown",
)

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""What makes a spreadsheet take a text for a formula."""


def readings(finding: ReportFinding) -> bytes:
    """Every reading of every run, by item, piece, date and time; last those of measures without time."""
    series = (row for run in _runs(finding) for row in _readings_of(run))
    values = (row for measure in finding.measures for row in _values_of(measure))
    return _file(READINGS, (*series, *values))


def results(finding: ReportFinding) -> bytes:
    """Every figure: of the items, of their pieces, of the controls."""
    rows = (
        row
        for measure in finding.measures
        for item in (*measure.items, *measure.controls)
        for row in _results_of(measure, item)
    )
    return _file(RESULTS, rows)


def pairs(finding: ReportFinding) -> bytes:
    """Every pair of items with its gap."""
    rows = (
        (
            measure.measure,
            pair.first,
            pair.second,
            _digits(pair.difference.value),
            _digits(pair.half_width),
            pair.difference.unit,
            _digits(pair.p),
            ("yes" if pair.shown else "no") if pair.known else "not known",
        )
        for measure in finding.measures
        for pair in measure.pairs
    )
    return _file(PAIRS, rows)


def table(heads: Iterable[str], rows: Iterable[Iterable[Cell]]) -> bytes:
    """A file of comma-separated values; texts that a spreadsheet would run are guarded, numbers never."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows([_guarded(cell) for cell in row] for row in rows)
    return text.getvalue().encode()


def _file(heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    return table(*with_us_columns(heads, rows))


def _guarded(cell: Cell) -> str | int | float:
    if cell is None:
        return ""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_FORMULA) else cell


def _runs(finding: ReportFinding) -> list[RunFinding]:
    """Every run with a series once; one that has several such measures shows its readings by the first."""
    found: dict[str, RunFinding] = {}
    for measure in finding.measures:
        for run in _in_order(measure):
            if run.readings:
                found.setdefault(run.run, run)
    return sorted(found.values(), key=_order)


def _in_order(measure: MeasureFinding) -> list[RunFinding]:
    pieces = (piece for item in (*measure.items, *measure.controls) for piece in item.pieces)
    return sorted((run for piece in pieces for run in piece.runs), key=_order)


def _order(run: RunFinding) -> tuple[str, str, str, str]:
    return run.item, run.specimen, run.date, run.run


def _readings_of(run: RunFinding) -> Iterator[tuple[Cell, ...]]:
    for each in run.readings:
        yield (
            run.run,
            run.date,
            run.item,
            run.specimen,
            run.method,
            _digits(each.time / 60),
            _digits(each.temperature),
            _digits(each.ambient),
            _digits(each.current),
            _digits(each.rise),
            _digits(each.half_width),
            each.bound,
            each.excluded,
            *(None,) * 4,
        )


def _values_of(measure: MeasureFinding) -> Iterator[tuple[Cell, ...]]:
    for run in _in_order(measure):
        for each in run.values:
            yield (
                run.run,
                run.date,
                run.item,
                run.specimen,
                run.method,
                *(None,) * 6,
                each.bound,
                each.excluded,
                measure.measure,
                _digits(each.value),
                _digits(each.half_width),
                measure.unit,
            )


def _results_of(measure: MeasureFinding, item: ItemFinding) -> Iterator[tuple[Cell, ...]]:
    kind = "yes" if item.control else "no"
    head = (measure.measure, item.item, kind)
    yield (*head, "", item.stock, item.n, *_estimate(item.figure), measure.unit, item.why_not)
    for piece in item.pieces:
        if piece.specimen:
            found = piece.figure
            yield (*head, piece.specimen, piece.stock, 1, *_estimate(found), measure.unit, "")


def _estimate(found: Estimate | None) -> tuple[Cell, ...]:
    if found is None:
        return (None, None, None, None)
    numbers = (found.value, found.half_width, found.standard_uncertainty, found.coverage_factor)
    return tuple(_digits(each) for each in numbers)


def _digits(number: float | None) -> float | None:
    """Six significant digits: more than any of it is known to, and the same on every processor."""
    return None if number is None else float(f"{number:.6g}") + 0.0
