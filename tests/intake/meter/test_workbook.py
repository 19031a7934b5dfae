"""Workbooks: sheets by name, times by their cells' format, formulas, errors, and what is no workbook."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence
from datetime import datetime, time, timedelta
from typing import Any

import openpyxl
import pytest

from generator.intake.meter.hints import Hints
from generator.intake.meter.reader import read_meter_file
from generator.intake.meter.series import MeterFile, Problem, Unreadable

HEAD = ("Time", "T [°C]")


def book(*sheets: tuple[str, Sequence[Sequence[Any]]], form: str = "General") -> bytes:
    made = openpyxl.Workbook()
    made.remove(made.worksheets[0])
    for title, rows in sheets:
        sheet = made.create_sheet(title)
        for row in rows:
            sheet.append(list(row))
            if form != "General":
                sheet.cell(sheet.max_row, 1).number_format = form
    kept = io.BytesIO()
    made.save(kept)
    return kept.getvalue()


def taken(data: bytes, hints: Hints | None = None) -> MeterFile:
    return read_meter_file(data, "meter.xlsx", hints or Hints())


def refused(data: bytes, hints: Hints | None = None) -> Problem:
    with pytest.raises(Unreadable) as caught:
        taken(data, hints)
    return caught.value.problems[0]


def seconds(file: MeterFile) -> list[str]:
    return [str(each) for each in file.elapsed_s]


def test_the_only_sheet_that_holds_anything_needs_no_name() -> None:
    rows = [HEAD, (datetime(2026, 7, 1, 14), 23.1), (datetime(2026, 7, 1, 14, 5), 24.0)]  # noqa: DTZ001
    file = taken(book(("Empty", []), ("Log", rows)))
    assert (file.sheet, file.column("T [°C]").values) == ("Log", ("23.1", "24"))


def test_several_sheets_are_asked_about_and_a_wrong_one_is_refused() -> None:
    rows = [HEAD, (datetime(2026, 7, 1, 14), 23.1)]  # noqa: DTZ001
    data = book(("Info", [("Test rig",)]), ("Data", rows))
    assert refused(data).settles == ('--sheet "Info"', '--sheet "Data"')
    assert refused(data, Hints(sheet="Date")).what == "there is no sheet 'Date'"
    assert taken(data, Hints(sheet="Data")).lines == (2,)


def test_times_past_a_day_are_hours_since_the_start() -> None:
    # Cells of the format [h]:mm:ss hold days; by the calendar they would be 1 January 1900.
    rows = [HEAD, (timedelta(hours=23, minutes=59), 20.1), (timedelta(hours=24, minutes=1), 20.2)]
    assert seconds(taken(book(("Log", rows), form="[h]:mm:ss"))) == ["0", "120"]
    assert seconds(taken(book(("Log", rows), form="hh:mm:ss"))) == ["0", "120"]


def test_times_of_day_pass_midnight() -> None:
    file = taken(book(("Log", [HEAD, (time(23, 59, 30), 20.1), (time(0, 0, 30), 20.2)])))
    assert seconds(file) == ["0", "60"]
    assert [each.kind for each in file.warnings] == ["over midnight"]


def test_a_serial_number_without_a_format_is_a_number_and_asked_about() -> None:
    rows = [HEAD, (46204.5833333333, 20.1), (46204.5868055556, 20.2)]
    assert "unit of the time" in refused(book(("Log", rows))).what


def test_seconds_since_the_start_as_numbers() -> None:
    rows = [("Time (s)", "T [°C]"), (0, 20.1), (0.5, 20.2), (1, 20.25)]
    file = taken(book(("Log", rows)))
    assert seconds(file) == ["0", "0.5", "1"]
    assert file.column("T [°C]").values == ("20.1", "20.2", "20.25")


def test_a_number_has_the_fifteen_digits_of_a_spreadsheet() -> None:
    file = taken(book(("Log", [("Time (s)", "T [°C]"), (0, 71.09999999999999), (1, 0.1 + 0.2), (2, 1.5e-7)])))
    assert file.column("T [°C]").values == ("71.1", "0.3", "0.00000015")


def test_a_formula_without_a_value_is_refused_where_it_is_asked_for() -> None:
    rows = [(*HEAD, "Rise [K]"), (time(14), 23.1, "=B2-20"), (time(15), 24.0, "=B3-20")]
    data = book(("Log", rows))
    file = taken(data, Hints(columns={"T [°C]": "temperature"}))
    assert file.column("Rise [K]").values == (None, None)
    problem = refused(data, Hints(columns={"Rise [K]": "temperature"}))
    assert "cell C2" in problem.what


def test_an_error_in_a_cell_is_no_reading() -> None:
    file = taken(book(("Log", [HEAD, (time(14), 23.1), (time(15), "#DIV/0!")])))
    assert [(each.line, each.token) for each in file.not_readings] == [(3, "#DIV/0!")]


def test_numbers_typed_as_text_are_read_and_told_by_their_cells() -> None:
    file = taken(book(("Log", [HEAD, (time(14), 23.1), (time(15), "64,3"), (time(16), "65,25")])))
    assert file.column("T [°C]").values == ("23.1", "64.3", "65.25")
    assert [(each.kind, each.texts) for each in file.warnings] == [("text in a cell", ("B3", "B4"))]


def test_text_that_reads_two_ways_is_refused_with_its_cell() -> None:
    data = book(("Log", [HEAD, (time(14), 23.1), (time(15), "1,234")]))
    problem = refused(data)
    assert problem.what == "cell B3: may be 1.234 or 1234"
    assert taken(data, Hints(decimal="comma")).column("T [°C]").values == ("23.1", "1.234")


def packed(parts: dict[str, bytes]) -> bytes:
    kept = io.BytesIO()
    with zipfile.ZipFile(kept, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return kept.getvalue()


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        ({"readme.txt": b"hello"}, "no workbook"),
        ({"xl/workbook.xml": b"\0" * 130_000_000}, "far larger unpacked"),
        (
            {"xl/workbook.xml": b"", **{f"xl/{number}.xml": b"" for number in range(2001)}},
            "far larger unpacked",
        ),
        ({"xl/workbook.xml": b'<!DOCTYPE x [<!ENTITY a "aa">]><workbook/>'}, "declarations"),
        ({"xl/workbook.xml": b"<workbook"}, "cannot be read"),
    ],
)
def test_what_is_no_workbook_of_readings_is_refused(parts: dict[str, bytes], told: str) -> None:
    assert told in refused(packed(parts)).what


def test_a_cell_far_off_is_refused_before_all_between_are_made() -> None:
    made = openpyxl.Workbook()
    made.worksheets[0]["XFD900000"] = 1
    kept = io.BytesIO()
    made.save(kept)
    assert "larger than any" in refused(kept.getvalue()).what
