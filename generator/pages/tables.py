"""The long tables of a report: every reading, every figure, every pair. All in SI, with rises in K."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import zip_longest

import pandas as pd

from generator.analysis.interval import Estimate
from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding, ReportFinding, RunFinding
from generator.evaluation.values import Reading, Value
from generator.evaluation.versions import versions_behind, versions_of
from generator.pages.us_columns import Cell
from generator.records.cells import Cell as ReadCell
from generator.records.header import QUANTITY_OF
from generator.records.run import Run
from generator.records.table import Column
from generator.records.units import Unit

RUN = ("run", "date", "item", "piece", "method")
"""Which run a reading is of."""

REDUCED = (
    "air (°C)",
    "rise (K)",
    "half-width of its 95 % interval (K)",
    "excluded because",
    "measure",
    "value",
    "bound",
    "half-width of the value's 95 % interval",
    "unit",
)
"""What readings come to; they stand behind the columns as read."""

SEEN = "surface seen (°C)"
"""Where an infra-red meter read: the temperature of the surface behind what it showed; the last column."""

RESULTS = (
    "measure",
    "item",
    "control",
    "piece",
    "stock",
    "pieces",
    "runs",
    "terminations",
    "value",
    "half-width of its 95 % interval",
    "standard uncertainty",
    "coverage factor",
    "unit",
    "why not",
    "next piece from",
    "next piece to",
    "limit of 9 in 10 pieces",
    "they lie",
    "piece apart",
    "over the control of the day",
    "half-width of that",
    "heating",
    "method",
)
PAIRS = (
    "measure",
    "item with the smaller figure",
    "its pieces",
    "other item",
    "pieces of the other",
    "difference",
    "half-width at the pair's level",
    "unit",
    "p",
    "difference shown",
    "spread",
)


@dataclass(frozen=True)
class _Came:
    """What the readings of a run came to.

    Attributes:
        reduced: Air, rise and half-width by reading.
        valued: Why it is struck, measure, value, bound, half-width and unit by reading.
        behind: The same of what is no reading of the run's table, or of one that has a measure already.
        surfaces: By reading, °C of the surface that an infra-red meter saw.
    """

    reduced: tuple[tuple[Cell, ...], ...] = ()
    valued: tuple[tuple[Cell, ...], ...] = ()
    behind: tuple[tuple[Cell, ...], ...] = ()
    surfaces: tuple[Cell, ...] = ()

    def beside(self, row: int, struck: str) -> tuple[Cell, ...]:
        """What stands in the row of a reading behind it as read."""
        reduced = self.reduced[row] if row < len(self.reduced) else (None,) * 3
        return (*reduced, *(self.valued[row] if row < len(self.valued) else (struck, *(None,) * 5)))


def frame(heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> pd.DataFrame:
    """A table whose cells stay what they are: no number becomes a text, no whole number a fraction."""
    return pd.DataFrame([tuple(row) for row in rows], columns=list(heads), dtype=object)


def readings(finding: ReportFinding, runs: Mapping[str, Run]) -> pd.DataFrame:
    """Every reading of every run, by item, piece, date and time.

    A column as read is headed as a record's table has it, `temperature@body degC`, so that our own reader of
    records reads it back; its cells have the digits that were written.

    Args:
        finding: Of the report.
        runs: The report's runs by id.
    """
    read = _as_read(runs.values())
    came = _came(finding, runs)
    heads = (f"{label} {unit.typed}" for label, unit in read.items())
    rows = (
        (*row, surface)
        for run in sorted(runs.values(), key=_order)
        for found in (came.get(run.id, _Came()),)
        for row, surface in zip_longest(_rows(run, read, found), found.surfaces)
    )
    if any(each.surfaces for each in came.values()):
        return frame((*RUN, *heads, *REDUCED, SEEN), rows)
    return frame((*RUN, *heads, *REDUCED), (row[:-1] for row in rows))


def results(finding: ReportFinding) -> pd.DataFrame:
    """Every figure: of the items, of their pieces, of the controls."""
    rows = (
        row
        for measure in finding.measures
        for item in (*measure.items, *measure.controls)
        for row in _results_of(measure, item)
    )
    return frame(RESULTS, rows)


def pairs(finding: ReportFinding) -> pd.DataFrame:
    """Every pair of items with its gap."""
    rows = (
        (
            measure.measure,
            pair.first,
            counts[pair.first],
            pair.second,
            counts[pair.second],
            digits(pair.difference.value),
            digits(pair.half_width),
            pair.difference.unit,
            digits(pair.p),
            ("yes" if pair.shown else "no") if pair.known else "not known",
            " and ".join(pair.by),
        )
        for measure in finding.measures
        for counts in ({each.item: each.n for each in measure.items},)
        for pair in measure.pairs
    )
    return frame(PAIRS, rows)


def digits(number: float | None) -> float | None:
    """Six significant digits: more than any of it is known to, and the same on every processor."""
    return None if number is None else float(f"{number:.6g}") + 0.0


def _order(run: Run) -> tuple[str, str, str, str]:
    return run.item or run.control, run.specimen, run.date.isoformat(), run.id


def _runs_of(measure: MeasureFinding) -> list[RunFinding]:
    pieces = (piece for item in (*measure.items, *measure.controls) for piece in item.pieces)
    found = (run for piece in pieces for run in piece.runs)
    return sorted(found, key=lambda run: (run.item, run.specimen, run.date, run.run))


def _as_read(runs: Iterable[Run]) -> dict[str, Unit]:
    """The columns of all runs by label, in the order that records have them, each in its first run's unit."""
    found: dict[str, Unit] = {}
    names: dict[str, str] = {}
    for run in sorted(runs, key=_order):
        for column in run.readings.columns if run.readings else ():
            found.setdefault(column.head.label, column.unit)
            names[column.head.label] = column.name
    order = [*QUANTITY_OF]
    place = {label: order.index(name) if name in order else len(order) for label, name in names.items()}
    return dict(sorted(found.items(), key=lambda each: (place[each[0]], each[0])))


