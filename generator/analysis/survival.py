"""How many cycles pieces last, where some were still whole when the test ended."""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from scipy.stats import CensoredData, ecdf

from generator.analysis.counts import Share, share


@dataclass(frozen=True)
class Lasted:
    """One piece of an endurance test.

    Attributes:
        cycles: At which it failed, or which it had done when the test ended.
        failed: False for a survivor: it lasts longer than that, by how much is not known.
    """

    cycles: float
    failed: bool


@dataclass(frozen=True)
class Step:
    """Share of the pieces that last beyond a number of cycles.

    Attributes:
        cycles: Where the share falls.
        surviving: Share beyond it, 0 to 1.
        low: Lower end of its 95 % interval.
        high: Upper end.
        at_risk: Pieces still whole and watched just before.
        failed: Pieces that failed there.
    """

    cycles: float
    surviving: float
    low: float
    high: float
    at_risk: int
    failed: int


def survivors(pieces: Sequence[Lasted]) -> Share | None:
    """Share of all pieces that fail within the test, exactly, where every survivor was watched to its end.

    Returns:
        None where a survivor left the test before another failed: the share then needs `kaplan_meier`.
    """
    ends = {each.cycles for each in pieces if not each.failed}
    failures = [each.cycles for each in pieces if each.failed]
    if not pieces or len(ends) > 1 or (ends and failures and max(failures) > next(iter(ends))):
        return None
    return share(len(failures), len(pieces))


def kaplan_meier(pieces: Sequence[Lasted], level: float = 0.95) -> tuple[Step, ...]:
    """The product-limit estimate with Greenwood's variance and an interval on the log(−log) scale, by scipy.

    E. L. Kaplan and P. Meier, J. Am. Stat. Assoc. 53 (1958) 457–481; the interval of J. D. Kalbfleisch and
    R. L. Prentice, The Statistical Analysis of Failure Time Data, section 1.4. A survivor that leaves at the
    cycle of a failure counts as at risk there.

    Args:
        pieces: At least one.
        level: Two-sided confidence of each step's interval.

    Returns:
        A step a failing cycle, ascending; after the last piece at risk has failed the interval is 0 to the
        one before, since the scale has no end there.

    Raises:
        ValueError: No pieces, or cycles below zero.
    """
    if not pieces or min(each.cycles for each in pieces) < 0:
        raise ValueError("an endurance test needs pieces, and cycles from zero on")
    failures = [each.cycles for each in pieces if each.failed]
    if not failures:
        return ()
    surviving, lows, highs = _estimate(failures, [each.cycles for each in pieces if not each.failed], level)
    steps: list[Step] = []
    for cycles in sorted(set(failures)):
        share_beyond = surviving[cycles]
        low, high = lows[cycles], highs[cycles]
        if share_beyond == 0:
            low, high = 0.0, steps[-1].high if steps else 1.0
        at_risk = sum(each.cycles >= cycles for each in pieces)
        steps.append(Step(cycles, share_beyond, low, high, at_risk, failures.count(cycles)))
    return tuple(steps)


_Curve = dict[float, float]


def _estimate(failed: Sequence[float], whole: Sequence[float], level: float) -> tuple[_Curve, _Curve, _Curve]:
    """Share beyond each number of cycles, and the ends of its interval."""
    curve: Any = ecdf(CensoredData(uncensored=list(failed), right=list(whole))).sf
    with warnings.catch_warnings():
        # Where all have failed the scale has no end; that step is told without it.
        warnings.simplefilter("ignore", RuntimeWarning)
        ends = curve.confidence_interval(level, method="log-log")
    found = (each.probabilities.tolist() for each in (curve, ends.low, ends.high))
    surviving, low, high = (dict(zip(curve.quantiles.tolist(), each, strict=True)) for each in found)
    return surviving, low, high
