"""The studies in full: `python -m pytest tests/long -s` writes the rows of the tables, in half an hour."""

from __future__ import annotations

import sys

import pytest

from tests.studies import ahead, bars, coverage, healthy, infrared, ohms, ranks, rows, single
from tests.studies.coverage import Combination
from tests.studies.healthy import Kind
from tests.studies.infrared import Row
from tests.studies.single import Meters

CASES = 20_000
RUNS = 10_000


def told(row: object, found: object) -> None:
    """Write a row of a table."""
    sys.stdout.write(f"\n{row}\n  {found}\n")
    sys.stdout.flush()


@pytest.mark.parametrize("combination", rows.COMBINATIONS, ids=repr)
def test_mean_and_difference(combination: Combination) -> None:
    found = coverage.study(rows.SEED_COVERAGE, combination, CASES)
    told(combination, found)
    bars.several_pieces(found, 0.0)


@pytest.mark.parametrize("row", rows.AHEAD, ids=repr)
def test_pieces_to_come(row: ahead.Row) -> None:
    found = ahead.study(rows.SEED_AHEAD, row, CASES)
    told(row, found)
    bars.pieces_to_come(found, 0.0)


@pytest.mark.parametrize("combination", rows.METERS_APART, ids=repr)
def test_items_by_meters_of_their_own(combination: Combination) -> None:
    found = coverage.study(rows.SEED_COVERAGE, combination, CASES)
    told(combination, found)
    bars.several_pieces(found, 0.0)


def test_single_pieces_by_meters_of_their_own() -> None:
    found = single.study(rows.SEED_COVERAGE, rows.SINGLES_APART, CASES)
    told(rows.SINGLES_APART, found)
    bars.single_pieces(found, 0.0)


@pytest.mark.parametrize("combination", [rows.RESISTANCE_OF_ONE, *rows.RESISTANCES], ids=repr)
def test_resistances(combination: ohms.Combination) -> None:
    found = ohms.study(rows.SEED_COVERAGE, combination, CASES)
    told(combination, found)
    bars.several_pieces(found, 0.0)


@pytest.mark.parametrize("row", [*rows.SEEN, *rows.SEEN_POORLY], ids=repr)
def test_rises_by_infra_red(row: Row) -> None:
    found = infrared.study(rows.SEED_INFRARED, row, CASES)
    told(row, found)
    bars.several_pieces(found, 0.0)


@pytest.mark.parametrize("meters", rows.SINGLES, ids=repr)
def test_single_pieces(meters: Meters) -> None:
    found = single.study(rows.SEED_COVERAGE, meters, CASES)
    told(meters, found)
    bars.single_pieces(found, 0.0)


def test_single_pieces_in_a_still_room() -> None:
    found = single.study(rows.SEED_COVERAGE, rows.STILL_ROOM, CASES)
    told(rows.STILL_ROOM, found)
    bars.single_pieces(found, 0.0)
    bars.single_pieces_as_computed(found)


def test_single_pieces_by_fine_meters() -> None:
    found = single.study(rows.SEED_COVERAGE, rows.FINE_METERS, CASES)
    told(rows.FINE_METERS, found)
    bars.at_least(found.rise, CASES, 0.94, 0.0)


def test_settled_rise_with_every_error() -> None:
    found = single.study(rows.SEED_COVERAGE, rows.COOL, CASES)
    told(rows.COOL, found)
    bars.at_least(found.settled, found.printed, 0.94, 0.0)


@pytest.mark.parametrize("kind", [rows.CLEAN, rows.SLOW, rows.SLOWER], ids=repr)
def test_settled_rise(kind: Kind) -> None:
    found = healthy.settled_rises(rows.SEED_HEALTHY, kind, RUNS)
    told(kind, found)
    bars.settled_rise(found, 0.0)
    if kind == rows.CLEAN:
        bars.at_least(found.printed, RUNS, 0.95, 0.0)


@pytest.mark.parametrize("kind", [rows.SLOWEST, rows.HOT], ids=repr)
def test_beyond_what_is_claimed(kind: Kind) -> None:
    told(
        kind,
        healthy.settled_rises(rows.SEED_HEALTHY, Kind(kind.rise, slow=kind.slow, slower=kind.slower), RUNS),
    )
    found = healthy.verdicts(rows.SEED_HEALTHY, kind, RUNS)
    told(kind, found)
    bars.at_most(found.worsening, RUNS, 0.01, 0.0)


@pytest.mark.parametrize("kind", rows.HEALTHY, ids=repr)
def test_healthy_runs(kind: Kind) -> None:
    found = healthy.verdicts(rows.SEED_HEALTHY, kind, RUNS)
    told(kind, found)
    bars.at_least(found.settled, RUNS, 0.97, 0.0)
    bars.at_most(found.worsening, RUNS, 0.01, 0.0)
    bars.at_most(found.disturbed, RUNS, 0.01, 0.0)


@pytest.mark.parametrize("kind", rows.SHORT_RUNS, ids=repr)
def test_short_runs(kind: Kind) -> None:
    found = healthy.verdicts(rows.SEED_HEALTHY, kind, RUNS)
    told(kind, found)
    bars.at_most(found.settled, RUNS, 0.05, 0.0)
    bars.at_most(found.worsening, RUNS, 0.01, 0.0)


@pytest.mark.parametrize("kind", rows.WORSENING, ids=repr)
def test_worsening_runs(kind: Kind) -> None:
    found = healthy.verdicts(rows.SEED_HEALTHY, kind, RUNS)
    told(kind, found)
    bars.at_least(found.worsening, RUNS, 0.99, 0.0)


def test_worsening_on_the_bench() -> None:
    found = {each: healthy.worsening_on_bench(rows.SEED_HEALTHY, each, RUNS) for each in (0.0, rows.THRICE)}
    told("on the bench", found)
    bars.at_most(found[0.0], RUNS, 0.01, 0.0)
    bars.at_least(found[rows.THRICE], RUNS, 0.99, 0.0)


@pytest.mark.parametrize("count", rows.EQUAL)
def test_equal_items(count: int) -> None:
    found = ranks.study(rows.SEED_RANKS, count, RUNS)
    told(f"{count} pieces each", found)
    bars.equal_items(found)


def test_single_pieces_without_a_spread() -> None:
    found = ranks.study(rows.SEED_RANKS, 1, RUNS, declared=False)
    told("1 piece each, no spread declared", found)
    assert (found.ranked, found.any_order) == (0, 0)


@pytest.mark.parametrize(("count", "sigmas"), rows.HOTTER)
def test_one_hotter(count: int, sigmas: float) -> None:
    found = ranks.study(rows.SEED_RANKS, count, RUNS, hotter=sigmas)
    told(f"{count} pieces each, one item {sigmas:g} sigma hotter", found)
    bars.one_hotter(found, 0.0)


@pytest.mark.parametrize("count", rows.LOOSER)
def test_one_looser(count: int) -> None:
    found = ranks.study(rows.SEED_RANKS, count, RUNS, looser=3.0)
    told(f"{count} pieces each, one item of three times the spread", found)
    bars.one_looser(found, 0.0)