def _came(finding: ReportFinding, runs: Mapping[str, Run]) -> dict[str, _Came]:
    """What a run's readings came to, by the run; of several measures of heating by the first."""
    found: dict[str, _Came] = {}
    for measure in finding.measures:
        for run in _runs_of(measure):
            came = found.get(run.run, _Came())
            reduced = came.reduced or tuple(map(_reduced, run.readings))
            valued = tuple(_valued(each, measure) for each in run.values)
            apart = bool(came.valued) or measure.measure in runs[run.run].values
            surfaces = came.surfaces or _surfaces(run)
            found[run.run] = (
                _Came(reduced, came.valued, (*came.behind, *valued), surfaces)
                if apart
                else _Came(reduced, valued, came.behind, surfaces)
            )
    return found


def _surfaces(run: RunFinding) -> tuple[Cell, ...]:
    """By reading; none where no infra-red meter read."""
    seen = any(each.surface is not None for each in run.readings)
    return tuple(digits(each.surface) for each in run.readings) if seen else ()


def _reduced(reading: Reading) -> tuple[Cell, ...]:
    return tuple(digits(each) for each in (reading.ambient, reading.rise, reading.half_width))


def _valued(value: Value, measure: MeasureFinding) -> tuple[Cell, ...]:
    if value.value is None and not value.bound:  # a reading of the table that the measure makes nothing of
        return (value.excluded, *(None,) * 5)
    numbers = (digits(value.value), value.bound, digits(value.half_width))
    return (value.excluded, measure.measure, *numbers, measure.unit)


def _rows(run: Run, read: Mapping[str, Unit], came: _Came) -> Iterator[tuple[Cell, ...]]:
    """A run's readings, as read and as reduced; behind them what was typed as a figure."""
    named = (run.id, run.date.isoformat(), run.item or run.control, run.specimen, run.method_name)
    table = run.readings
    columns = {column.head.label: column for column in table.columns} if table else {}
    for row in range(table.rows if table else 0):
        cells = (_written(columns.get(label), row, unit) for label, unit in read.items())
        yield (*named, *cells, *came.beside(row, table.excluded.get(row, "") if table else ""))
    for valued in came.behind:
        yield (*named, *(None for _ in read), None, None, None, *valued)


def _written(column: Column | None, row: int, unit: Unit) -> Cell:
    cell = column.cells[row] if column is not None else None
    if column is None or cell is None:
        return None
    if column.unit != unit:
        return _bounded(cell, digits(unit.from_si(cell.value)))
    return _bounded(cell, Decimal(f"{unit.from_si(cell.value):.{max(cell.decimals, 0)}f}"))


def _bounded(cell: ReadCell, number: Cell) -> Cell:
    return f"{cell.bound}{number}" if cell.bound else number


def _results_of(measure: MeasureFinding, item: ItemFinding) -> Iterator[tuple[Cell, ...]]:
    kind = "yes" if item.control else "no"
    head = (measure.measure, item.item, kind)
    repeats = item.repeats
    rests = (item.n, *((repeats.runs, repeats.terminations) if repeats else (item.runs, None)))
    told = (*_estimate(item.figure), measure.unit, item.why_not, *_others(item), measure.heating)
    by = _method(measure, versions_of(item))
    yield (*head, "", item.stock, *rests, *told, by)
    for piece in item.pieces:
        if piece.specimen:
            own = (*_estimate(piece.figure), measure.unit, "", *(None,) * 7, _heating(piece))
            by = _method(measure, versions_behind([piece]))
            yield (*head, piece.specimen, piece.stock, 1, len(piece.runs), None, *own, by)


def _method(measure: MeasureFinding, versions: Iterable[int]) -> str:
    return " and ".join(f"{measure.method}/{version}" for version in versions)


def _heating(piece: PieceFinding) -> int | None:
    """Which heating of a piece its figure is of; None of another kind, and without one."""
    return next((run.heating for run in piece.runs if run.figure and run.figure == piece.figure), None)


def _others(item: ItemFinding) -> tuple[Cell, ...]:
    """What the pieces of an item tell beside their mean."""
    ahead = item.ahead
    most = ahead.most if ahead is not None else None
    return (
        digits(ahead.next.low if ahead is not None else None),
        digits(ahead.next.high if ahead is not None else None),
        digits(most.limit if most is not None else None),
        most.side if most is not None else None,
        item.apart.specimen if item.apart is not None else None,
        digits(item.excess.value if item.excess is not None else None),
        digits(item.excess.half_width if item.excess is not None else None),
    )


def _estimate(found: Estimate | None) -> tuple[Cell, ...]:
    if found is None:
        return (None, None, None, None)
    numbers = (found.value, found.half_width, found.standard_uncertainty, found.coverage_factor)
    return tuple(digits(each) for each in numbers)
