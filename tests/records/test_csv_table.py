from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.fault import Fault
from generator.records.csv_table import read_csv
from generator.records.table import Table


def table(folder: Path, data: str | bytes) -> Table | tuple[Fault, ...]:
    path = folder / "readings.csv"
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return read_csv(path)


def values(found: Table | tuple[Fault, ...]) -> dict[str, list[float | None]]:
    assert isinstance(found, Table), found
    return {
        column.head.label: [None if cell is None else cell.value for cell in column.cells]
        for column in found.columns
    }


WANTED = {"time": [0.0, 120.0], "temperature@body": [21.4, 30.7], "ambient": [21.2, None]}


@pytest.mark.parametrize("sign", [",", ";", "\t", "|", " ; "])
def test_cells_are_parted_by_any_of_the_usual_signs(tmp_path: Path, sign: str) -> None:
    rows = (("time min", "temperature@body degC", "ambient degC"), ("0", "21.4", "21.2"), ("2", "30.7", ""))
    assert values(table(tmp_path, "\n".join(sign.join(row) for row in rows) + "\n")) == WANTED


def test_quotes_line_ends_and_a_byte_order_mark(tmp_path: Path) -> None:
    text = '\ufeff"time min","temperature@body degC","ambient degC"\r\n0,"21.4",21.2\r\n2,30.7,\r\n'
    assert values(table(tmp_path, text)) == WANTED


def test_an_excluded_row_keeps_its_reason_whole(tmp_path: Path) -> None:
    found = table(tmp_path, "time min,temperature degC\n0,21\n2,22 ! lid open, lead freed; nothing else\n")
    assert isinstance(found, Table)
    assert found.excluded == {1: "lid open, lead freed; nothing else"}


def test_a_fault_has_its_line_and_column_in_the_file(tmp_path: Path) -> None:
    found = table(tmp_path, "time min;temperature degC\n0;21.1\n2;21,9\n")
    assert isinstance(found, tuple)
    (fault,) = found
    assert (fault.place.line, fault.place.column, fault.place.text) == (3, 3, "2;21,9")
    assert "decimal comma" in fault.what


def test_a_decimal_comma_between_commas_is_a_row_of_too_many_cells(tmp_path: Path) -> None:
    found = table(tmp_path, "time min,temperature degC,ambient degC\n0,21.4,21.2\n5,39,9,21.3\n")
    assert isinstance(found, tuple)
    assert "this row has 4 cells, the header 3" in found[0].what


def test_bytes_that_are_no_text(tmp_path: Path) -> None:
    found = table(tmp_path, b"time min,temperature \xb0C\n0,21\n")
    assert isinstance(found, tuple)
    assert "not UTF-8" in found[0].what


@given(st.lists(st.tuples(st.integers(0, 9999), st.integers(-400, 4000)), min_size=1, max_size=20))
def test_what_is_written_is_read(
    tmp_path_factory: pytest.TempPathFactory, rows: list[tuple[int, int]]
) -> None:
    times = sorted({time for time, _ in rows})
    cells = [(time, tenth / 10) for time, (_, tenth) in zip(times, rows, strict=False)]
    text = "time s,temperature degC\n" + "".join(f"{time},{value:.1f}\n" for time, value in cells)
    found = values(table(tmp_path_factory.mktemp("csv"), text))
    assert found["time"] == [float(time) for time, _ in cells]
    assert found["temperature"] == pytest.approx([value for _, value in cells])


def test_the_header_need_not_be_the_first_line(tmp_path: Path) -> None:
    text = "\n\ntime min;temperature@body degC;ambient degC\n0;21.4;21.2\n2;30.7;\n"
    assert values(table(tmp_path, text)) == WANTED


def told(found: Table | tuple[Fault, ...]) -> list[str]:
    assert isinstance(found, tuple)
    return [each.what for each in found]


def test_a_file_that_is_no_text(tmp_path: Path) -> None:
    assert told(table(tmp_path, b"PK\x03\x04\x14\x00\x06\x00\x08\x00" + bytes(64))) == [
        "the file is no text; a program's own format cannot be read, save it from there as text"
    ]
    assert told(table(tmp_path, "time min;ambient degC\n0;21\n".encode("utf-16-le"))) == [
        "the file is UTF-16; save it as UTF-8"
    ]
    assert told(table(tmp_path, "time min;ambient degC\n0;2\x001\n")) == [
        "the file holds U+0000; take it out"
    ]


def test_a_file_that_cannot_be_opened(tmp_path: Path) -> None:
    assert told(read_csv(tmp_path / "none.csv")) == ["the file cannot be opened: no such file or directory"]


@given(st.binary(max_size=200))
def test_no_bytes_are_too_odd_to_be_told_of(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "odd.csv"
    path.write_bytes(data)
    found = read_csv(path)
    assert isinstance(found, Table) or (found and all(each.place.file == path for each in found))


def test_a_decimal_comma_in_every_cell_is_told_a_few_times_with_how_often(tmp_path: Path) -> None:
    rows = "".join(f"{minute};2{minute % 10},4;20,{minute % 10}\n" for minute in range(30))
    found = told(table(tmp_path, f"time min;temperature@body degC;ambient degC\n{rows}"))
    assert len(found) == 6
    assert found[4:] == [
        "temperature@body: a decimal comma? write 22.4; and 27 more like it",
        "ambient: a decimal comma? write 20.2; and 27 more like it",
    ]


ROWS = "time min,temperature degC,ambient degC\n0,21.4,21.2\n{}\n10,52.3,21.5\n20,60.1,21.8\n"


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("5,39,9", "temperature: a decimal comma? write 39.9, or 39.0 and 9.0 if they are two"),
        ("5,39,21", ""),
        ("5,39,22.1", ""),
        ("5,39.1,9", ""),
        ("5,39,", ""),
        ("5,39,9 ! a slip", ""),
    ],
)
def test_a_comma_that_parts_a_number_in_two(tmp_path: Path, row: str, told: str) -> None:
    found = table(tmp_path, ROWS.format(row))
    if not told:
        assert isinstance(found, Table)
        return
    assert isinstance(found, tuple)
    assert [(each.place.line, each.what) for each in found] == [(3, told)]


def test_whole_numbers_among_whole_numbers_and_other_separators_are_no_halves(tmp_path: Path) -> None:
    whole = "time min,temperature degC,ambient degC\n0,21,21\n5,39,9\n10,52,21\n"
    assert isinstance(table(tmp_path, whole), Table)
    assert isinstance(table(tmp_path, ROWS.format("5,39,9").replace(",", ";")), Table)
