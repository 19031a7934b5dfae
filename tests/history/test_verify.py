"""`verify`: a published figure that comes out otherwise is named, with how far it moved."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from generator.analysis.heating import current_exponent
from generator.analysis.rounding import rounded
from generator.history.figures import Figure, as_printed, as_record
from generator.history.moved import TOLERANCE, Moved, drifts, moved
from tests.history.benches import REPORT, run

FIGURE = Figure("a", "rise", value="41.3", uncertainty="1.8", unit="K", unrounded=(41.2837106, 1.81263301))


def computed(by: float, width_by: float = 0.0) -> Figure:
    """The same figure as another program has it."""
    value, width = 41.2837106 + by, 1.81263301 + width_by
    text = rounded(value, width)
    return replace(FIGURE, value=text.value_text, uncertainty=text.uncertainty_text, unrounded=(value, width))


@pytest.mark.usefixtures("once")
def test_a_coefficient_that_is_another_moves_figures_by_name(monkeypatch: pytest.MonkeyPatch) -> None:
    assert run("verify").exit_code == 0
    # The exponent of the correction to the set current, and how far off it may be.
    monkeypatch.setattr(current_exponent, "__defaults__", (3.0, 0.4))
    done = run("verify", REPORT)
    assert done.exit_code == 1
    assert "figures moved" in done.output
    assert "halvenor-c2 rise: published " in done.output
    assert "; moved by " in done.output
    assert "published by provebook" in done.output


def test_what_moved_within_its_last_printed_digit_is_named_and_told_so() -> None:
    (found,) = drifts([FIGURE], [computed(0.01)])
    assert found.by == pytest.approx(0.01)
    assert not found.printed
    (found,) = drifts([FIGURE], [computed(0.1)])
    assert found.printed
    (found,) = drifts([FIGURE], [computed(0.0, 0.1)])
    assert found.width_by == pytest.approx(0.1)
    assert found.printed


@given(st.floats(-1, 1), st.floats(-1, 1))
def test_the_last_bits_of_another_processor_move_nothing(by: float, width_by: float) -> None:
    least = 0.9 * TOLERANCE * 1.81263301
    assert drifts([FIGURE], [computed(by * least, width_by * least)]) == ()


def test_a_figure_on_a_rounding_edge_has_not_moved() -> None:
    # 41.25 is printed 41.2, a hair above it 41.3: the published digits stand.
    edge = replace(FIGURE, value="41.2", unrounded=(41.25, 1.8))
    above = replace(FIGURE, value="41.3", unrounded=(41.25 + 1e-9, 1.8))
    assert drifts([edge], [above]) == ()


@pytest.mark.parametrize("edge", [41.25, 41.35, 40.05, -12.25, 0.15])
def test_the_last_bit_of_a_processor_prints_and_keeps_the_same(edge: float) -> None:
    """On the edge and a bit either side of it: one text on the page, one in the edition, nothing moved."""
    near = (math.nextafter(edge, -math.inf), edge, math.nextafter(edge, math.inf))
    figures = [replace(FIGURE, value=as_printed(each, 1.8)[0], unrounded=(each, 1.8)) for each in near]
    assert as_record(figures[0]) == as_record(figures[1]) == as_record(figures[2])
    assert all(drifts([was], [now]) == () for was in figures for now in figures)


@pytest.mark.parametrize(
    "now",
    [
        replace(FIGURE, outcome="within"),
        replace(FIGURE, place="2"),
        replace(FIGURE, pieces=3),
        replace(FIGURE, unrounded=None, value=""),
        replace(FIGURE, ends=(("settled", 2),)),
    ],
)
def test_what_is_said_otherwise_has_moved(now: Figure) -> None:
    (found,) = drifts([FIGURE], [now])
    assert found.printed
    assert len(moved([FIGURE], [now])) == 1


def test_what_is_no_longer_told_has_moved() -> None:
    (found,) = drifts([FIGURE], [])
    assert (found.now, found.printed) == (None, True)
    (gone,) = moved([FIGURE], [])
    assert gone.now is None
    (new,) = moved([], [FIGURE])
    assert new.was is None


def test_counts_are_held_as_they_are() -> None:
    count = Figure("a", "opened", counted="0 of 50", outcome="counted", pieces=1)
    assert drifts([count], [count]) == ()
    (found,) = drifts([count], [replace(count, counted="1 of 50")])
    assert found.printed


@given(st.floats(-50, 50), st.floats(0.1, 9), st.floats(-50, 50), st.floats(0.1, 9))
def test_the_difference_of_a_retest_is_that_of_two_independent_figures(
    then: float, width_then: float, now: float, width_now: float
) -> None:
    was, is_now = replace(FIGURE, unrounded=(then, width_then)), replace(FIGURE, unrounded=(now, width_now))
    found = Moved("a", "rise", was, is_now).difference
    reference = ufloat(now, width_now) - ufloat(then, width_then)
    assert found == rounded(reference.nominal_value, reference.std_dev)
    assert Moved("a", "rise", was, replace(is_now, unrounded=None)).difference is None
