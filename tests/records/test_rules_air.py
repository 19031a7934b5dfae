"""Columns that were taken for one another: the air and the part give each other away."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.records.laid import RUN, changed, whats

FIRST = "| 21.4                  | 21.2         |"


@pytest.mark.parametrize("air", ["60", "-20"])
def test_air_that_a_bench_can_have(tmp_path: Path, air: str) -> None:
    bench = changed(tmp_path, RUN, ("| 62.6                  | 21.8         |", f"| 62.6 | {air} |"))
    assert bench.doubts == ()


def test_air_that_no_bench_has_is_told_once(tmp_path: Path) -> None:
    change = (("| 21.6         | 30.0", "| 62.1 | 30.0"), ("| 21.8         |", "| 62.6 |"))
    (doubt,) = changed(tmp_path, RUN, *change).doubts
    assert doubt.what == "no air at a bench (it has -20 to 60 degC); is it the part's column?"
    assert doubt.found == "62.1"


def test_a_part_colder_than_the_air_by_more_than_the_meters_can_be_wrong(tmp_path: Path) -> None:
    # IEC 60584-1, type K class 1: 1.5 K each; the logger 0.5 % + 0.5 K each; 4.2 K together.
    assert changed(tmp_path, RUN, (FIRST, "| 17.0 | 21.1 |")).doubts == ()
    bench = changed(tmp_path / "more", RUN, (FIRST, "| 16.9 | 21.2 |"))
    what = "4.3 K colder than the air at the start, and the meters are 4.2 K off at most"
    assert whats(bench.doubts) == [f"readings: {what}; is each in its own column?"]
    assert bench.doubts[0].found == "16.9"


def test_a_row_that_is_excluded_says_nothing(tmp_path: Path) -> None:
    bench = changed(tmp_path, RUN, (FIRST + " 30.1      | 38.6", "| 10 | 21.2 | 30.1 | 38.6 ! probe off"))
    assert bench.doubts == ()
