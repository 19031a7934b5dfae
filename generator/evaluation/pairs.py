"""Every pair of items of one measure, all held together."""

from __future__ import annotations

from collections.abc import Sequence

from scipy.special import ndtri

from generator.analysis.comparison import Difference, difference
from generator.analysis.interval import half_width, parts
from generator.analysis.multiple import LEVEL, Held, holm
from generator.analysis.ranking import gap_seen
from generator.evaluation.findings import PairFinding
from generator.evaluation.gathered import pooled_over
from generator.evaluation.items import LiveItem
from generator.evaluation.work import Work


def pairs_of(work: Work, items: Sequence[LiveItem]) -> tuple[PairFinding, ...]:
    """Every pair of items with figures; those whose spread is known are held together."""
    pooled = pooled_over(items)
    ranked = sorted((each for each in items if each.figure is not None and not each.warming), key=_value)
    found = []
    for place, low in enumerate(ranked):
        for high in ranked[place + 1 :]:
            assert low.figure is not None and high.figure is not None  # noqa: S101, PT018
            found.append((low.item, high.item, difference(work.ledger, high.figure, low.figure, pooled)))
    known = [each for *_, each in found if each.spread_known]
    held = dict(zip(map(id, known), holm([each.p for each in known]), strict=True))
    return tuple(_pair(low, high, each, held.get(id(each))) for low, high, each in found)


def _value(live: LiveItem) -> tuple[float, int]:
    assert live.figure is not None  # noqa: S101
    return live.figure.number.x, live.order


def _pair(low: str, high: str, found: Difference, held: Held | None) -> PairFinding:
    level = held.level if held is not None else LEVEL
    error = parts(found.components)
    # Sought from where it would lie, were the difference normal.
    near = found.estimate.half_width * float(ndtri(level / 2) / ndtri(LEVEL / 2))
    reach = half_width(error, 1.0 - level, near or None)
    tied = held is not None and not held.shown
    return PairFinding(
        first=low,
        second=high,
        difference=found.estimate,
        half_width=reach,
        p=found.p,
        shown=held.shown if held is not None else False,
        known=held is not None,
        gap=gap_seen(error, level, reach=reach) if tied else None,
        by=found.by,
    )
