"""A table that is being filled: joined by time, times and cells as they were written."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from generator.fault import Place
from generator.intake.importing.entry import spans
from generator.intake.importing.sheet import Row, Sheet, in_unit, sheet_of, unit_for
from generator.records.nodes import Scalar
from generator.records.table import Table, parse_table
from generator.records.units import MINUTE, SECOND


def table(text: str) -> Table:
    lines = text.split("\n")
    block = Scalar(text, Place(Path("/a.yml"), 1, 1), "readings", "block")
    block.set_block(lines, 1, 0)
    return parse_table(block)


def row(seconds: str, **cells: str) -> Row:
    return Row(Decimal(seconds), cells)


def test_what_was_written_stays_as_it_was_written() -> None:
    text = "time min | drop mV | ambient °C\n0.0      | 1.10    | >60 ! hot\n2.50     | 1e3     |"
    assert "\n".join(sheet_of(table(text)).lines()) == text


@pytest.mark.parametrize(
    ("text", "seconds", "lines"),
    [
        ("time min | drop mV\n5.0 | 1", "150", ("2.5      |         | 9", "5.0      | 1       |")),
        ("time min | drop mV\n5.0 | 1", "60.25", ("60.25  |         | 9", "300    | 1       |")),
        ("time s | drop mV\n300 | 1", "60", ("60     |         | 9", "300    | 1       |")),
        ("time h | drop mV\n1.0 | 1", "60", ("1        |         | 9", "60       | 1       |")),
    ],
)
def test_times_keep_their_unit_where_it_tells_all_of_them(
    text: str, seconds: str, lines: tuple[str, ...]
) -> None:
    joined = sheet_of(table(text)).joined({"x": "x A"}, [row(seconds, x="9")])
    assert joined.lines()[1:] == lines


def test_columns_that_are_emptied_take_their_rows_with_them() -> None:
    sheet = sheet_of(table("time min | drop mV | ambient degC\n0 | | 20\n5 | 1 | 21\n9 | | 22 ! lid open"))
    left = sheet.without(["ambient"])
    assert left.filled == ("drop",)
    assert [(each.seconds, each.reason) for each in left.rows] == [
        (Decimal(300), ""),
        (Decimal(540), "lid open"),
    ]
    assert list(left.heads) == ["drop", "ambient"]


def test_a_file_of_its_own_is_read_as_the_same_table() -> None:
    sheet = Sheet({"drop": "drop mV"}, (row("0", drop="1.10"), Row(Decimal(30), {}, "off")))
    assert sheet.csv() == b"time min,drop mV\n0,1.10\n0.5,! off\n"


@pytest.mark.parametrize(
    ("times", "unit", "told"),
    [
        (["0", "300"], MINUTE, ["0", "5"]),
        (["0", "0.6"], MINUTE, ["0", "0.01"]),
        (["0", "1"], SECOND, ["0", "1"]),
        (["0", "60.25"], SECOND, ["0", "60.25"]),
        (["0", "6000"], MINUTE, ["0", "100"]),
    ],
)
def test_times_are_told_in_minutes_where_two_decimals_do(
    times: list[str], unit: object, told: list[str]
) -> None:
    found = unit_for(map(Decimal, times))
    assert found is unit
    assert [in_unit(Decimal(each), found) for each in times] == told


def test_lines_are_told_as_spans_in_their_order() -> None:
    assert list(spans((4, 5, 6, 9, 8, 10))) == ["4 to 6", "9", "8", "10"]
    assert list(spans(())) == []
