"""Two meters' files in one run: which began first is told by their clocks, said, or refused."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from generator.intake.importing.plan import plan
from generator.intake.importing.refusals import Refused
from generator.records.bench import load
from generator.records.store import write_all
from tests.intake.importing.laid import CLAMPED, RUN, bench, brought, record_of, request, tree

CLAMP = """\
Date,Time,Current (A)
2026-04-05,{0}:00,10.1
2026-04-05,{1}:00,10.0
2026-04-05,{2}:00,10.1
"""
COUNTED = "Elapsed (s),Current (A)\n0,10.1\n600,10.0\n1800,10.1\n"
AS_CURRENT = {"columns": {"Current (A)": "current"}, "name": "clamp.csv"}


def table_of(root: Path) -> list[str]:
    text = record_of(root).read_text(encoding="utf-8")
    return [line.strip() for line in text.split("readings: |\n")[1].split("originals:")[0].splitlines()]


def test_a_meter_that_began_later_comes_in_later(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED)
    brought(root)
    made = brought(root, CLAMP.format("10:10", "10:20", "10:30"), **AS_CURRENT)
    assert (made.start.seconds, made.start.by, made.start.other) == (Decimal(600), "clock", "LOG-1.csv")
    assert [[cell.strip() for cell in line.split("|")] for line in table_of(root)[1:]] == [
        ["0", "20.2", "20.1", ""],
        ["10", "35.0", "20.1", "10.1"],
        ["20", "", "", "10.0"],
        ["30", "40.0", "20.2", "10.1"],
    ]
    assert "starts-at: 10 min" in record_of(root).read_text(encoding="utf-8")
    assert load(root).faults == ()


def test_rows_before_the_start_of_the_run_are_left_out_and_counted(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED)
    brought(root)
    made = brought(root, CLAMP.format("09:50", "10:00", "10:10"), **AS_CURRENT)
    assert (made.start.seconds, made.before_start) == (Decimal(-600), 1)
    assert [line.split("|")[-1].strip() for line in table_of(root)[1:]] == ["10.0", "10.1", ""]
    assert load(root).faults == ()


def test_a_third_file_counts_from_the_start_of_the_run_and_not_from_the_second(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED.replace("clamp-1}", "clamp-1, drop: bench-meter-1}"))
    (root / "reports/instruments/bench-meter-1.yml").write_text(
        'name: meter\nranges:\n  - {quantity: voltage, to: 1 V, accuracy: "±1 %"}\ncalibrated: never\n',
        "utf-8",
    )
    made = plan(request(root, CLAMP.format("10:10", "10:20", "10:30"), **AS_CURRENT))
    write_all(made.writes)
    assert made.start.by == "first"
    maps = {"CH3 (C)": "temperature@body", "CH1 (C)": "ambient"}
    brought(root, columns=maps)
    third = CLAMP.format("10:10", "10:20", "10:30").replace("Current (A)", "Drop (mV)")
    again = plan(request(root, third, columns={"Drop (mV)": "drop"}, name="drop.csv"))
    assert (again.start.seconds, again.start.other) == (Decimal(0), "clamp.csv")


def test_without_a_clock_in_common_somebody_has_to_say(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED)
    brought(root)
    before = tree(root)
    with pytest.raises(Refused, match=r"clamp.csv and LOG-1.csv have no clock in common") as refused:
        plan(request(root, COUNTED, **AS_CURRENT))
    assert "--starts-at" in refused.value.instead[0]
    assert tree(root) == before
    made = brought(root, COUNTED, starts_at=Decimal(0), **AS_CURRENT)
    assert made.start.by == "said"
    assert [line.split("|")[-1].strip() for line in table_of(root)[1:]] == ["10.1", "10.0", "10.1"]


def test_clocks_that_share_no_time_are_refused(tmp_path: Path) -> None:
    root = bench(tmp_path, CLAMPED)
    brought(root)
    with pytest.raises(Refused, match=r"began 60 min after the start of the run, and shares no time with it"):
        plan(request(root, CLAMP.format("11:00", "11:10", "11:20"), **AS_CURRENT))


def test_another_column_of_the_same_file_keeps_its_times(tmp_path: Path) -> None:
    root = bench(tmp_path)
    brought(root, columns={"CH3 (C)": "temperature@body"})
    made = brought(root, columns={"CH1 (C)": "ambient"}, standing="replace")
    assert (made.start.seconds, made.start.by) == (Decimal(0), "first")
    assert RUN in load(root).runs
