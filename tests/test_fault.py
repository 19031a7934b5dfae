"""Faults as data, and the text that a person reads of one."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.fault import Doubt, Fault, Place, RecordsRefused, count_line, in_order, message, shown

BENCH = Path("/bench")
FILE = BENCH / "reports" / "run.yml"


def test_a_refusal_carries_the_faults_and_how_many_records_they_keep_out() -> None:
    fault = Fault(Place(FILE), "", "wrong")
    refused = RecordsRefused([fault], BENCH)
    assert (refused.faults, refused.root, refused.left_out) == ((fault,), BENCH, 0)
    assert RecordsRefused([fault], BENCH, left_out=3).left_out == 3
    assert count_line(refused.faults, 3) == "1 fault; 3 records left out until mended"


def test_a_short_line_is_quoted_whole_with_a_caret_under_its_place() -> None:
    told = message(
        Fault(Place(FILE, 14, 3, "  ambiant: 22.4 degC"), "conditions.ambiant", "unknown key"), BENCH
    )
    assert told == (
        "reports/run.yml:14:3: conditions.ambiant: unknown key\n  14 |   ambiant: 22.4 degC\n     |   ^"
    )


@given(
    line=st.text(st.characters(codec="ascii", exclude_categories=["Cc"]), min_size=1, max_size=400),
    share=st.floats(0, 1),
)
def test_what_is_quoted_fits_80_columns_and_the_caret_stands_under_its_sign(line: str, share: float) -> None:
    at = int(share * (len(line) - 1))
    lines = message(Fault(Place(FILE, 9, at + 1, line), "", "wrong"), BENCH).split("\n")
    assert lines[0] == f"reports/run.yml:9:{at + 1}: wrong"
    if line.strip():
        quoted, caret = lines[1:]
        assert max(len(quoted), len(caret)) <= 80
        assert quoted[len(caret) - 1] == line[at]
        around = line[max(at - 5, 0) : at + 5]
        assert around in quoted
        assert len(line) > 72 or quoted == f"   9 | {line}"


def test_a_tab_before_the_caret_is_kept_so_that_the_two_line_up() -> None:
    told = message(Fault(Place(FILE, 2, 4, "a\tb\tc"), "", "wrong"), BENCH)
    assert told.splitlines()[1:] == ["   2 | a\tb\tc", "     |  \t ^"]


@pytest.mark.parametrize("sign", ["\x1b", "\x00", "\r", "\u202e", "\u200b", "\udcfc", "\ufeff"])
def test_nothing_that_a_terminal_acts_on_or_hides_is_printed(sign: str) -> None:
    fault = Fault(Place(BENCH / f"a{sign}b.yml", 1, 1, f"x{sign}y"), "", "wrong", found=f"p{sign}q")
    told = message(fault, BENCH)
    assert sign not in told
    assert "x\ufffdy" in told


def test_a_files_name_is_shown_with_what_cannot_be_seen_spelt_out() -> None:
    assert shown("k\nche \u00fc \U0001f50c.yml") == "k\\nche \u00fc \U0001f50c.yml"
    assert shown("k\udcfcche") == "k\\udcfcche"


def test_a_long_value_is_cut() -> None:
    told = message(Fault(Place(FILE), "x" * 500, "wrong", found="y" * 5000), BENCH)
    assert len(told) < 250
    assert told.endswith("yyy...'")


def test_a_value_that_the_words_name_already_is_not_told_twice() -> None:
    fault = Fault(Place(FILE), "date", "'06.05.2026' may be two days", found="06.05.2026")
    assert message(fault, BENCH) == "reports/run.yml: date: '06.05.2026' may be two days"


def test_a_file_elsewhere_is_told_with_its_whole_path() -> None:
    assert message(Doubt(Place(Path("/other/a.yml")), "", "odd"), BENCH) == "doubt: /other/a.yml: odd"


@given(st.permutations([(1, 2, "a"), (1, 2, "b"), (1, 10, ""), (2, 1, ""), (10, 1, "")]))
def test_faults_stand_in_order_of_lines_and_columns(places: list[tuple[int, int, str]]) -> None:
    faults = [Fault(Place(FILE, line, column), path, "wrong") for line, column, path in places]
    assert [(each.place.line, each.place.column, each.path) for each in in_order(faults)] == sorted(places)
