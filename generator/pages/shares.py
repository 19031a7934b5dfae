"""A share as pages tell it: k of n, with the ends of its interval in percent."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.counts import Share
from generator.charts.numerals import numeral
from generator.pages.format import percent


@dataclass(frozen=True)
class Of:
    """k of n, and the percentages between which the share of all like them lies; empty for none and all."""

    k: int
    n: int
    low: str
    high: str


def of_share(share: Share | None) -> Of | None:
    """A share as it is told; None without one."""
    if share is None:
        return None
    low = percents(share.low) if share.k > 0 else ""
    high = percents(share.high) if share.k < share.n else ""
    return Of(share.k, share.n, low, high)


def percents(part: float) -> str:
    """Whole percents; one decimal near none and near all, so that neither reads as none or all."""
    near_all = part > 0.9005
    return numeral(min(part * 100, 99.9), 1) if near_all else percent(part * 100)
