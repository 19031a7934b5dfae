"""The long tables: what a file to take away says is what the records say, to the digit, by our own reader."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from pathlib import Path

import pytest

from generator.evaluation.report import evaluate
from generator.pages.downloads import readings
from generator.pages.tables import REDUCED, RUN, frame
from generator.records.bench import Bench, load
from generator.records.csv_table import read_csv
from generator.records.run import Run
from generator.records.table import Table
from tests.evaluation.pulls import SCALE
from tests.evaluation.small import METHOD, REPORT, Small, table
from tests.pages import shelf
from tests.pages.factory import demo

VOLTMETER = """\
name: voltmeter
ranges:
  - {quantity: voltage, from: 0 V, to: 1 V, accuracy: "±(0.5 % + 2 digits)", resolution: 0.1 mV, repeatability: 0.1 mV}
calibrated: never
"""  # noqa: E501
FUSES = "fuse-holders-30a"

ODD = """\
method: connector-heating/1
item: halvenor-c2
specimen: C
date: 2026-03-10
instruments: {temperature@body: thermometer-1/CH2, ambient: thermometer-1/CH1, current: clamp-1}
conditions: {conductor: 1.5 mm2 class 5, enclosure: closed box 1 l, air-measured: beside the box}
readings: |
  time min | temperature@body degF | ambient degC | current A
  0        | 31.5                  | -0.3         | 10.00
  5        | 50.0                  | -0.3         | 10.00
  10       | 58.25                 |              | 10.00
  15       | 60.0                  | -0.3         | 10.00 ! lid open, "draught" felt
  20       | 61.5                  | 0.0          | 10.00
  25       | 62.0                  | 0.1          | 10.00
  30       | >392.0                | 0.1          | 10.00
"""
"""A reading in °F among others in °C, one below zero, none at all, a struck one, one over range."""


def rows(bench: Bench, report: str) -> list[dict[str, str]]:
    found = bench.reports[report]
    content = readings(evaluate(bench, found), found.runs)
    return list(csv.DictReader(io.StringIO(content.decode("utf-8"), newline="")))


def as_read(row: Mapping[str, str]) -> dict[str, str]:
    """The columns of a row that stand between those of the run and those of what it came to."""
    heads = list(row)
    return {head: row[head] for head in heads[len(RUN) : heads.index(REDUCED[0])]}


def read_back(mine: list[dict[str, str]], path: Path) -> Table:
    """A run's rows, read by the reader of records: columns without a reading left out, struck rows marked."""
    told = [as_read(row) for row in mine]
    heads = [head for head in told[0] if any(row[head] for row in told)]
    lines = [",".join(heads)]
    for row, cells in zip(mine, told, strict=True):
        struck = f" ! {row['excluded because']}" if row["excluded because"] else ""
        lines.append(",".join(cells[head] for head in heads) + struck)
    path.write_text("\n".join(lines), encoding="utf-8")
    table = read_csv(path)
    assert isinstance(table, Table), table
    return table


def assert_same(table: Table, run: Run) -> None:
    assert run.readings is not None
    assert (table.rows, table.excluded) == (run.readings.rows, run.readings.excluded)
    assert {each.head.label for each in table.columns} == {each.head.label for each in run.readings.columns}
    for column in run.readings.columns:
        back = table.column(column.name, column.point)
        assert back is not None
        for cell, own in zip(back.cells, column.cells, strict=True):
            assert (cell is None) == (own is None)
            if cell is not None and own is not None:
                assert cell.bound == own.bound
                assert cell.value == pytest.approx(own.value, rel=1e-6, abs=1e-9)
                if column.unit == back.unit:
                    assert (cell.value, cell.decimals) == (own.value, own.decimals)


def test_every_run_of_the_demo_reads_back_as_it_was_written(tmp_path: Path) -> None:
    found = rows(demo(), FUSES)
    runs = {key: run for key, run in demo().reports[FUSES].runs.items() if run.readings is not None}
    assert len(runs) > 15
    for number, (key, run) in enumerate(sorted(runs.items())):
        mine = [row for row in found if row["run"] == key]
        assert_same(read_back(mine, tmp_path / f"{number}.csv"), run)


def test_odd_readings_read_back_too(tmp_path: Path) -> None:
    bench = load(shelf.write(tmp_path / "bench", {**shelf.FILES, "grey-lever/runs/halvenor-c.yml": ODD}))
    assert bench.faults == ()
    found = rows(bench, "grey-lever")
    assert {row["ambient degC"] for row in found if row["piece"] == "C"} == {"-0.3", "", "0.0", "0.1"}
    for key, run in bench.reports["grey-lever"].runs.items():
        mine = [row for row in found if row["run"] == key]
        assert_same(read_back(mine, tmp_path / f"{run.specimen}.csv"), run)


def test_what_readings_came_to_stands_in_their_row() -> None:
    finding = evaluate(demo(), demo().reports[FUSES])
    reduced = {
        run.run: run.readings
        for item in finding.measure("rise").items
        for piece in item.pieces
        for run in piece.runs
    }
    found = [row for row in rows(demo(), FUSES) if row["run"] in reduced]
    for key, told in reduced.items():
        mine = [row for row in found if row["run"] == key]
        assert len(mine) == len(told) > 5
        for row, reading in zip(mine, told, strict=True):
            assert float(row["time min"]) * 60 == pytest.approx(reading.time)
            if reading.rise is not None:
                assert float(row["rise (K)"]) == pytest.approx(reading.rise, rel=1e-5)


def test_a_run_of_several_measures_tells_them_all(tmp_path: Path) -> None:
    """A drop that is read beside the rise stands in its reading's row; what is typed has a row of its own."""
    small = Small(tmp_path)
    more = (
        "\n  - {id: drop, kind: scalar, quantity: voltage, reduce: max, better: lower}"
        "\n  - {id: pull, kind: scalar, quantity: force, better: higher}"
    )
    small.write("methods/heat/1.yml", (METHOD % "").replace("\nsteps", more + "\nsteps"))
    small.write("instruments/scale.yml", SCALE)
    small.write("instruments/volt.yml", VOLTMETER)
    small.report = REPORT.replace("[rise]", "[rise, drop, pull]")
    lines = table(30.0).splitlines()
    drops = ["drop mV", *(f"{each}.0" for each in (11, 12, 13))]
    text = "\n".join(f"{line} | {drop}" for line, drop in zip(lines, drops, strict=True))
    small.run("a", "A", text, more="values: {pull: 388 N}\n")
    small.finish()
    path = tmp_path / "reports/r/runs/run-001.yml"
    path.write_text(path.read_text().replace("current: clamp}", "current: clamp, drop: volt, force: scale}"))
    bench = load(tmp_path)
    assert bench.faults == ()
    found = rows(bench, "r")
    assert [(row["time min"], row["measure"], row["value"], row["unit"]) for row in found] == [
        ("0", "drop", "0.011", "V"),
        ("30", "drop", "0.012", "V"),
        ("60", "drop", "0.013", "V"),
        ("", "pull", "388.0", "N"),
    ]
    assert [bool(row["rise (K)"]) for row in found] == [True, True, True, False]
    assert found[-1]["US unit"] == "lbf"


def test_a_table_keeps_each_cell_as_it_is() -> None:
    made = frame(("a", "b"), [(1, "x"), (2.5, None)])
    assert [tuple(row) for row in made.itertuples(index=False, name=None)] == [(1, "x"), (2.5, None)]
    assert [type(cell) for cell in made["a"]] == [int, float]
    assert frame(("a",), []).empty
