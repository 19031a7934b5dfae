"""Reading a file: what YAML would make of it, what a person meant, and where each thing stands.

The traps are those reported for YAML 1.1 readers in public threads (yaml/pyyaml #272 sexagesimals, #41 double
keys, #235 aliases; docker/compose #103 `10:30`; WireViz #213 leading zeros), each typed again here.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.fault import Fault, message
from generator.records import source
from generator.records.nodes import Mapping, Node, Scalar, Sequence
from generator.records.source import Source, read, read_text
from generator.records.syntax import DEEPEST

FILE = Path("/bench/reports/run.yml")
PARSERS = [yaml.CSafeLoader, yaml.SafeLoader]

RUN = """\
method: closed-box-heating/2
item: okvarn-ih30
specimen: A
date: 2026-03-08   # a Sunday
termination: {number: 1, strip: 10 mm, tool: ratchet crimper}
instruments: {temperature@body: logger-1/CH3, ambient: logger-1/CH1}
conditions:
  conductor: 4 mm2 class 5
  ambient:
readings: |
  time min | temperature@body degC | ambient degC

  0        | 21.4                  | 21.2
  2        | 30.7                  |
events:
  - {at: 35 min, what: "lid open: ten seconds"}
  - at: 40 min
    what: lid shut
"""


@pytest.fixture(params=PARSERS, ids=["C", "Python"], autouse=True)
def parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every test runs with the C parser and with the one that stands in for it."""
    monkeypatch.setattr(source, "_PARSER", request.param)


def read_run(text: str) -> Mapping:
    made = read_text(text, FILE)
    assert made.faults == ()
    assert made.root is not None
    return made.root


def only(text: str) -> Fault:
    made = read_text(text, FILE)
    assert made.root is None
    assert len(made.faults) == 1, [message(each, FILE.parent) for each in made.faults]
    return made.faults[0]


def at(node: Node, *keys: str | int) -> Scalar:
    for key in keys:
        if isinstance(node, Sequence):
            assert isinstance(key, int)
            node = node[key]
        else:
            assert isinstance(node, Mapping)
            node = node[str(key)]
    assert isinstance(node, Scalar)
    return node


@pytest.mark.parametrize(
    "text",
    [
        *("10:30", "12:30", "1:30:00", "1:30.5", "-1:30", "09:30", "0:30", "10:60"),
        *("no", "off", "yes", "on", "true", "y", "=", "1e3", "5.0e+3", "010", "0510210600", "08", "1_000"),
        *("0x1A", "1.10", "41.0", "2026-03-08", "2026-3-8", "2026-13-01", "<0.1", "NaN", ".nan", "695e0514"),
    ],
)
def test_a_value_is_the_text_that_was_typed(text: str) -> None:
    made = read_run(f"a: {text}\n{text}: b\nc: [{text}, x]\n")
    assert made["a"] == text
    assert made[text] == "b"
    assert made["c"] == [text, "x"]
    assert not at(made, "a").is_null


def test_a_file_without_a_value_is_null_and_not_the_text_null() -> None:
    made = read_run('a:\nb: ~\nc: null\nd: "null"\ne: ""\n')
    assert [at(made, key).is_null for key in "abcde"] == [True, True, True, False, False]
    assert at(made, "a").place.column == 1, "told at its key, for there is nothing else to point at"


def test_each_node_knows_its_place_and_path() -> None:
    made = read_run(RUN)
    strip = at(made, "termination", "strip")
    assert (strip.place.line, strip.place.column, strip.path) == (5, 33, "termination.strip")
    assert strip.place.text == RUN.splitlines()[4]
    what = at(made, "events", 0, "what")
    assert (what.place.line, what.place.column, what.style, what.path) == (16, 24, "quoted", "events.1.what")
    assert at(made, "events", 1, "what").path == "events.2.what"
    conditions = made["conditions"]
    assert isinstance(conditions, Mapping)
    assert conditions.key_places["ambient"].line == 9
    assert made.key_places["readings"].line == 10
    assert isinstance(made["events"], Sequence)


def test_a_cell_of_a_block_is_found_by_its_line_and_column() -> None:
    block = at(read_run(RUN), "readings")
    lines = block.split("\n")
    row = lines.index("0        | 21.4                  | 21.2")
    place = block.within(row, lines[row].index("21.4"))
    assert (place.line, place.column) == (13, 14)
    assert place.text[place.column - 1 :].startswith("21.4 ")
    assert block.style == "block"
    assert block.place.column == RUN.splitlines()[9].index("|") + 1


