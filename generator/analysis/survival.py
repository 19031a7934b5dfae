"""How many cycles pieces last, where some were still whole when the test ended."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy.stats import norm

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
    """The product-limit estimate with Greenwood's variance and an interval on the log(−log) scale.

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
    z = float(norm.ppf((1 + level) / 2))
    steps: list[Step] = []
    surviving, variance, high = 1.0, 0.0, 1.0
    for cycles in sorted({each.cycles for each in pieces if each.failed}):
        at_risk = sum(each.cycles >= cycles for each in pieces)
        failed = sum(each.failed and each.cycles == cycles for each in pieces)
        surviving *= 1 - failed / at_risk
        if failed == at_risk:
            steps.append(Step(cycles, 0.0, 0.0, high, at_risk, failed))
            continue
        variance += failed / (at_risk * (at_risk - failed))
        reach = z * math.sqrt(variance) / abs(math.log(surviving))
        low, high = surviving ** math.exp(reach), surviving ** math.exp(-reach)
        steps.append(Step(cycles, surviving, low, high, at_risk, failed))
    return tuple(steps)
