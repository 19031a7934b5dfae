"""Columns in which nothing was read: told, and no more than if they were not there."""

from __future__ import annotations

from pathlib import Path

from tests.records.laid import REPORT, RUN, changed, whats


def test_a_column_without_a_reading_is_a_doubt(tmp_path: Path) -> None:
    rows = [(f"| {drop}", "|") for drop in ("38.6", "39.8", "41.0", "41.1    ", "41.2", "41.3")]
    bench = changed(tmp_path, RUN, *rows)
    assert whats(bench.doubts) == ["readings: nothing was read in 'drop'; fill it in, or take the column out"]
    (doubt,) = bench.doubts
    assert doubt.place.text[doubt.place.column - 1 :] == "drop mV"
    assert bench.faults == ()


def test_a_column_with_one_reading_is_none(tmp_path: Path) -> None:
    rows = [(f"| {drop}", "|") for drop in ("38.6", "39.8", "41.0", "41.1    ", "41.2")]
    assert changed(tmp_path, RUN, *rows).doubts == ()


def test_air_in_which_nothing_was_read_is_not_said(tmp_path: Path) -> None:
    rows = [
        (f"| {air}  ", "| ")
        for air in ("21.2       ", "21.3       ", "21.5       ", "21.6       ", "21.8       ")
    ]
    bench = changed(tmp_path, RUN, *rows)
    assert bench.faults == ()
    assert bench.runs[f"{REPORT}/okvarn-a"].ambient_mode == "none"


def test_air_in_excluded_rows_alone_is_not_said(tmp_path: Path) -> None:
    rows = [(f"| {air}  ", "| ") for air in ("21.2       ", "21.3       ", "21.6       ", "21.8       ")]
    assert changed(tmp_path, RUN, *rows).runs[f"{REPORT}/okvarn-a"].ambient_mode == "none"
