"""What the studies must show, for any number of cases.

`slack` is how many binomial standard errors of the bar a count may fall short by: 3 in a short study, where
chance alone would else decide, and 0 in a full one.
"""

from __future__ import annotations

import math

from tests.studies import ahead, coverage, healthy, ranks, single

SHORT_SLACK = 3.0


def standard_error(share: float, cases: int) -> float:
    """Binomial standard error of a share of so many cases."""
    return math.sqrt(share * (1.0 - share) / cases)


def at_least(count: int, cases: int, share: float, slack: float) -> None:
    """A count is at least a share of the cases."""
    assert count / cases >= share - slack * standard_error(share, cases), f"{count} of {cases}"


def at_most(count: int, cases: int, share: float, slack: float) -> None:
    """A count is at most a share of the cases."""
    assert count / cases <= share + slack * standard_error(share, cases), f"{count} of {cases}"


def as_computed(count: int, computed: int, cases: int) -> None:
    """Two counts of the same number of cases agree within four standard errors of their difference."""
    both = math.hypot(*(standard_error(each / cases, cases) for each in (count, computed)))
    assert abs(count - computed) / cases <= 4.0 * both, f"{count} and {computed} of {cases}"


def several_pieces(found: coverage.Held, slack: float) -> None:
    """Mean over pieces and difference of two items."""
    assert max(found.rectangle) < 0.5
    for count, computed in (
        (found.mean, found.mean_drawn),
        (found.difference, found.difference_drawn),
    ):
        at_least(count, found.cases, 0.94, slack)
        at_most(count, found.cases, 0.98, slack)
        as_computed(count, computed, found.cases)


def pieces_to_come(found: ahead.Held, slack: float) -> None:
    """Where the next piece lies, and the limit of nine in ten."""
    for count, computed in ((found.next, found.next_drawn), (found.most, found.most_drawn)):
        if count is not None and computed is not None:
            at_least(count, found.cases, 0.94, slack)
            at_most(count, found.cases, 0.98, slack)
            as_computed(count, computed, found.cases)


def single_pieces(found: single.Held, slack: float) -> None:
    """Rise at the mark of one piece, and difference of two."""
    for count in (found.rise, found.difference):
        at_least(count, found.cases, 0.94, slack)
        at_most(count, found.cases, 0.98, slack)


def single_pieces_as_computed(found: single.Held) -> None:
    """Both agree with their budgets drawn directly."""
    as_computed(found.rise, found.rise_drawn, found.cases)
    as_computed(found.difference, found.difference_drawn, found.cases)


def settled_rise(found: healthy.Settled, slack: float) -> None:
    """Printed settled rises hold the truth."""
    at_least(found.held, found.printed, 0.94, slack)


def equal_items(found: ranks.Told) -> None:
    """False order in at most 5 % of reports, plus two standard errors."""
    at_most(found.any_order, found.reports, 0.05, 2.0)


def one_hotter(found: ranks.Told, slack: float) -> None:
    """The hotter item is shown hotter than every other in at least 90 % of reports."""
    at_least(found.hotter_than_all, found.reports, 0.90, slack)


def one_looser(found: ranks.Told, slack: float) -> None:
    """Where one item scatters three times as much as the others, false order in at most 10 % of reports."""
    at_most(found.any_order, found.reports, 0.10, slack)