@given(
    st.integers(1, 9), st.integers(0, 3), st.lists(st.text("ab |\t", min_size=1), min_size=1), st.booleans()
)
def test_every_sign_of_a_block_is_found(indent: int, blank: int, rows: list[str], windows: bool) -> None:
    rows = [f"x{row}" for row in rows]
    lines = ["a: 1", "b: |", *[""] * blank, *(" " * indent + row for row in rows), "c: 2"]
    end = "\r\n" if windows else "\n"
    block = at(read_run(end.join(lines)), "b")
    for number, row in enumerate(block.split("\n")):
        for column, sign in enumerate(row):
            place = block.within(number, column)
            assert place.text[place.column - 1] == sign
            assert lines[place.line - 1] == place.text


def test_a_sign_of_a_quoted_text_stands_behind_the_quote() -> None:
    quoted = at(read_run('a: "30 X"\n'), "a")
    assert quoted.within(0, 3).column == 8
    assert at(read_run("a: 30 X\n"), "a").within(0, 3).column == 7


def test_a_mark_at_the_begin_and_windows_line_ends_are_taken() -> None:
    made = read_run("\ufeffa: 1\r\nb: |\r\n  x | y\r\n  1 | 2\r\nc: 3\r\n")
    assert made == {"a": "1", "b": "x | y\n1 | 2\n", "c": "3"}
    assert at(made, "c").place.text == "c: 3"
    assert at(made, "b").within(1, 4).column == 7


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("current: 1\nb: 2\ncurrent: 3\n", (1, 3)),
        ("a:\n  x: 1\n  y: 2\n  x: 1\n", (2, 4)),
        ("a: {x: 1, y: 2, x: 3}\n", (1, 1)),
        ("current: 1\nCurrent: 2\n", (1, 2)),
        ("caf\u00e9: 1\ncafe\u0301: 2\n", (1, 2)),
        ("a: {x: 1}\nb:\n  - x: 1\n    X: 2\n", (3, 4)),
    ],
)
def test_a_key_twice_is_told_with_both_lines(text: str, lines: tuple[int, int]) -> None:
    fault = only(text)
    where = f": at line {lines[0]} and at line {lines[1]}" if lines[0] < lines[1] else " in line 1"
    assert fault.what == f"this key is here twice{where}"
    assert fault.place.line == lines[1]


def test_every_double_key_of_a_file_is_told() -> None:
    made = read_text("a: 1\na: 2\nb:\n  c: 1\n  c: 2\n", FILE)
    assert [(each.path, each.place.line) for each in made.faults] == [("a", 2), ("b.c", 5)]


@pytest.mark.parametrize(
    ("text", "line", "column", "word"),
    [
        ("a: &x 1\n", 1, 4, "anchor"),
        ("a: 1\nb: *x\n", 2, 4, "points at another"),
        ("a: !!python/object:os.system 1\n", 1, 4, "tag"),
        ("a: !x {b: 1}\n", 1, 4, "tag"),
        ("a: 1\nb:\n  <<: {c: 1}\n", 3, 3, "write the keys out"),
        ("a: 1\n---\nb: 2\n", 2, 1, "second document"),
        ("%YAML 1.2\n---\na: 1\n", 1, 1, "leave the lines out"),
        ("? [a, b]\n: 1\n", 1, 3, "a key is a text"),
        ("? {a: b}\n: {c: d}\n", 1, 3, "a key is a text"),
        ("'': 1\n", 1, 1, "a key is missing"),
        ("am\u2003bient: 1\n", 1, 1, "U+2003 (em space)"),
        ("- a\n- b\n", 1, 1, "the file is a list"),
        ("just words\n", 1, 1, "the file is one text"),
        ("a:1\n", 1, 1, "a space is missing after the colon"),
    ],
)
def test_what_a_record_does_not_use_is_refused(text: str, line: int, column: int, word: str) -> None:
    fault = only(text)
    assert word in fault.what
    assert (fault.place.line, fault.place.column) == (line, column)


@pytest.mark.parametrize("text", ["", "\n\n", "# a comment alone\n", "---\n", "~\n", "\ufeff"])
def test_an_empty_file_is_told(text: str) -> None:
    fault = only(text)
    assert fault.what == "the file is empty; a record has keys and values"
    assert fault.place.line == 0


def test_aliases_within_aliases_are_refused_where_they_stand() -> None:
    levels = ["a0: &a0 [x, x]"]
    levels += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    made = read_text("\n".join(levels), FILE)
    assert made.root is None
    assert len(made.faults) == 10 + 9 * 9, "one for each anchor and alias as written, none of them followed"


