"""Scales: zero is held, ticks are round, labels never cover one another."""

from __future__ import annotations

import itertools

import numpy as np
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, minimize

from generator.charts.scales import label_places, minor_ticks, minute_scale, ticks, value_scale

RISES = st.floats(-50, 500, allow_nan=False)


def test_a_rise_of_61_has_ticks_by_twenty() -> None:
    assert value_scale([27.9, 61.8]).ticks == (0.0, 20.0, 40.0, 60.0)


def test_a_scale_starts_at_zero_where_nothing_lies_below() -> None:
    assert value_scale([3.0, 8.0]).low == 0.0


def test_no_values_make_a_scale_all_the_same() -> None:
    scale = value_scale([])
    assert scale.low == 0.0
    assert scale.high > 0.0


@given(st.lists(RISES, min_size=1, max_size=20))
def test_every_value_zero_and_every_tick_lie_within(values: list[float]) -> None:
    scale = value_scale(values)
    assert all(0 <= scale.part(value) <= 1 for value in [*values, 0.0])
    assert all(-1e-9 <= scale.part(tick) <= 1 + 1e-9 for tick in scale.ticks)
    assert 1 <= len(scale.ticks) <= 6


@given(st.lists(RISES, min_size=1, max_size=20))
def test_ticks_are_one_two_or_five_times_a_power_of_ten_apart(values: list[float]) -> None:
    steps = {f"{after - before:.4e}"[:6] for before, after in itertools.pairwise(value_scale(values).ticks)}
    assert steps <= {"1.0000", "2.0000", "5.0000"}
    assert len(steps) <= 1


def test_an_hour_is_told_by_tens_and_two_hours_by_twenties() -> None:
    assert minute_scale(60).ticks == (0, 10, 20, 30, 40, 50, 60)
    assert minute_scale(120).ticks == (0, 20, 40, 60, 80, 100, 120)
    assert minute_scale(90).ticks == (0, 15, 30, 45, 60, 75, 90)


@given(st.floats(0.1, 100_000))
def test_minutes_never_crowd(longest: float) -> None:
    assert 1 <= len(minute_scale(longest).ticks) <= 7


def test_the_tick_at_zero_is_zero() -> None:
    assert 0.0 in ticks(-0.3, 0.7, 0.1)


@given(st.lists(st.floats(0, 100), max_size=8), st.floats(0.5, 30))
def test_labels_keep_their_distance_and_their_order(wanted: list[float], gap: float) -> None:
    placed = label_places(wanted, gap, 0, 100)
    kept = min(gap, 100 / max(len(wanted) - 1, 1))
    assert all(-1e-9 <= place <= 100 + 1e-9 for place in placed)
    pairs = sorted(zip(wanted, placed, strict=True))
    for (before, first), (after, second) in itertools.pairwise(pairs):
        if before < after:
            assert second - first >= kept - 1e-9


ENDS = st.one_of(st.floats(0, 1), st.sampled_from((0.0, 0.5, 1.0)))


@given(st.lists(st.tuples(ENDS, st.integers(1, 2)), min_size=2, max_size=12))
def test_no_line_of_a_label_covers_another_tied_or_not(labels: list[tuple[float, int]]) -> None:
    """As a heating chart has them: 320 px high, lines 16 px apart, texts 12 px high, two lines at most."""
    assume(sum(each for _, each in labels) <= 20)  # as many as there is room for
    wanted, lines = [each for each, _ in labels], [each for _, each in labels]
    placed = label_places(wanted, 16 / 320, 0, 1, lines)
    down = sorted(
        320 * place + 16 * line for place, many in zip(placed, lines, strict=True) for line in range(many)
    )
    assert all(after - before >= 12 for before, after in itertools.pairwise(down))
    assert down[0] >= -1e-9
    assert down[-1] <= 320 + 1e-9


def test_labels_that_do_not_meet_stay_where_they_are() -> None:
    assert label_places([80, 10, 40], 5, 0, 100) == (80, 10, 40)


def test_labels_move_no_more_than_a_general_solver_would_move_them() -> None:
    """Reference: scipy's SLSQP on the same least-squares problem."""
    wanted, gap = np.array([20.0, 21.0, 24.0, 60.0, 61.0, 97.0, 99.0]), 6.0

    def moved(places: np.ndarray) -> float:
        return float(np.sum((places - wanted) ** 2))

    apart = LinearConstraint(np.eye(6, 7, 1) - np.eye(6, 7), lb=gap)
    least = minimize(moved, np.linspace(5, 95, 7), bounds=[(0, 100)] * 7, constraints=[apart])
    assert np.allclose(label_places(list(wanted), gap, 0, 100), least.x, atol=1e-3)


def test_minor_ticks_part_a_step_of_two_in_four_and_others_in_five() -> None:
    assert minor_ticks(value_scale([61.8]))[:5] == (5.0, 10.0, 15.0, 25.0, 30.0)
    assert minor_ticks(value_scale([31.0]))[:5] == (2.0, 4.0, 6.0, 8.0, 12.0)
    assert minor_ticks(value_scale([140.0]))[:5] == (10.0, 20.0, 30.0, 40.0, 60.0)


@given(st.lists(RISES, min_size=1, max_size=20))
def test_minor_ticks_lie_on_the_scale_and_on_no_tick_of_its_own(values: list[float]) -> None:
    scale = value_scale(values)
    finer = minor_ticks(scale)
    assert all(-1e-9 <= scale.part(tick) <= 1 + 1e-9 for tick in finer)
    assert not set(finer) & set(scale.ticks)
    assert len(finer) <= 5 * len(scale.ticks) + 5
