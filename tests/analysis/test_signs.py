"""Runs of residuals of one sign."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.signs import few_runs


def by_counting(signs: tuple[int, ...]) -> float:
    """All orders of the same signs, counted one by one."""

    def runs(order: tuple[int, ...]) -> int:
        return 1 + sum(left != right for left, right in pairwise(order))

    places = range(len(signs))
    orders = [
        tuple(1 if place in chosen else -1 for place in places)
        for chosen in combinations(places, signs.count(1))
    ]
    return sum(runs(order) <= runs(signs) for order in orders) / len(orders)


@given(signs=st.lists(st.sampled_from([1, -1]), min_size=2, max_size=11))
def test_against_counting(signs: list[int]) -> None:
    expected = by_counting(tuple(signs))
    assert few_runs([sign * (0.1 + place) for place, sign in enumerate(signs)]) == pytest.approx(expected)


@pytest.mark.parametrize(("each", "runs"), [(10, 6), (15, 10), (20, 14)])
def test_the_usual_critical_numbers(each: int, runs: int) -> None:
    # F. S. Swed and C. Eisenhart, Ann. Math. Statist. 14 (1943), table II: at most so many runs at 2.5 %
    # (from memory).
    def signs(count: int) -> list[float]:
        half = count // 2
        lengths = [1] * (half - 1) + [each - half + 1]
        return [sign for length in lengths for sign in [1.0] * length + [-1.0] * length]

    assert few_runs(signs(runs)) <= 0.025 < few_runs(signs(runs + 2))


def test_what_says_nothing() -> None:
    assert few_runs([]) == 1.0
    assert few_runs([0.1, 0.2, 0.3]) == 1.0
    assert few_runs([0.1, -0.1, 0.0]) == few_runs([0.1, -0.1])


def test_two_blocks() -> None:
    assert few_runs([1.0] * 10 + [-1.0] * 10) == pytest.approx(2 / math.comb(20, 10))
