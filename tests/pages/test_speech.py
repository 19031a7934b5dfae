"""Figures as they are spoken: rounded only where that changes nothing."""

from __future__ import annotations

import dataclasses

from hypothesis import given
from hypothesis import strategies as st

from generator.charts.rows import Bar
from generator.pages.speech import Speech, spoken
from tests.pages.factory import estimate
from tests.pages.states import LIMIT, bar, every


def said(*rows: Bar, told: int = 1, limited: bool = False) -> Speech | None:
    posts = (LIMIT,) if limited else ()
    return spoken(rows[:told], every(*rows, posts=posts))


def texts(found: Speech | None) -> list[tuple[str, str]]:
    assert found is not None
    return [(each.value, each.value_us) for each in found.figures]


def test_figures_are_rounded_where_nothing_changes() -> None:
    cool, near = bar("cool", 27.9, alike=("near",)), bar("near", 29.6, alike=("cool",))
    found = said(cool, near, told=2)
    assert found is not None
    assert found.about
    assert texts(found) == [("28", "50"), ("30", "53")]


def test_two_that_round_to_one_number_are_told_once() -> None:
    cool, near = bar("cool", 27.9, alike=("near",)), bar("near", 28.2, alike=("cool",))
    assert texts(said(cool, near, told=2)) == [("28", "50"), ("28", "51")]
    near = bar("near", 28.0, alike=("cool",))
    assert texts(said(cool, near, told=2)) == [("28", "50")]


def test_a_rounding_that_would_hide_what_is_shown_is_not_spoken() -> None:
    cool, near = bar("cool", 27.9, 0.1), bar("near", 28.3, 0.1)
    found = said(cool, near)
    assert found is not None
    assert not found.about
    assert (found.figures[0].value, found.figures[0].half_width) == ("27.90", "0.10")


def test_no_rounding_moves_a_figure_across_the_limit_or_on_to_it() -> None:
    for value in (54.7, 55.3):
        assert said(bar("cool", value)) == dataclasses.replace(said(bar("cool", value)), about=True)  # type: ignore[type-var]
        found = said(bar("cool", value), limited=True)
        assert found is not None
        assert not found.about
    # 53.6 is 96.5 °F, and 54.8 would be 98.6 °F: told as 99 it would stand on the limit of 99 °F.
    found = said(bar("cool", 53.6), limited=True)
    assert found is not None
    assert found.about


def test_small_figures_are_never_rounded() -> None:
    found = said(bar("cool", 9.4))
    assert found is not None
    assert not found.about


def test_of_many_the_ends_are_told_or_nothing() -> None:
    items = ("cool", "near", "third")
    three = [
        bar(each, 20.0 + 3 * n, alike=tuple(o for o in items if o != each)) for n, each in enumerate(items)
    ]
    found = said(*three, told=3)
    assert found is not None
    assert found.span
    assert [each.value for each in found.figures] == ["20", "26"]
    close = [
        dataclasses.replace(each, figure=estimate(20.0 + 0.1 * n, 0.01), alike=())
        for n, each in enumerate(three)
    ]
    assert said(*close, told=3) is None


@given(st.floats(10, 150), st.floats(10, 150))
def test_spoken_figures_keep_every_order_that_is_shown(low: float, high: float) -> None:
    found = said(bar("cool", min(low, high)), bar("near", max(low, high)))
    if found is not None and found.about and low != high:
        other = round(max(low, high))
        assert int(found.figures[0].value) < other
        assert int(found.figures[0].value_us) < round(max(low, high) * 1.8)
