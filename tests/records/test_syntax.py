"""The words for what YAML cannot read: one record for each sign that has a meaning, and for each slip."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from generator.records import source
from generator.records.source import read_text

FILE = Path("/bench/reports/run.yml")


@pytest.fixture(params=[yaml.CSafeLoader, yaml.SafeLoader], ids=["C", "Python"], autouse=True)
def parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """The two parsers word and place their problems otherwise; a person is told the same."""
    monkeypatch.setattr(source, "_PARSER", request.param)


def told(text: str) -> tuple[int, int, str]:
    (fault,) = read_text(text, FILE).faults
    return fault.place.line, fault.place.column, fault.what


SIGNS = [
    ("a: >150 degC", "a value that begins with '>' must stand in quotes: \">150 degC\", or: over 150 degC"),
    ("a: |2 x", "a value that begins with '|' must stand in quotes: \"|2 x\""),
    ("a: %5", "a value that begins with '%' must stand in quotes: \"%5\""),
    ("a: @home", "a value that begins with '@' must stand in quotes: \"@home\""),
    ("a: `x`", "a value that begins with '`' must stand in quotes: \"`x`\""),
    ("a: *new* part", "a value that begins with '*' must stand in quotes: \"*new* part\""),
    ("a: & more", "a value that begins with '&' must stand in quotes: \"& more\""),
    ("a: , x", "a value that begins with ',' must stand in quotes: \", x\""),
    ("a: ] x", "a value that begins with ']' must stand in quotes: \"] x\""),
    ("a: } x", "a value that begins with '}' must stand in quotes: \"} x\""),
    ("a: ? x", "a value that begins with '?' must stand in quotes: \"? x\""),
    ('a: @"x"', "a value that begins with '@' must stand in quotes: '@\"x\"'"),
    ("a: - 5", "'-' and a space begin a list; a number below nought is written -5"),
    ("a: - five", "'-' and a space begin a list; put the text in quotes: \"- five\""),
]


@pytest.mark.parametrize(("line", "what"), SIGNS)
def test_a_sign_at_the_begin_of_a_value(line: str, what: str) -> None:
    assert told(f"x: 1\n{line}\n") == (2, 4, what)


def test_only_the_value_is_quoted_inside_braces() -> None:
    assert told("a: {x: 1, y: >3, z: 2}\n") == (
        *(1, 14),
        "a value that begins with '>' must stand in quotes: \">3\", or: over 3",
    )


@pytest.mark.parametrize(
    ("text", "line", "column", "what"),
    [
        ("note: evidence: later\n", 1, 15, 'a colon inside a text; put it in quotes: "evidence: later"'),
        ("- note: see b: c\n", 1, 14, 'a colon inside a text; put it in quotes: "see b: c"'),
        ("a:1\nb: 2\n", 1, 2, "a space is missing after the colon"),
        ("x: 1\na:1\n", 2, 2, "a space is missing after the colon"),
        ("a: 1\n  b: 2\n", 2, 3, "this key stands deeper than the one above it, which has a value already"),
        ("a:\n  b: 1\n c: 2\n", 3, 2, "this line is indented neither like the one above it nor like its key"),
        ("a:\n  - b\n -c: 2\n", 3, 2, "this line is indented neither like the one above it nor like its key"),
        ("- a\n-b\n", 2, 1, "a space is missing after the dash"),
        (": 2\n", 1, 1, "a key is missing before the colon"),
        ('a: "2.5" lead"\n', 1, 10, "text after a closing quote; inside quotes use the other kind of quote"),
        ("a: 'it's'\n", 1, 8, "text after a closing quote; inside quotes use the other kind of quote"),
        ("a: [1, 2] 3\n", 1, 11, "text after ']'; put the whole in quotes if it is one text"),
        ("a: 'x\nb: 1\n", 1, 4, "the quote that opens here is not closed"),
        ('a: "x\n\n', 1, 4, "the quote that opens here is not closed"),
        ("a: [1, 2\nb: 3\n", 1, 4, "'[' is not closed with ']', or a comma is missing after it"),
        ("a: {x: 1\nb: 3\n", 1, 4, "'{' is not closed with '}', or a comma is missing after it"),
        ("a: {x: 1 y: 2}\n", 1, 11, "a comma or '}' is missing, or a text here needs quotes"),
        ("... \na: 1\n", 1, 1, "'...' ends a record in YAML; take the line out"),
        ("%foo\na: 1\n", 1, 1, "a line cannot begin with '%'"),
        ("a: 1\n%b: 2\n", 2, 1, "a line cannot begin with '%'"),
    ],
)
def test_a_slip_of_form(text: str, line: int, column: int, what: str) -> None:
    assert told(text) == (line, column, what)


def test_a_line_that_is_neither_key_nor_item() -> None:
    line, column, what = told("a: 1\nlever feels loose\nb: 2\n")
    assert (line, column) == (2, 1)
    assert (
        what == "this line is neither 'key: value' nor '- value'; a text over several lines needs an indent"
    )


def test_a_backslash_in_double_quotes() -> None:
    line, _, what = told('a: "C:\\new \\q"\n')
    assert line == 1
    assert what == "a backslash means something else inside double quotes; use single quotes"
    assert told('a: "\\xq"\n')[2] == what


@pytest.mark.parametrize(
    "rows",
    [
        "time min | ambient degC\n0 | 21.4\n5 | 30.1\n",
        "time min\tambient degC\n0\t21.4\n",
        "\ntime min | ambient degC\n0 | 21.4\n",
        "force N\n388\n390\n",
        "time min | okvarn-ih30:A@body degC\n0 | 21.4\nevents: []\n",
    ],
)
@pytest.mark.parametrize("key", ["readings: |", "readings: |-", "readings: |  # as typed at the bench"])
def test_rows_pasted_without_indent(rows: str, key: str) -> None:
    line, column, what = told(f"item: x\n{key}\n{rows}")
    assert what == f"the rows under '{key}' must stand deeper; put two spaces before each"
    assert (line, column) == (3 + rows.startswith("\n"), 1)


def test_rows_no_deeper_than_a_key_that_is_itself_indented() -> None:
    line, _, what = told("zero-check:\n  table: |\n  time min | ambient degC\n  0 | 21.4\n")
    assert (line, what) == (3, "the rows under 'table: |' must stand deeper; put two spaces before each")


def test_a_row_less_deep_than_the_first() -> None:
    assert told("readings: |\n    a | b\n    1 | 2\n  3 | 4\n") == (
        *(4, 3),
        "this row stands less deep than the first one under 'readings: |'",
    )


def test_no_word_of_the_parsers_own_reaches_a_person() -> None:
    """Every slip above has words of ours; so has one that no rule knows."""
    for text in [line for line, _ in SIGNS] + ["a: [[1, 2]: {", "? : ?\n-", "{a: b}}", "a: {]"]:
        _, _, what = told(text + "\n")
        for word in (
            "expected",
            "scanning",
            "parsing",
            "token",
            "mapping values",
            "block",
            "flow",
            "invalid",
        ):
            assert word not in what
