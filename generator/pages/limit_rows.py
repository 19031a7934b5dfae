"""The rows of the file of limits: every item and piece against every limit that it is held against."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.evaluation.findings import ItemFinding, MeasureFinding
from generator.evaluation.statements import LimitFinding, PieceAgainst, said_of
from generator.pages.tables import digits
from generator.pages.us_columns import Cell
from generator.records.schema.report import Limit

LIMITS = (
    "measure",
    "item",
    "stock",
    "piece",
    "pieces",
    "kind",
    "limit",
    "standing",
    "source",
    "in air of (°C)",
    "value",
    "half-width of its 95 % interval",
    "unit",
    "outcome",
    "by less than its ±",
    "probability that it is kept",
    "share of pieces beyond, at most",
    "rule",
    "why not",
)
"""Headings; a row without a piece is of all pieces of that stock."""

BY_PIECE = "held piece by piece"
"""Why an item's row has no figure: no mean is held against a limit."""


def limit_rows(measures: Sequence[MeasureFinding], limits: Sequence[Limit]) -> Iterator[tuple[Cell, ...]]:
    """Rows below `LIMITS`: of each item what is said of it, then of its pieces.

    Args:
        measures: Of the report.
        limits: Of its record.
    """
    for measure in measures:
        for item in measure.items:
            for found in item.limits:
                limit = limits[found.number]
                unit = {"temperature": "°C", "rise": "K"}.get(found.kind, measure.unit)
                yield from _rows(measure, item, found, limit, unit)


def _rows(
    measure: MeasureFinding, item: ItemFinding, found: LimitFinding, limit: Limit, unit: str
) -> Iterator[tuple[Cell, ...]]:
    stated = (found.kind, digits(found.limit), limit.standing, limit.source, digits(found.reference))
    held = sum(each.outcome != "no-figure" for each in found.pieces)
    head = (measure.measure, item.item, item.stock)
    share = digits(found.share_beyond)
    said = said_of(found.outcome, found.kind, found.standing)
    yield (*head, "", held, *stated, None, None, unit, said, found.leaning, None, share, found.rule, BY_PIECE)
    for piece in found.pieces:
        yield (*head, piece.specimen, 1, *stated, *_piece(piece, found, unit), None, found.rule, _why(piece))


def _piece(piece: PieceAgainst, found: LimitFinding, unit: str) -> tuple[Cell, ...]:
    said = said_of(piece.outcome, found.kind, found.standing)
    numbers = (digits(piece.value), digits(piece.half_width))
    return (*numbers, unit, said, piece.leaning, digits(piece.probability))


def _why(piece: PieceAgainst) -> Cell:
    """What keeps a piece from a side, or from a figure."""
    return piece.kept_by or (piece.outcome if piece.value is None else None)
