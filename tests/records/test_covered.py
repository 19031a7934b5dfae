"""Which part of a shared file an edition rests on: the rest of a sitting or a meter may grow."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.records.covered import Read, of_instrument, of_sitting, of_table
from generator.records.fingerprint import Canonical, canonical, fingerprint
from generator.records.rested import Rested, Uses, tables_beside
from generator.records.source import read, read_text
from tests.records.laid import GOOD, SITTING, good

OWN = ("okvarn-ih30:E",)


def of(text: str) -> Canonical:
    root = read_text(text, Path("x.yml")).root
    assert root is not None
    return canonical(root)


def sitting(*changes: tuple[str, str]) -> str:
    return fingerprint(of_sitting(of(good(SITTING, *changes)), OWN))


@pytest.mark.parametrize(
    "change",
    [
        ("70.2", "70.3"),
        ("because: smoke", "because: rig"),
        ("logger-1/CH4 with k7", "logger-1/CH4"),
        # A meter's file of the other run brings rows at times of its own.
        (
            "  20       | 21.4",
            "  15       |              |           |                         | 90.0\n  20       | 21.4",
        ),
    ],
)
def test_another_run_of_the_sitting_is_still_a_draft(change: tuple[str, str]) -> None:
    assert sitting(change) == sitting()


@pytest.mark.parametrize(
    "change",
    [
        ("49.9", "49.8"),
        ("| 21.2         | 30.1      | 49.9", "| 21.3         | 30.1      | 49.9"),
        ("  10       |", "  11       |"),
        ("logger-1/CH3", "logger-1/CH5"),
        ("current: clamp-2", "current: clamp-3"),
        ("place: workshop", "place: kitchen"),
        ("date: 2026-03-09", "date: 2026-03-08"),
        ("pairs: 5", "pairs: 6"),
        ("4 mm2", "6 mm2"),
        ("| 49.9                    | 70.2", "| 49.9                    | 70.2 ! slipped"),
    ],
)
def test_what_its_own_runs_rest_on_is_not(change: tuple[str, str]) -> None:
    assert sitting(change) != sitting()


def test_a_table_is_told_by_its_rows_in_the_file() -> None:
    table: list[list[Canonical]] = [
        ["time min", "ambient degC", "a:A@body degC", "b:A@body degC"],
        ["0", "21.2", "21.4", "21.3"],
        ["2", "", "", "40.0"],
        ["5", "", "49.0", "", {"!": "slipped"}],
    ]
    assert of_table(enumerate(table), ["a:A"]) == [
        (0, ["time min", "ambient degC", "a:A@body degC"]),
        (1, ["0", "21.2", "21.4"]),
        (3, ["5", "", "49.0", {"!": "slipped"}]),
    ]


METER = """name: logger
ranges:
  - {quantity: temperature, to: 200 degC, accuracy: "±0.5 degC", resolution: 0.1 degC}
probes: {k1: type K class 1, k3: type K class 1}
channels: {CH1: k1, CH3: k3}
calibrations:
  - {date: 2025-01-10, by: a}
  - {date: 2026-01-10, by: b}
"""


def meter(*changes: tuple[str, str]) -> str:
    text = METER
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return fingerprint(of_instrument(of(text), [Read("logger", "CH3", "k3", "2026-03-08")]))


@pytest.mark.parametrize(
    "change",
    [
        ("name: logger", "name: the old logger\nnotes: Lent to a friend in May."),
        ("k3: type", "k9: type T class 1, k3: type"),
        ("{CH1: k1,", "{CH1: k3, CH8: k1,"),
        ("  - {date: 2026-01-10, by: b}", "  - {date: 2026-01-10, by: b}\n  - {date: 2026-03-09, by: b}"),
        ("  - {date: 2025-01-10, by: a}\n", ""),
    ],
)
def test_a_meter_may_get_new_parts_and_calibrations(change: tuple[str, str]) -> None:
    assert meter(change) == meter()


@pytest.mark.parametrize(
    "change",
    [
        ("±0.5", "±0.4"),
        ("k3: type K class 1", "k3: type K class 2"),
        ("CH3: k3", "CH3: k1"),
        ("2026-01-10", "2026-01-11"),
        ("by: b", "by: c"),
        # One of a day before the run's is in force on it.
        ("  - {date: 2026-01-10, by: b}", "  - {date: 2026-01-10, by: b}\n  - {date: 2026-03-08, by: b}"),
    ],
)
def test_what_read_a_run_may_not_change(change: tuple[str, str]) -> None:
    assert meter(change) != meter()


def test_a_table_beside_a_sitting_is_that_of_the_runs_too() -> None:
    reports = GOOD / "reports"
    files = Rested(reports, lambda path: read(path).root)
    node = read(reports / SITTING).root
    assert node is not None
    (name,) = tables_beside(node)
    rows = files.content(f"sittings/{name}", Uses({"2026-03-09": frozenset(OWN)}, ()))
    assert isinstance(rows, list)
    assert [len(row) for row in rows] == [3] * len(rows)
    assert files.content("sittings/gone.csv", Uses({}, ())) is None
