"""Short studies of coverage; the full ones are in `tests/long`."""

from __future__ import annotations

import pytest

from tests.studies import ahead, bars, coverage, healthy, infrared, ohms, rows, single
from tests.studies.coverage import Combination
from tests.studies.healthy import Kind
from tests.studies.infrared import Row
from tests.studies.single import Meters


@pytest.mark.parametrize(
    "combination", [rows.COMBINATIONS[1], rows.COMBINATIONS[3], rows.COMBINATIONS[8]], ids=repr
)
def test_mean_and_difference_hold_the_truth_as_often_as_they_say(combination: Combination) -> None:
    bars.several_pieces(coverage.study(rows.SEED_COVERAGE, combination, 1000), bars.SHORT_SLACK)


@pytest.mark.parametrize(
    "combination",
    [rows.RESISTANCE_OF_ONE, rows.RESISTANCES[1], rows.RESISTANCES[3], rows.RESISTANCES[8]],
    ids=repr,
)
def test_resistances_hold_the_truth_as_often_as_they_say(combination: ohms.Combination) -> None:
    bars.several_pieces(ohms.study(rows.SEED_COVERAGE, combination, 1000), bars.SHORT_SLACK)


@pytest.mark.parametrize("combination", [rows.METERS_APART[1], rows.METERS_APART[8]], ids=repr)
def test_items_read_by_meters_of_their_own_hold_the_truth(combination: Combination) -> None:
    bars.several_pieces(coverage.study(rows.SEED_COVERAGE, combination, 1000), bars.SHORT_SLACK)


def test_single_pieces_read_by_meters_of_their_own_hold_the_truth() -> None:
    bars.single_pieces(single.study(rows.SEED_COVERAGE, rows.SINGLES_APART, 400), bars.SHORT_SLACK)


@pytest.mark.parametrize("row", [rows.AHEAD[3], rows.AHEAD[7], rows.AHEAD[11]], ids=repr)
def test_pieces_to_come_lie_where_they_are_told_to(row: ahead.Row) -> None:
    bars.pieces_to_come(ahead.study(rows.SEED_AHEAD, row, 1000), bars.SHORT_SLACK)


def test_of_a_pair_nothing_is_told_of_the_next() -> None:
    found = ahead.study(rows.SEED_AHEAD, rows.AHEAD[0], 20)
    assert (found.next, found.next_drawn, found.most, found.most_drawn) == (None, None, None, None)


@pytest.mark.parametrize("meters", rows.SINGLES, ids=repr)
def test_single_pieces_hold_the_truth(meters: Meters) -> None:
    bars.single_pieces(single.study(rows.SEED_COVERAGE, meters, 600), bars.SHORT_SLACK)


def test_single_pieces_are_as_computed_in_a_still_room() -> None:
    found = single.study(rows.SEED_COVERAGE, rows.STILL_ROOM, 600)
    bars.single_pieces(found, bars.SHORT_SLACK)
    bars.single_pieces_as_computed(found)


@pytest.mark.parametrize("row", [rows.SEEN[0], rows.SEEN[2], rows.SEEN_POORLY[0]], ids=repr)
def test_rises_read_by_infra_red_hold_the_truth(row: Row) -> None:
    bars.several_pieces(infrared.study(rows.SEED_INFRARED, row, 600), bars.SHORT_SLACK)


def test_settled_rise_with_every_error_holds_the_truth() -> None:
    found = single.study(rows.SEED_COVERAGE, rows.COOL, 600)
    assert found.printed > 300
    bars.at_least(found.settled, found.printed, 0.94, bars.SHORT_SLACK)


def test_clean_runs_are_printed_and_hold() -> None:
    found = healthy.settled_rises(rows.SEED_HEALTHY, rows.CLEAN, 1500)
    bars.at_least(found.printed, found.runs, 0.95, bars.SHORT_SLACK)
    bars.settled_rise(found, bars.SHORT_SLACK)


@pytest.mark.parametrize("kind", [rows.SLOW, rows.SLOWER], ids=repr)
def test_a_slow_part_is_held_by_the_widening_alone(kind: Kind) -> None:
    found = healthy.settled_rises(rows.SEED_HEALTHY, kind, 1000)
    bars.settled_rise(found, bars.SHORT_SLACK)
    assert found.held_plain < 0.2 * found.printed


def test_a_slow_part_of_ten_time_constants_is_more_than_the_default_share() -> None:
    # (1 − 0.06)⁻¹ of what is seen is less than what a tenth with e^(−1/2) still to come leaves out.
    found = healthy.settled_rises(rows.SEED_HEALTHY, rows.SLOWEST, 300)
    assert found.held < 0.5 * found.printed
