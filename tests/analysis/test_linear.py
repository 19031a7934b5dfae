"""Linear combinations in one step against the library's own arithmetic, addition by addition."""

from __future__ import annotations

import math
from functools import reduce
from operator import add
from typing import Any, cast

import GTC
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.linear import (
    combined_uncertainty,
    deferred,
    elementary,
    influences,
    kept,
    linear,
    with_younger,
)
from generator.analysis.uncertainty import Ledger, Uncertain, scatter, total, weighted

weights = st.lists(st.floats(-10, 10), min_size=1, max_size=6)


def numbers(ledger: Ledger, count: int) -> list[Uncertain]:
    """Numbers that share some of their inputs; every third one is a product."""
    inputs = [
        ledger.input(scatter((str(place),), "error", 0.1 + place / 7, "K", "reading"), 1.0 + place)
        for place in range(count + 2)
    ]
    return [
        inputs[place] * inputs[place + 1] if place % 3 == 2 else inputs[place] + inputs[place + 2] * 0.5
        for place in range(count)
    ]


@given(weights=weights)
def test_one_step_and_a_chain_are_one(weights: list[float]) -> None:
    ledger = Ledger()
    terms = numbers(ledger, len(weights))
    chain = reduce(add, (number * weight for weight, number in zip(weights, terms, strict=True)))
    step = weighted(weights, terms)
    assert step.x == pytest.approx(chain.x, rel=1e-12, abs=1e-12)
    assert step.u == pytest.approx(chain.u, rel=1e-12, abs=1e-12)
    ours = {part.input.key: part.contribution for part in ledger.components(step)}
    theirs = {part.input.key: part.contribution for part in ledger.components(chain)}
    assert {key: ours.get(key, 0.0) for key in theirs} == pytest.approx(theirs, rel=1e-9, abs=1e-12)


@given(count=st.integers(1, 6))
def test_the_library_goes_on_with_what_is_made(count: int) -> None:
    ledger = Ledger()
    terms = numbers(ledger, count)
    ours, theirs = total(terms), reduce(add, terms)
    for made, known in (
        (ours * ours / 3.0, theirs * theirs / 3.0),
        (ours**0.5 - terms[0], theirs**0.5 - terms[0]),
    ):
        assert made.x == pytest.approx(known.x, rel=1e-12)
        assert made.u == pytest.approx(known.u, rel=1e-9, abs=1e-12)


def test_what_is_shared_cancels() -> None:
    ledger = Ledger()
    common = ledger.input(scatter(("common",), "error", 0.3, "K", "shared"))
    own = [ledger.input(scatter((name,), "error", 0.1, "K", "reading")) for name in "ab"]
    first, second = (total([common, each]) for each in own)
    assert linear(0.0, [(1.0, first), (-1.0, second)]).u == pytest.approx(0.1 * math.sqrt(2))


def test_influences_stand_in_the_order_of_the_inputs() -> None:
    ledger = Ledger()
    inputs = [ledger.input(scatter((name,), "error", 0.1, "K", "reading")) for name in "abc"]
    number = linear(5.0, [(-2.0, inputs[2]), (1.0, inputs[0]), (1.0, ledger.exact(7.0)), (3.0, inputs[1])])
    assert influences(number)[1] == pytest.approx([0.1, 0.3, -0.2])
    assert combined_uncertainty(number) == pytest.approx(math.hypot(0.1, 0.3, 0.2))
    assert number.x == 5.0


def test_nothing_at_all() -> None:
    empty = linear(5.0, [])
    assert (empty.x, empty.u, *influences(empty)) == (5.0, 0.0, [], [])


def test_an_elementary_number_is_one_of_the_library_s_own() -> None:
    ours, theirs = elementary(3.0, 0.2, 7.0), GTC.ureal(3.0, 0.2, 7.0)
    assert (ours.x, ours.u) == (theirs.x, theirs.u)
    made = cast("Any", ours * 2.0 + cast("Any", theirs))
    assert made.u == pytest.approx(math.hypot(0.4, 0.2))
    assert made.df == pytest.approx((2 * ours + GTC.ureal(3.0, 0.2, 7.0)).df)
    # Each has an error of its own.
    assert (elementary(3.0, 0.2, 7.0) - ours).u == pytest.approx(0.2 * math.sqrt(2))


def test_the_same_errors_about_another_value_or_some_of_them() -> None:
    first, second = elementary(1.0, 0.3, math.inf), elementary(2.0, 0.4, math.inf)
    both = linear(3.0, [(1.0, first), (1.0, second)])
    other = deferred(7.0, ((1.0, both),))
    assert (other.x, other.u) == (7.0, both.u)
    assert (other - both).u == 0.0
    ((own,), _) = influences(second)
    left = kept(both, lambda influence: influence is not own)
    assert left.x == 3.0
    assert left.u == pytest.approx(0.3)
    assert (left - first).u == 0.0


def test_a_younger_number_is_added() -> None:
    first, second = elementary(1.0, 0.3, math.inf), elementary(2.0, 0.4, math.inf)
    both, theirs = with_younger(first, second), first + second
    assert (both.x, both.u) == (theirs.x, theirs.u)
    assert both.u == pytest.approx(0.5)
    assert influences(both) == influences(theirs)
    with pytest.raises(ValueError, match="not younger"):
        with_younger(second, first)


@given(weights=weights)
def test_what_is_joined_later_is_the_same(weights: list[float]) -> None:
    ledger = Ledger()
    terms = numbers(ledger, len(weights))
    pairs = list(zip(weights, terms, strict=True))
    at_once = linear(1.0, pairs)
    later = deferred(1.0, [(2.0, deferred(0.0, pairs[:1])), (-1.0, deferred(0.0, pairs[:1])), *pairs[1:]])
    for _ in range(2):  # Before it was looked at by itself, and after.
        assert linear(0.0, [(1.0, later), (-1.0, at_once)]).u == pytest.approx(0.0, abs=1e-12)
        assert later.u == pytest.approx(at_once.u, rel=1e-12, abs=1e-12)
    assert (later * 2.0 + terms[0]).u == pytest.approx((at_once * 2.0 + terms[0]).u, rel=1e-9, abs=1e-12)
    assert later.x == 1.0
