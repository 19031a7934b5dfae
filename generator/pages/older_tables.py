"""The table of older results to take away: a file of its own, so that nobody takes one for a figure."""

from __future__ import annotations

from collections.abc import Iterator

from generator.evaluation.findings import ReportFinding
from generator.pages.tables import digits
from generator.pages.us_columns import Cell

OLDER = (
    "measure",
    "item",
    "date",
    "value",
    "bound",
    "half-width of its 95 % interval",
    "unit",
    "± known",
    "air (°C)",
    "time (s)",
    "pieces",
    "meter",
    "first published",
    "batch",
)


def older(finding: ReportFinding) -> Iterator[tuple[Cell, ...]]:
    """Rows below `OLDER`, in the order of measures and items, the newest first."""
    for each in (found for measure in finding.measures for found in measure.older):
        result, known = each.result, each.half_width is not None
        measured = (digits(each.value), each.bound, digits(each.half_width), each.unit)
        air = None if result.air is None else digits(result.air.si)
        at = None if result.at is None else digits(result.at.si)
        beside = ("yes" if known else "no", air, at, result.pieces, result.meter, result.published)
        yield (each.measure, each.item, str(result.date), *measured, *beside, each.batch)
