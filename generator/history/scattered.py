"""Whether the pieces of an item scatter otherwise than in the edition before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.analysis.variances import FEWEST, SpreadRatio, spread_ratio
from generator.evaluation.findings import ItemFinding
from generator.evaluation.report import evaluate
from generator.history.change import Change
from generator.history.frozen import as_published
from generator.records.bench import Bench, Report
from generator.records.schema.edition import Edition


@dataclass(frozen=True)
class Scattered:
    """The spread between pieces of an item by a measure, over that in the edition before.

    Attributes:
        item: Id of the item.
        measure: Id of the measure.
        pieces: How many pieces then and now.
        spread: The ratio of now to then.
    """

    item: str
    measure: str
    pieces: tuple[int, int]
    spread: SpreadRatio


def scattered(
    bench: Bench, report: Report, editions: tuple[Edition, Edition], change: Change
) -> tuple[Scattered, ...]:
    """Spreads that may be compared: six pieces or more on each side, none of them on both.

    Args:
        bench: The records, without faults: what editions rest on is as it was.
        report: One of its reports.
        editions: One of its editions and the next.
        change: What that one changed.
    """
    many = {
        (each.item, each.measure)
        for each in change.moved
        if each.was is not None and each.now is not None and min(each.was.pieces, each.now.pieces) >= FEWEST
    }
    if not many:
        return ()
    before, after = (_pieces(bench, report, edition) for edition in editions)
    return tuple(_compared(many, before, after))


Pieces = dict[tuple[str, str], dict[tuple[str, str], float]]
"""By item and measure: the figure of each piece by its stock and letter."""


def _compared(keys: set[tuple[str, str]], before: Pieces, after: Pieces) -> Iterator[Scattered]:
    for key, now in after.items():
        was = before.get(key, {})
        if key not in keys or was.keys() & now.keys():
            continue
        spread = spread_ratio(list(was.values()), list(now.values()))
        if spread is not None:
            yield Scattered(*key, (len(was), len(now)), spread)


def _pieces(bench: Bench, report: Report, edition: Edition) -> Pieces:
    finding = evaluate(*as_published(bench, report, edition))
    return {(item.item, each.measure): _figures(item) for each in finding.measures for item in each.items}


def _figures(item: ItemFinding) -> dict[tuple[str, str], float]:
    """Figures of the pieces that stand for the item."""
    return {
        (piece.stock, piece.specimen): piece.figure.value
        for piece in item.pieces
        if piece.stock == item.stock and piece.figure is not None
    }
