"""The order of runs: by day and sitting, and where it is one with the items."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.checks import checked
from generator.evaluation.order import in_order, on_days_of_their_own
from generator.records.bench import Report, load
from tests.evaluation.small import Small, table


@pytest.fixture
def small(tmp_path: Path) -> Small:
    return Small(tmp_path)


def runs(small: Small, **days: tuple[int, ...]) -> Report:
    """Each item's pieces, run on these days of March."""
    for item, each in days.items():
        for letter, day in zip("ABCDEF", each, strict=False):
            small.run(item, letter, table(40.0), date=f"2026-03-{day:02}")
    small.finish()
    return load(small.root).reports["r"]


def test_runs_stand_by_day(small: Small) -> None:
    report = runs(small, tessvik=(2, 1), veldrun=(1, 3))
    told = [(each.day.day, each.sitting, each.runs) for each in in_order(report.runs.values())]
    assert told == [
        (1, "", ("r/run-002", "r/run-003")),
        (2, "", ("r/run-001",)),
        (3, "", ("r/run-004",)),
    ]


@pytest.mark.parametrize(
    ("days", "alone"),
    [
        ({"tessvik": (1, 2), "veldrun": (3, 4)}, ("tessvik", "veldrun")),
        ({"tessvik": (1, 3), "veldrun": (2, 4)}, ()),
        ({"tessvik": (1, 2), "veldrun": (2, 3)}, ()),
        ({"tessvik": (1, 2), "veldrun": (3, 5), "okvarn": (4, 6)}, ("tessvik",)),
        # One run has no order of its own, and one item nothing to be apart from.
        ({"tessvik": (1, 2), "veldrun": (3,)}, ("tessvik",)),
        ({"tessvik": (1,), "veldrun": (3,)}, ()),
        ({"tessvik": (1, 2, 3)}, ()),
    ],
)
def test_items_on_days_of_their_own(
    small: Small, days: dict[str, tuple[int, ...]], alone: tuple[str, ...]
) -> None:
    assert on_days_of_their_own(runs(small, **days).runs.values()) == alone


def test_an_order_that_is_one_with_the_items_is_a_doubt(small: Small) -> None:
    runs(small, tessvik=(1, 2), veldrun=(3, 5), okvarn=(4, 6))
    found = [each for each in checked(load(small.root)).doubts if each.path.startswith("items.")]
    (doubt,) = found
    assert (doubt.place.file.name, doubt.path, doubt.found) == ("report.yml", "items.1", "tessvik")
    assert "what drifts from day to day is in its difference from them" in doubt.what
