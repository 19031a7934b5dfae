"""Of a figure that is another: the ± of the difference, and whether it left the interval published."""

from __future__ import annotations

import pytest

from generator.history.figures import Figure
from generator.history.moved import Moved


def figure(value: float, half_width: float, unit: str = "K") -> Figure:
    return Figure("a", "rise", value=str(value), unit=unit, unrounded=(value, half_width))


def test_half_widths_join_as_of_independent_errors() -> None:
    # JCGM 100, 5.1.2: the variances add; 3, 4, 5.
    moved = Moved("a", "rise", figure(40.0, 3.0), figure(46.0, 4.0))
    assert moved.gap == pytest.approx((6.0, 5.0))
    assert moved.difference is not None
    assert (moved.difference.value_text, moved.difference.uncertainty_text) == ("6.0", "5.0")


@pytest.mark.parametrize(
    ("now", "outside"), [(figure(42.9, 1.0), False), (figure(43.1, 1.0), True), (figure(36.9, 9.0), True)]
)
def test_a_correction_is_held_against_the_interval_that_was_published(now: Figure, *, outside: bool) -> None:
    assert Moved("a", "rise", figure(40.0, 3.0), now).outside is outside


@pytest.mark.parametrize(
    ("was", "now"),
    [
        (None, figure(40.0, 3.0)),
        (figure(40.0, 3.0), None),
        (figure(40.0, 3.0), figure(40.0, 3.0, "N")),
        (figure(40.0, 3.0), Figure("a", "rise", outcome="stopped")),
        (figure(40.0, 0.0), figure(41.0, 0.0)),
    ],
)
def test_without_two_figures_of_one_unit_there_is_neither(was: Figure | None, now: Figure | None) -> None:
    moved = Moved("a", "rise", was, now)
    assert moved.gap is None
    assert moved.outside is None
