"""Short studies of how runs end; the full ones are in `tests/long`."""

from __future__ import annotations

import pytest

from tests.studies import bars, healthy, rows
from tests.studies.healthy import Kind

RUNS = 600


@pytest.mark.parametrize("kind", rows.HEALTHY, ids=repr)
def test_healthy_runs_settle_and_are_not_accused(kind: Kind) -> None:
    found = healthy.verdicts(rows.SEED_HEALTHY, kind, RUNS)
    bars.at_least(found.settled, RUNS, 0.97, bars.SHORT_SLACK)
    bars.at_most(found.worsening, RUNS, 0.01, bars.SHORT_SLACK)
    bars.at_most(found.disturbed, RUNS, 0.01, bars.SHORT_SLACK)


@pytest.mark.parametrize("kind", rows.SHORT_RUNS, ids=repr)
def test_short_runs_are_not_called_settled(kind: Kind) -> None:
    found = healthy.verdicts(rows.SEED_HEALTHY, kind, RUNS)
    bars.at_most(found.settled, RUNS, 0.05, bars.SHORT_SLACK)
    bars.at_most(found.worsening, RUNS, 0.01, bars.SHORT_SLACK)


@pytest.mark.parametrize("kind", rows.WORSENING, ids=repr)
def test_a_resistance_that_rises_is_found(kind: Kind) -> None:
    found = healthy.verdicts(rows.SEED_HEALTHY, kind, RUNS)
    bars.at_least(found.worsening, RUNS, 0.99, bars.SHORT_SLACK)


def test_on_the_bench_the_worsening_are_found_and_the_sound_are_not_accused() -> None:
    bars.at_least(
        healthy.worsening_on_bench(rows.SEED_HEALTHY, rows.THRICE, RUNS), RUNS, 0.99, bars.SHORT_SLACK
    )
    bars.at_most(healthy.worsening_on_bench(rows.SEED_HEALTHY, 0.0, RUNS), RUNS, 0.01, bars.SHORT_SLACK)
