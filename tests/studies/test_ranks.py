"""Short studies of places; the full ones are in `tests/long`."""

from __future__ import annotations

import pytest

from tests.studies import bars, ranks, rows


@pytest.mark.parametrize("count", rows.EQUAL)
def test_equal_items_are_seldom_told_apart(count: int) -> None:
    found = ranks.study(rows.SEED_RANKS, count, 400)
    assert found.ranked == 400
    bars.equal_items(found)


def test_six_equal_items_are_seldom_told_apart() -> None:
    found = ranks.study(rows.SEED_RANKS, 3, 2000, items=6)
    assert found.ranked == 2000
    bars.equal_items(found)


def test_single_pieces_without_a_declared_spread_are_never_ranked() -> None:
    found = ranks.study(rows.SEED_RANKS, 1, 200, declared=False)
    assert (found.ranked, found.any_order) == (0, 0)


@pytest.mark.parametrize(("count", "sigmas"), rows.HOTTER)
def test_a_hotter_item_is_found(count: int, sigmas: float) -> None:
    bars.one_hotter(ranks.study(rows.SEED_RANKS, count, 400, hotter=sigmas), bars.SHORT_SLACK)


@pytest.mark.parametrize("count", rows.LOOSER)
def test_equal_items_of_which_one_scatters_more(count: int) -> None:
    found = ranks.study(rows.SEED_RANKS, count, 400, looser=3.0)
    assert found.ranked == 400
    bars.one_looser(found, bars.SHORT_SLACK)
