"""What the characters of a file have against it, before YAML is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.fault import Fault
from generator.records.source import read, read_text

FILE = Path("/bench/reports/run.yml")


def only(text: str) -> Fault:
    (fault,) = read_text(text, FILE).faults
    return fault


@pytest.mark.parametrize(
    ("sign", "told"),
    [
        ("\u00a0", "U+00A0 (no-break space)"),
        ("\u200b", "U+200B (zero width space)"),
        ("\u00ad", "U+00AD (soft hyphen)"),
        ("\u2060", "U+2060 (word joiner)"),
        ("\u202e", "U+202E (right-to-left override)"),
    ],
)
def test_a_hidden_sign_outside_quotes_is_told_by_its_code_point(sign: str, told: str) -> None:
    fault = only(f"a: 1\nb: 20{sign}mm\n")
    assert fault.what == f"{told} outside quotes; write a plain space or take it out"
    assert (fault.place.line, fault.place.column) == (2, 6)
    assert only(f"a: 1\n{sign}b: 2\n").place.column == 1, "as an indent"
    made = read_text(f"a: \"20{sign}mm\"\nb: |\n  20{sign}mm\nc: 'x{sign}'\n", FILE)
    assert made.faults == ()
    assert made.root is not None
    assert made.root["a"] == f"20{sign}mm"


@pytest.mark.parametrize(
    ("sign", "told"),
    [
        ("\u0085", "U+0085"),
        ("\u2028", "U+2028 (line separator)"),
        ("\u2029", "U+2029 (paragraph separator)"),
        ("\ufeff", "U+FEFF (zero width no-break space)"),
        ("\x00", "U+0000"),
        ("\x1b", "U+001B"),
        ("\x7f", "U+007F"),
        ("\ud800", "U+D800"),
    ],
)
@pytest.mark.parametrize("form", ["b: 20{}mm", 'b: "20{}mm"', "b: |\n  20{}mm", "b: 1 # 20{}mm"])
def test_a_sign_that_no_record_needs_is_refused_in_quotes_too(sign: str, told: str, form: str) -> None:
    text = "a: 1\n" + form.format(sign) + "\n"
    fault = only(text)
    assert fault.what == f"the file holds {told}; take it out"
    line = text.split("\n")[fault.place.line - 1]
    assert line[fault.place.column - 1] == sign
    assert sign not in fault.place.text, "the line is quoted without what a terminal would act on"


def test_lines_that_end_in_a_carriage_return_alone() -> None:
    fault = only("a: 1\rb: 2\r")
    assert fault.what == (
        "a line ends in U+000D (carriage return) alone; save the file with the usual line ends"
    )
    assert (fault.place.line, fault.place.column) == (1, 5)


@pytest.mark.parametrize(
    ("text", "line", "column", "what"),
    [
        ("a:\n\tb: 1\n", 2, 1, "a tab before the text; indent with spaces"),
        ("a: 1\n\tb: 2\n", 2, 1, "a tab before the text; indent with spaces"),
        (
            "readings: |\n\ttime min | ambient degC\n\t0 | 1\n",
            2,
            1,
            "a tab before the text; indent with spaces",
        ),
        ("a:\t1\n", 1, 3, "a tab outside a readings table; write a space"),
        ("a: 4\tmm2\n", 1, 5, "a tab outside a readings table; write a space"),
        ("a: 1\t# note\n", 1, 5, "a tab outside a readings table; write a space"),
    ],
)
def test_a_tab_is_for_tables_alone(text: str, line: int, column: int, what: str) -> None:
    fault = only(text)
    assert (fault.place.line, fault.place.column, fault.what) == (line, column, what)


def test_a_tab_parts_cells_and_stands_in_quotes() -> None:
    made = read_text('a: "x\ty"\nb: |\n  time min\tambient degC\n  0\t21.4\nc: 1\n', FILE)
    assert made.root is not None
    assert made.root["b"] == "time min\tambient degC\n0\t21.4\n"


def test_every_hidden_sign_of_a_file_is_told() -> None:
    faults = read_text("a: x\ty\nb: 'p\tq'\nc: x\u00a0y\n", FILE).faults
    assert [(each.place.line, each.place.column) for each in faults] == [(1, 5), (3, 5)]


@pytest.mark.parametrize(
    ("data", "line", "column", "byte"),
    [
        (b"a: 1\nb: 20 \xb0C\n", 2, 7, "0xB0"),
        (b"\xc3\xa9: 1\r\n\xc3\xa9\xc3\xa9: \xff\r\n", 2, 5, "0xFF"),
        (b"a: \xc3", 1, 4, "0xC3"),
        (b"\xe2\x28\xa1", 1, 1, "0xE2"),
    ],
)
def test_a_byte_that_is_not_utf8_is_found(
    tmp_path: Path, data: bytes, line: int, column: int, byte: str
) -> None:
    path = tmp_path / "run.yml"
    path.write_bytes(data)
    (fault,) = read(path).faults
    assert fault.what == f"byte {byte} is not UTF-8; save the file as UTF-8"
    assert (fault.place.line, fault.place.column) == (line, column)
    assert "\r" not in fault.place.text


@pytest.mark.parametrize("codec", ["utf-16", "utf-16-be", "utf-16-le"])
def test_a_file_in_utf16_is_named(tmp_path: Path, codec: str) -> None:
    path = tmp_path / "run.yml"
    path.write_bytes("\ufeffa: 1\n".encode(codec) if codec != "utf-16" else "a: 1\n".encode(codec))
    (fault,) = read(path).faults
    assert fault.what == "the file is UTF-16; save it as UTF-8"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_a_file_in_another_encoding_with_or_without_its_mark(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "a.yml"
    path.write_bytes("maker: Tessvik\nmodel: T30\n".encode(encoding))
    assert [each.what for each in read(path).faults] == ["the file is UTF-16; save it as UTF-8"]


def test_a_file_that_is_no_text(tmp_path: Path) -> None:
    path = tmp_path / "a.yml"
    for data in (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x02\x01\x02\x03\x04\xff", bytes(100)):
        path.write_bytes(data)
        (fault,) = read(path).faults
        assert fault.what.startswith("the file is no text")
        assert fault.place.line == 0, "no line of it is printed"


def test_one_stray_byte_is_told_at_its_place(tmp_path: Path) -> None:
    path = tmp_path / "a.yml"
    path.write_bytes(b"maker: Tessvik\nplace: K\xfcche\n")
    (fault,) = read(path).faults
    assert fault.what == "byte 0xFC is not UTF-8; save the file as UTF-8"
    assert (fault.place.line, fault.place.column) == (2, 9)