class CountingParser:
    """Stands before the parser and counts what is taken from it."""

    taken = 0

    def __init__(self, text: str) -> None:
        self.inner = yaml.CSafeLoader(text)

    def check_event(self) -> bool:
        return bool(self.inner.check_event())

    def get_event(self) -> object:
        CountingParser.taken += 1
        return self.inner.get_event()

    def dispose(self) -> None:
        self.inner.dispose()


@pytest.mark.parametrize("text", ["[" * 10_000, "a: " + "[" * 10_000, "a: " + "{b: " * 10_000, "- " * 10_000])
def test_deep_nesting_is_refused_before_the_rest_is_read(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert only(text).what == f"nested deeper than {DEEPEST} levels"
    monkeypatch.setattr(source, "_PARSER", CountingParser)
    CountingParser.taken = 0
    read_text(text, FILE)
    assert CountingParser.taken < 4 * DEEPEST


def test_nesting_up_to_the_limit_is_read() -> None:
    assert read_run("a: " + "[" * (DEEPEST - 1) + "]" * (DEEPEST - 1))["a"] is not None


def test_a_comment_that_looks_like_the_end_of_a_value_is_a_doubt() -> None:
    made = read_text("note: clamp #3\nmpn: 0510210600\ncalibrated: never   # bought new\n", FILE)
    assert made.root is not None
    assert made.root["mpn"] == "0510210600"
    assert at(made.root, "calibrated").trailing_comment == "   # bought new"
    (doubt,) = made.doubts
    assert (doubt.path, doubt.found, doubt.word) == ("note", "clamp", "doubt")
    assert "' #'" in doubt.what


def test_a_value_in_curly_quotes_is_a_doubt_and_a_quotation_in_a_text_is_not() -> None:
    made = read_text(
        "current: \u201c30 A\u201d\nnote: The label says \u201c30 A\u201d on both sides.\n", FILE
    )
    assert [each.path for each in made.doubts] == ["current"]


def test_a_file_that_is_not_there_is_a_fault_and_no_crash(tmp_path: Path) -> None:
    made = read(tmp_path / "none.yml")
    assert made.root is None
    assert made.faults[0].what.startswith("the file cannot be opened: ")
    assert read(tmp_path).faults[0].what.startswith("this is a folder, and a record is a file")


def test_a_file_is_read_from_disk_with_its_whole_path(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "run.yml").write_bytes("a: 5 \u00b0C\r\n".encode())
    monkeypatch.chdir(tmp_path)
    made = read(Path("run.yml"))
    assert made.root == {"a": "5 \u00b0C"}
    assert made.root.place.file == tmp_path / "run.yml"


def inside(made: Source, text: str) -> bool:
    """Whether every fault and doubt of it has a place in the file, and words of its own."""
    lines = text.removeprefix("\ufeff").split("\n")
    for each in (*made.faults, *made.doubts):
        assert each.what
        assert each.place.file == made.path
        assert each.place.line <= len(lines)
        if each.place.line:
            assert 1 <= each.place.column <= len(lines[each.place.line - 1]) + 1
        assert message(each, FILE.parent)
    assert (made.root is None) == bool(made.faults)
    return True


@given(st.text())
@settings(max_examples=300)
def test_any_text_is_read_or_told_apart(text: str) -> None:
    assert inside(read_text(text, FILE), text)


@given(st.text("ab:-?#|>{}[],&*!%@`\"'\\ \n\t~=<.1\u00a0\u2028\ufeff\r"))
@settings(max_examples=400)
def test_any_text_of_signs_with_a_meaning_is_read_or_told_apart(text: str) -> None:
    assert inside(read_text(text, FILE), text)


@given(st.integers(0, len(RUN)), st.integers(0, 12), st.text("a:-?#|>{}[],&*!%@\"' \n\t1", max_size=4))
@settings(max_examples=400)
def test_any_slip_in_a_good_record_is_read_or_told_apart(start: int, length: int, put: str) -> None:
    text = RUN[:start] + put + RUN[start + length :]
    assert inside(read_text(text, FILE), text)


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_told_apart(data: bytes) -> None:
    path = FILE
    reading = pytest.MonkeyPatch()
    reading.setattr(Path, "read_bytes", lambda _: data)
    try:
        made = read(path)
    finally:
        reading.undo()
    assert all(each.place.line <= data.count(b"\n") + 1 for each in made.faults)
    assert made.root is None or not made.faults


def test_a_pipe_is_not_waited_for_and_a_far_too_long_file_not_read(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yml")
    assert read(tmp_path / "pipe.yml").faults[0].what.startswith("this is no ordinary file")
    (tmp_path / "long.yml").write_bytes(b"a: b\n")
    os.truncate(tmp_path / "long.yml", 50_000_000)
    assert read(tmp_path / "long.yml").faults[0].what.startswith("the file has 50.0 MB")
