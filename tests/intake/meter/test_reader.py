"""Twelve files as meters write them, each against what a right reading of it is, key by key."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.intake.meter.hints import Hints
from generator.intake.meter.reader import read_meter_file
from generator.intake.meter.series import MeterFile, NotReading

FILES = Path(__file__).parent / "files"
EXPECTED = {path.name[:2]: path for path in sorted(FILES.glob("*.expect.yml"))}

KEYS_HELD = {
    "file", "about", "hints", "encoding", "line_ending", "delimiter", "decimal", "preamble_lines",
    "header_line", "units_line", "first_data_line", "last_data_line", "ignored_lines", "sheet", "metadata",
    "time", "elapsed_s", "columns", "not_readings", "events", "remarks", "warnings", "traps",
}  # fmt: skip
"""Every key that an expectation has; each is held below, `about`, `line_ending` and `traps` tell a person."""


def expected(key: str) -> dict[str, Any]:
    loaded = yaml.safe_load(EXPECTED[key].read_text(encoding="utf-8"))
    assert isinstance(loaded, dict)
    return loaded


def hints_of(told: dict[str, Any]) -> Hints:
    hints = dict(told["hints"])
    if "run_date" in hints:
        hints["run_date"] = date.fromisoformat(str(hints["run_date"]))
    return Hints(**hints)


def bytes_of(key: str) -> bytes:
    return (FILES / str(expected(key)["file"])).read_bytes()


def read(key: str) -> MeterFile:
    told = expected(key)
    return read_meter_file(bytes_of(key), told["file"], hints_of(told))


def column(file: MeterFile, start: str) -> str:
    """The whole name of a column that an expectation calls by its start."""
    names = [each.name for each in file.columns]
    return (
        start if start in names else next(name for name in names if re.match(rf"{re.escape(start)}\W", name))
    )


every_file = pytest.mark.parametrize("key", EXPECTED)


@every_file
def test_no_key_of_an_expectation_is_passed_over(key: str) -> None:
    assert set(expected(key)) <= KEYS_HELD


@every_file
def test_times(key: str) -> None:
    assert read(key).elapsed_s == tuple(Decimal(str(each)) for each in expected(key)["elapsed_s"])


@every_file
def test_values_and_units(key: str) -> None:
    file, told = read(key), expected(key)["columns"]
    for start, wanted in told.items():
        found = file.column(column(file, start))
        assert found.unit is not None
        assert found.unit.typed == wanted["unit"], start
        values = [None if value is None else Decimal(value) for value in found.values]
        assert values == [None if value is None else Decimal(str(value)) for value in wanted["values"]], start
        for value, celsius in zip(found.values, wanted.get("in_degC", ()), strict=False):
            assert value is not None
            assert found.unit.to_si(float(value)) == pytest.approx(celsius, abs=5e-5)


@every_file
def test_columns_that_an_expectation_does_not_name_have_their_reason(key: str) -> None:
    file = read(key)
    told = {column(file, start) for start in expected(key)["columns"]}
    # The handheld's primary reading is its average once more.
    assert {each.name for each in file.columns} - told <= {"primary"}


@every_file
def test_digits_are_as_written(key: str) -> None:
    file = read(key)
    if file.encoding == "xlsx":
        return
    text = bytes_of(key).decode({"03": "cp1252", "08": "cp932", "10": "utf-16"}.get(key, "utf-8"))
    for each in file.columns:
        for value in each.values:
            assert value is None or value.replace(".", file.decimal) in text


@every_file
def test_encoding(key: str) -> None:
    wanted = expected(key)["encoding"]
    found = read(key).encoding
    same = {
        "utf-8 with byte order mark": "utf-8 with mark",
        "utf-16-le with byte order mark": "utf-16-le with mark",
        "windows-1252": "cp1252",
        "shift-jis (cp932)": "cp932",
    }
    assert found == same.get(wanted, wanted) or (wanted == "utf-8" and found == "ascii")


@every_file
def test_delimiter_and_decimal_sign(key: str) -> None:
    file, told = read(key), expected(key)
    assert file.delimiter == {"tab": "\t"}.get(told.get("delimiter", ""), told.get("delimiter", ""))
    assert file.decimal == told.get("decimal", ".")


@every_file
def test_lines(key: str) -> None:
    file, told = read(key), expected(key)
    assert file.header_line == told["header_line"]
    assert told.get("preamble_lines", told["header_line"] - 1) == file.header_line - 1
    assert file.units_line == told["units_line"]
    assert file.first_data_line == told["first_data_line"]
    assert file.last_data_line == told["last_data_line"]
    assert list(file.ignored_lines) == told.get("ignored_lines", [])
    assert file.sheet == told.get("sheet", "")


@every_file
def test_metadata(key: str) -> None:
    file = read(key)
    written, settings = dict(file.metadata), dict(file.settings)
    for name, wanted in expected(key).get("metadata", {}).items():
        found = written.get(name, settings.get(name.replace("_", "-")))
        assert found is not None, name
        assert (
            found == str(wanted)
            or (name == "duration" and str(wanted).endswith(found))
            or (isinstance(wanted, float) and float(found) == wanted)
        )


MEANS: dict[str, Callable[[NotReading], bool]] = {
    "no probe": lambda each: each.means == "no probe",
    "over-range": lambda each: each.means == "over range" and each.bound == ">",
    "no samples were averaged: not a reading of nought": lambda each: each.means == "no samples",
    "above the range: known to be over 150.0": lambda each: (each.bound, each.limit) == (">", "150.0"),
    "above the range": lambda each: (each.bound, each.limit) == (">", "150.0"),
    "no reading": lambda each: each.means == "no reading",
    "probe off": lambda each: each.means == "no reading",
    "no probe, or a broken one": lambda each: each.means == "no probe, or a broken one",
    "alarm state, not a reading": lambda each: each.means == "state, not a reading",
    "event only": lambda each: each.means == "event only",
    "not readable; the rise is worked out anew": lambda each: each.means == "formula without a stored value",
}


@every_file
def test_what_is_no_reading(key: str) -> None:
    file, told = read(key), expected(key)["not_readings"]
    left = [each for each in file.not_readings if each.column != "primary"]
    assert len(left) == len(told)
    for wanted in told:
        line = None if wanted.get("rows") == "all" else wanted["line"]
        found = [
            each
            for each in left
            if each.line == line
            and each.token == wanted["token"]
            and each.column.startswith(wanted["column"])
        ]
        assert len(found) == 1, wanted
        assert MEANS[wanted["means"]](found[0]), wanted


@every_file
def test_events_and_remarks(key: str) -> None:
    file, told = read(key), expected(key)
    events = [(each.line, each.text, each.has_reading) for each in file.events if each.kind == "event"]
    assert events == [(each["line"], each["event"], each["has_reading"]) for each in told.get("events", ())]
    remarks = [(each.line, each.text) for each in file.events if each.kind == "remark"]
    assert remarks == [(each["line"], each["text"]) for each in told.get("remarks", ())]


WARNINGS: dict[str, list[tuple[Any, ...]]] = {
    "01": [("column without a reading", ("CH4",), ())],
    "02": [],
    # The bytes say nothing of their own encoding: that one was found by trying is always told.
    "03": [("encoding tried", (), ())],
    "04": [("readings left out", ("101 (VDC)",), (20,))],
    "05": [
        ("intervals not equal", (), ()),
        ("readings left out", ("primary", "maximum", "minimum"), (7,)),
        ("readings left out", ("average",), (7,)),
    ],
    "06": [("different units", ("Value 1", "Value 2"), ())],
    "07": [
        ("average of clipped readings", ("Ar1.Avg [°C]",), (14, 15, 16)),
        ("readings left out", ("Sp1 [°C]", "Ar1.Max [°C]"), (14, 15, 16)),
        ("readings left out", ("Sp1 [°C]",), (15,)),
    ],
    "08": [
        ("encoding tried", (), ()),
        ("repeated stamps", (), (9, 11, 13, 15)),
        ("column without a reading", ("CH2",), ()),
    ],
    "09": [],
    "10": [("readings left out", ("Sonde 1 [°C]",), (6,))],
    "11": [("over midnight", (), (4, 5))],
    "12": [
        ("text in a cell", ("T case [°C]",), (6,)),
        ("column without a reading", ("Rise [K]",), ()),
        ("formulas without values", ("Rise [K]",), ()),
    ],
}


@every_file
def test_warnings(key: str) -> None:
    assert [(each.kind, each.columns, each.lines) for each in read(key).warnings] == WARNINGS[key]


TIME: dict[str, tuple[str, str | None, str]] = {
    # kind, first as ISO 8601 or as written, who says the order of the date
    "01": ("clock", "2026-02-14T09:40:00", "file"),
    "02": ("elapsed", "00:00:00", ""),
    "03": ("clock", "2026-04-05T16:05:00", "file"),
    "04": ("clock", "2026-03-08T10:15:00.250000", "hint"),
    "05": ("clock", "2026-05-20T11:02:10", "file"),
    "06": ("clock", "2026-06-09T13:00:00", "hint"),
    "07": ("clock without date", "15:59:30.000", ""),
    "08": ("clock", "2026-09-27T09:55:00", "file"),
    "09": ("fixed offset", "2026-03-29T00:30:00+01:00", "file"),
    "10": ("clock", "2026-11-03T18:30:00", "hint"),
    "11": ("clock without date", "2026-08-06T23:46:00", ""),
    "12": ("clock", "2026-07-01T14:00:00", "file"),
}


@every_file
def test_how_the_file_tells_time(key: str) -> None:
    time, told = read(key).time, expected(key)["time"]
    first = time.first.isoformat() if time.first else time.first_text
    assert (time.kind, first, time.order_from) == TIME[key]
    wanted = str(told["first"])
    if "T" in wanted:
        assert time.first == datetime.fromisoformat(wanted)
    step = told["step_s"]
    assert time.step_s == (None if step == "unequal" else Decimal(str(step)))
    if "last" in told:
        assert time.last == datetime.fromisoformat(told["last"])
