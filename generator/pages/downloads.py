"""Readings and results as plain files: UTF-8, commas, a decimal point, a unit in each heading, ISO dates.

All are in SI, with rises in K; columns in US units stand behind.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

import pandas as pd

from generator.evaluation.findings import ReportFinding
from generator.pages import older_tables, tables
from generator.pages.conductance import HEAT, heat_rows
from generator.pages.limit_rows import LIMITS, limit_rows
from generator.pages.older_tables import OLDER
from generator.pages.price_rows import PRICES, price_rows
from generator.pages.tallied_tables import COUNTS, tallies
from generator.pages.us_columns import Cell, with_us_columns
from generator.records.run import Run
from generator.records.schema.report import Limit

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""What makes a spreadsheet take a text for a formula."""


def readings(finding: ReportFinding, runs: Mapping[str, Run]) -> bytes:
    """Every reading of every run, as read and as reduced."""
    return _file(tables.readings(finding, runs))


def results(finding: ReportFinding) -> bytes:
    """Every figure: of the items, of their pieces, of the controls."""
    return _file(tables.results(finding))


def pairs(finding: ReportFinding) -> bytes:
    """Every pair of items with its gap."""
    return _file(tables.pairs(finding))


def limits(finding: ReportFinding, stated: Sequence[Limit]) -> bytes:
    """Every item and piece against every limit of the report's record."""
    return table(*with_us_columns(LIMITS, limit_rows(finding.measures, stated)))


def heat(finding: ReportFinding) -> bytes:
    """Heat over settled rise, run by run."""
    return table(*with_us_columns(HEAT, heat_rows(finding.measures)))


def counts(finding: ReportFinding) -> bytes:
    """Every count and answer, and every share with its exact interval."""
    return table(COUNTS, tallies(finding))


def prices(finding: ReportFinding) -> bytes:
    """Every purchase, with what a rate turned it into."""
    return table(PRICES, price_rows(finding))


def older(finding: ReportFinding) -> bytes:
    """Every older result, as it was stated then."""
    return table(*with_us_columns(OLDER, older_tables.older(finding)))


def table(heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """A file of comma-separated values; texts that a spreadsheet would run are guarded, numbers never."""
    guarded = tables.frame(heads, (tuple(map(_guarded, row)) for row in rows))
    return guarded.to_csv(index=False, lineterminator="\r\n").encode()


def _file(told: pd.DataFrame) -> bytes:
    return table(*with_us_columns(tuple(told.columns), told.itertuples(index=False, name=None)))


def _guarded(cell: Cell) -> str | int | float | Decimal:
    if cell is None:
        return ""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_FORMULA) else cell
