"""Readings tables: what is typed is what is read, and every fault stands at its own cell."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.fault import Fault, message
from generator.records.nodes import Scalar
from generator.records.source import read_text
from generator.records.table import Column, Table, TableFaults, parse_table
from generator.records.units import find_unit

FILE = Path("/bench/reports/run.yml")
FIVE = "time min | temperature@body degC | ambient degC | current A | drop mV"


def block(rows: str, indent: str = "  ") -> Scalar:
    text = "item: okvarn-ih30\nreadings: |\n" + "".join(f"{indent}{row}\n" for row in rows.split("\n"))
    root = read_text(text, FILE).root
    assert root is not None
    node = root["readings"]
    assert isinstance(node, Scalar)
    return node


def table(rows: str) -> Table:
    return parse_table(block(rows))


def faults(rows: str) -> tuple[Fault, ...]:
    with pytest.raises(TableFaults) as raised:
        table(rows)
    return raised.value.faults


def column(found: Table, name: str, point: str = "", owner: str = "") -> Column:
    made = found.column(name, point, owner)
    assert made is not None
    return made


def values(made: Column) -> list[float | None]:
    return [cell.value if cell else None for cell in made.cells]


def told(rows: str) -> list[tuple[int, int, str]]:
    """Line of the table from 1, column of the row from 1, and what is wrong."""
    return [(each.place.line - 2, each.place.column - 2, each.what) for each in faults(rows)]


def test_a_run_as_typed_at_the_bench() -> None:
    found = table(
        f"{FIVE}\n"
        "0        | 21.4                  | 21.2         | 30.1      | 38.6\n"
        "2        | 30.7                  | 21.3         | 30.1      | 39.8\n"
        "5        | 41.2                  |              | 30.0      | 41.0"
    )
    assert found.rows == 3
    assert found.excluded == {}
    assert values(column(found, "time")) == [0.0, 120.0, 300.0]
    assert values(column(found, "temperature", "body")) == [21.4, 30.7, 41.2]
    assert values(column(found, "ambient")) == [21.2, 21.3, None]
    assert values(column(found, "drop")) == pytest.approx([0.0386, 0.0398, 0.041], rel=1e-15)
    drop = column(found, "drop")
    assert (drop.unit.symbol, drop.quantity, drop.owner) == ("mV", "voltage", "")
    last = drop.cells[2]
    assert last is not None
    assert (last.text, last.decimals, last.place.line, last.place.column) == ("41.0", 1, 6, 65)
    assert last.place.text[last.place.column - 1 :] == "41.0"
    assert found.row_places[1].line == 5
    assert found.column("ambient", "body") is None


def test_a_loggers_columns_paste_straight_in() -> None:
    found = table("time min\ttemperature@body °F\tambient °F\n0\t71.5\t71.5\n2\t\t72\n5\t75.2\t")
    assert values(column(found, "temperature", "body")) == [
        pytest.approx(39.5 / 1.8),
        None,
        pytest.approx(24.0),
    ]
    assert values(column(found, "ambient"))[2] is None


def test_rows_with_tabs_go_under_a_header_with_lines() -> None:
    assert values(column(table("time min | force N\n0\t5.5\n1\t6.5"), "force")) == [5.5, 6.5]


def test_a_sitting_names_whose_reading_it_is() -> None:
    found = table(
        "time min | ambient degC | current A | okvarn-ih30:A@body degC | veldrun-v30:A@body degC\n"
        "0        | 21.2         | 30.1      | 21.4                    | 21.3"
    )
    assert values(column(found, "temperature", "body", "okvarn-ih30:A")) == [21.4]
    assert values(column(found, "temperature", "body", "veldrun-v30:A")) == [21.3]
    assert [each.owner for each in found.columns] == ["", "", "", "okvarn-ih30:A", "veldrun-v30:A"]


def test_over_range_is_a_bound() -> None:
    cell = column(table("time min | temperature degC\n0 | 21.4\n5 | >150.0"), "temperature").cells[1]
    assert cell is not None
    assert (cell.bound, cell.value, cell.text) == (">", 150.0, ">150.0")


def test_an_excluded_row_is_kept_with_its_reason() -> None:
    found = table("time min | ambient degC\n0 | 21.4\n2 | 99.9 ! probe came off! twice\n5 | 21.5")
    assert found.excluded == {1: "probe came off! twice"}
    assert values(column(found, "ambient")) == [21.4, 99.9, 21.5]


def test_a_table_without_time_and_empty_lines_between_rows() -> None:
    found = table("pull N\n388\n\n390.5\n")
    assert values(column(found, "pull")) == [388.0, 390.5]
    assert (found.rows, [place.line for place in found.row_places]) == (2, [4, 6])


MISCOUNTED = "this row has {}, the header 3; decimal commas? write points, and part the cells by | or tabs"


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        (
            f"{FIVE}\n0 | 21.4 | 21.2 | 30.1 | 38.6\n5 | 39,9 | 21,2 | 30.0 | 41.0",
            [
                (3, 5, "temperature@body: a decimal comma? write 39.9"),
                (3, 12, "ambient: a decimal comma? write 21.2"),
            ],
        ),
        (
            "time min | temperature degC | ambient degC\n0 | 21.4 | 21.2\n5, 39,9",
            [(3, 1, MISCOUNTED.format("1 cell"))],
        ),
        (
            "time min | temperature degC | ambient degC\n0 | 21.4 | 21.2\n5 | 39 | 9 | 21 | 2",
            [(3, 1, MISCOUNTED.format("5 cells"))],
        ),
        (
            "time min | ambient degC\n0 | 21.4 | 21.2\n5 | 21.5",
            [(2, 1, "this row has 3 cells, the header 2")],
        ),
        (
            "time min | ambient degC\n0   21.4",
            [(2, 1, "this row has 1 cell, the header 2; cells are parted by | or tabs")],
        ),
        (
            "time min | ambient degC\n0 | OL\n5 | 21.4 C",
            [
                (2, 5, "ambient: a reading over range is written with the range's end: >150.0"),
                (3, 5, "ambient: a number alone is expected; the unit stands in the header"),
            ],
        ),
        (
            "time min | ambient degC\n0 | 1\n5 | 2\n5 | 3\n3 | 4",
            [
                (4, 1, "time: times must rise; 5 comes after 5"),
                (5, 1, "time: times must rise; 3 comes after 5"),
            ],
        ),
        ("time min | ambient degC\n0 | 1\n | 2", [(3, 1, "time: every row needs its time")]),
        (
            "time min | ambient degC\n0 | 1\n>5 | 2",
            [(3, 1, "time: a time cannot be over or under range")],
        ),
        (
            "time min | ambient degC\n0:00 | 1\n5:00 | 2",
            [
                (2, 1, "time: a clock; write one number, counted from the start"),
                (3, 1, "time: a clock; write one number, counted from the start"),
            ],
        ),
        ("ambient degC | time min\n1 | 0", [(1, 16, "the column 'time' must be the first")]),
        (
            "time min | time s\n1 | 0",
            [(1, 12, "the column 'time' is there twice"), (1, 12, "the column 'time' must be the first")],
        ),
        (
            "time min | ambient degC | ambient °F\n1 | 0 | 0",
            [(1, 27, "the column 'ambient' is there twice")],
        ),
        (
            "| time min | ambient degC |\n| 0 | 1 |",
            [
                (1, 1, "a column without a name; leave out '|' at the begin and end of the header"),
                (1, 28, "a column without a name; leave out '|' at the begin and end of the header"),
            ],
        ),
        (
            "time min, ambient degC\n0, 1",
            [
                (1, 1, "a comma in the header; cells are parted by | or tabs"),
                (2, 1, "cells are parted by | or tabs, and a number has a point"),
            ],
        ),
        ("time min | ambient degC ! x\n0 | 1", [(1, 25, "the header cannot be excluded")]),
        ("time min | ambient degC\n0 | 1 !", [(2, 7, "the reason is missing behind '!'")]),
        ("time min | ambient degC", [(1, 1, "the table has a header and no rows")]),
        (
            "time min | ambient K\n0 | 21,4",
            [
                (1, 12, "ambient: 'K' is no unit for this; it is a unit of a difference of temperatures"),
                (2, 5, "a decimal comma? write 21.4"),
            ],
        ),
    ],
)
def test_every_fault_stands_at_its_own_cell(rows: str, expected: list[tuple[int, int, str]]) -> None:
    assert sorted(told(rows)) == sorted(expected)


def test_a_fault_is_told_with_its_line_and_a_caret() -> None:
    (fault,) = faults("time min | ambient degC\n0        | 21,4")
    assert message(fault, FILE.parent) == (
        "run.yml:4:14: readings: ambient: a decimal comma? write 21.4, found '21,4'\n"
        "   4 |   0        | 21,4\n"
        "     |              ^"
    )


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("a:\n  time min | ambient degC\n  0 | 1\n", "a table begins with '|' behind the colon"),
        ("a: >\n  time min | ambient degC\n  0 | 1\n", "a table begins with '|' behind the colon"),
        ('a: "time min | ambient degC"\n', "a table begins with '|' behind the colon"),
        ("a: 41.0\n", "a table begins with '|' behind the colon"),
        ("a: |\nb: 1\n", "the table is empty"),
    ],
)
def test_what_is_no_table(text: str, what: str) -> None:
    root = read_text(text, FILE).root
    assert root is not None
    node = root["a"]
    assert isinstance(node, Scalar)
    with pytest.raises(TableFaults) as raised:
        parse_table(node)
    (fault,) = raised.value.faults
    assert fault.what.startswith(what)
    assert (fault.place.line, fault.path) == (node.place.line, "a")


NUMBERS = st.one_of(st.none(), st.decimals(-9999, 9999, places=2).map(str), st.integers(-999, 999).map(str))
HEADS = ["ambient degC", "temperature@body degF", "current A", "drop mV", "okvarn-ih30:A@body °C", "rise K"]


@given(
    st.lists(st.lists(NUMBERS, min_size=len(HEADS), max_size=len(HEADS)), min_size=1, max_size=12),
    st.sampled_from(["|", " | ", "\t", "   |\t"]),
    st.sampled_from([" ", "   ", "      "]),
    st.sets(st.integers(0, 11)),
)
def test_a_table_written_from_numbers_reads_back(
    rows: Sequence[Sequence[str | None]], sign: str, indent: str, struck: set[int]
) -> None:
    lines = [sign.join(["time s", *HEADS])]
    for index, row in enumerate(rows):
        reason = " ! slipped" if index in struck else ""
        lines.append(sign.join([str(index * 30), *(cell or "" for cell in row)]) + reason)
    found = parse_table(block("\n".join(lines), indent))
    assert found.rows == len(rows)
    assert found.excluded == {index: "slipped" for index in sorted(struck) if index < len(rows)}
    assert values(found.columns[0]) == [30.0 * index for index in range(len(rows))]
    for number, (head, made) in enumerate(zip(HEADS, found.columns[1:], strict=True)):
        unit = find_unit(head.split(" ", 1)[1].replace("°", "deg"), made.quantity)
        assert unit is not None
        for row, cell in zip(rows, made.cells, strict=True):
            text = row[number]
            assert (cell.text if cell else None) == text
            if cell and text:
                assert cell.value == unit.to_si(float(text))
                assert cell.decimals == len(text.partition(".")[2])
                assert cell.place.text[cell.place.column - 1 :].startswith(text)


@given(st.text("0123456789.,:|\t !<>-+eOLtimenabdgC°\n", max_size=80))
def test_any_block_is_a_table_or_told_apart(text: str) -> None:
    node = block("time min | ambient degC\n" + text.strip("\n "))
    try:
        found = parse_table(node)
    except TableFaults as error:
        lines = node.place.line + len(node.split("\n"))
        inside = [node.place.line <= each.place.line <= lines for each in error.faults]
        told = [each.what for each in error.faults]
    else:
        inside = [len(each.cells) == found.rows for each in found.columns]
        told = [each.name for each in found.columns]
    assert told
    assert all(told)
    assert all(inside)
