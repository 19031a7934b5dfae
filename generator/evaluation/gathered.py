"""From the runs of a measure to its items: their pieces, their spread, their figures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.analysis import specimens
from generator.evaluation.averaged import averaged
from generator.evaluation.items import LiveItem
from generator.evaluation.pieces import declared, figure_of, numbers, pieces_of, why_no_mean
from generator.evaluation.shared import warming
from generator.evaluation.work import Work


def live_items(work: Work) -> tuple[LiveItem, ...]:
    """The items of a report by one measure, in its order, with their figures."""
    first_only = work.kind.first_only
    gathered: list[LiveItem] = []
    for order, item_id in enumerate(work.report.record.items):
        item = work.bench.items[item_id]
        own = [each for each in work.runs if each[0].item == item_id]
        pieces = pieces_of(item, own, int(getattr(work.stated, "heating", 1)) if first_only else None)
        stock = item.newest_stock(piece.stock for piece in pieces)
        counted = tuple(piece for piece in pieces if piece.stock == stock)
        still = warming(counted, work.mark)
        gathered.append(LiveItem(item_id, order, stock, pieces, counted, None, warming=still))
    if not first_only:
        gathered = averaged(work, gathered)
    pooled = pooled_over(gathered)
    return tuple(_with_figure(work, each, pooled) for each in gathered)


def pooled_over(items: Sequence[LiveItem]) -> specimens.Spread | None:
    """Spread pooled over the items that completed: one that stopped or went over range is not pooled."""
    return specimens.pooled_spread([values_of(each) for each in items])


def values_of(live: LiveItem) -> list[float]:
    """The figures of an item's pieces that may be pooled: none of one that stopped or went over range."""
    return [number.x for number in numbers(live.counted)] if why_no_mean(live.counted) is None else []


def _with_figure(work: Work, live: LiveItem, pooled: specimens.Spread | None) -> LiveItem:
    if not live.counted or why_no_mean(live.counted) is not None:
        return live
    said = getattr(work.stated, "spread", None)
    key = (work.measure, live.item, live.stock)
    figure = figure_of(
        work.ledger, key, live.counted, pooled=pooled, stated=declared(said), unit=work.error_unit
    )
    return replace(live, figure=figure, declared_from=said.origin if said is not None else "")
