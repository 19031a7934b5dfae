"""Runs that wait for their readings and reports that wait for their runs: told, left out, and no faults."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.laid import REPORT, RUN, good, laid

EMPTY = """readings: |
  time min | temperature@body degC | ambient degC | current A
  0        |                       |              |
  30       |                       |              |
  60       |                       |              |
"""
HEAD = good(RUN).split("readings:")[0]
NEW = f"{REPORT}/runs/okvarn-b-2.yml"
PULL = f"{REPORT}/runs/okvarn-a-pull.yml"
TYPED = f"write a row a reading under `readings`, or: provebook import FILE --into {REPORT}/okvarn-b-2"


def head(piece: str = "A") -> str:
    """A run up to its readings, its meters and conditions whole."""
    text = HEAD.replace("specimen: A", f"specimen: {piece}").replace(", drop: meter-1", "")
    return "".join(line for line in text.splitlines(keepends=True) if not line.startswith("#"))


@pytest.mark.parametrize("table", [EMPTY, ""], ids=["a table of times", "no table"])
def test_a_run_that_was_begun_is_one_doubt_and_is_left_out(table: str, tmp_path: Path) -> None:
    bench = laid(tmp_path, {NEW: head() + table})
    assert bench.faults == ()
    (doubt,) = bench.doubts
    assert doubt.what.startswith(f"the readings are missing: {TYPED}")
    assert doubt.path == ("readings" if table else "")
    assert f"{REPORT}/okvarn-b-2" not in bench.runs
    assert f"{REPORT}/okvarn-a" in bench.reports[REPORT].runs
    assert bench.left_out == 1


def test_one_reading_more_and_it_is_a_run_that_ends_too_soon(tmp_path: Path) -> None:
    table = EMPTY.replace("0        |                       |", "0        | 21.4                  |", 1)
    bench = laid(tmp_path, {NEW: head() + table})
    (fault,) = bench.faults
    assert "the readings end at 0 min, before the mark of 'rise'" in fault.what


def test_a_meter_that_is_not_there_is_told_before_the_readings_are_taken(tmp_path: Path) -> None:
    bench = laid(tmp_path, {NEW: head().replace("clamp-2", "clamp-3") + EMPTY})
    (fault,) = bench.faults
    assert fault.what == "there is no instrument of this name; did you mean 'clamp-2'?"
    assert any("the readings are missing" in each.what for each in bench.doubts)


def test_a_value_that_is_still_to_come(tmp_path: Path) -> None:
    text = good(
        PULL,
        ("values: {pull: 388 N}\n", "values:\n  pull:\n"),
        ("counts: {opened: 0 of 50, endured: over 2000}\n", ""),
    )
    bench = laid(tmp_path, {PULL: text})
    assert bench.faults == ()
    (doubt,) = bench.doubts
    assert doubt.path == "values.pull"
    assert doubt.what == (
        "the readings are missing: write the number and its unit under `values`, as `pull: <number> N`, "
        "or write so many of so many under `counts`, as `opened: 0 of 50`, "
        "or write `endured: broke at 1200` or `endured: over 2000` under `counts`"
    )


def test_one_value_of_two_is_a_fault_as_ever(tmp_path: Path) -> None:
    (fault,) = laid(tmp_path, {PULL: good(PULL, ("{pull: 388 N}", "{pull: }"))}).faults
    assert (fault.path, fault.what) == ("values.pull", "no value here; one is expected, or no key")


def test_a_report_without_runs_waits_for_the_first(tmp_path: Path) -> None:
    text = "question: Which?\ninitiative: own\nmain: rise\nmeasures: [rise]\nitems: [okvarn-ih30]\nruns: []\n"
    bench = laid(tmp_path, {"2027-others/report.yml": text})
    assert bench.faults == ()
    (doubt,) = bench.doubts
    assert doubt.what == "this report has no run yet, and so no page; begin one with: provebook new run"
    assert sorted(bench.reports) == [REPORT]


def test_a_report_without_runs_that_asks_for_what_no_method_measures(tmp_path: Path) -> None:
    text = "question: Which?\ninitiative: own\nmain: rize\nmeasures: [rize]\nitems: [okvarn-ih30]\nruns: []\n"
    (fault,) = laid(tmp_path, {"2027-others/report.yml": text}).faults
    assert fault.what == "no method has a measure of this name; did you mean 'rise'?"
    electrical = ("resistance", "drop", "power"), ("impedance",)
    assert fault.accepted == (
        "rise",
        "opens-by-hand",
        *electrical[0],
        "pull",
        "opened",
        "endured",
        *electrical[1],
    )


def test_an_item_without_a_run_is_a_doubt_once_another_has_one(tmp_path: Path) -> None:
    item = good("items/veldrun-v30.yml")
    report = good(f"{REPORT}/report.yml", ("[okvarn-ih30, veldrun-v30]", "[okvarn-ih30, veldrun-v30, third]"))
    bench = laid(tmp_path, {"items/third.yml": item, f"{REPORT}/report.yml": report})
    assert bench.faults == ()
    (doubt,) = bench.doubts
    assert doubt.what == "no run of this report is of this item yet; add its runs, or take it out"
    assert doubt.found == "third"
