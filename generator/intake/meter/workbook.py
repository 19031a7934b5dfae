"""A sheet of a workbook → the same rows of cells as a text has; times by each cell's number format."""

from __future__ import annotations

import io
import warnings
import zipfile
import zlib
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

import openpyxl
from openpyxl.utils.datetime import to_excel

from generator.intake.meter.grid import Grid, Row
from generator.intake.meter.marks import FORMULA
from generator.intake.meter.series import Problem, Unreadable

_LARGEST_PART = 120_000_000
_MOST_PARTS = 2_000
_MOST_CELLS = 4_000_000
_LATEST_DURATION = 20_000
"""Days; a serial number below it is a time since a start, above it a day since 1954."""

_DAMAGED = (zipfile.BadZipFile, zlib.error, ValueError, NotImplementedError, OSError, EOFError)
"""What the archive library raises on bytes that are no whole archive."""

_OLD = b"\xd0\xcf\x11\xe0"


def is_workbook(data: bytes) -> bool:
    """Whether the bytes are an archive, as a workbook is.

    Raises:
        Unreadable: They are a workbook of the old kind, or another program's packed file.
    """
    if data.startswith(_OLD):
        raise _refuse("a workbook of the old kind (.xls); save it as .xlsx or as CSV")
    if data.startswith((b"\x1f\x8b", b"BZh", b"\xfd7zXZ", b"7z\xbc\xaf", b"Rar!")):
        raise _refuse("the file is packed; unpack it first")
    if data.startswith(b"%PDF"):
        raise _refuse("a PDF holds no table that can be read; export the readings as CSV")
    return data.startswith(b"PK\x03\x04")


def sheet_of(data: bytes, name: str | None) -> Grid:
    """The rows of one sheet.

    Args:
        data: The workbook.
        name: The sheet's name; None where there is only one that holds anything.

    Raises:
        Unreadable: It is no workbook, is far larger unpacked than any of readings, has no such sheet, or has
            several and none is named.
    """
    _bounded(data)
    stored, written = _loaded(data, stored=True), _loaded(data, stored=False)
    filled = [sheet.title for sheet in written.worksheets if any(True for _ in _filled(sheet))]
    if name is not None and name not in written.sheetnames:
        raise _refuse(f"there is no sheet '{name}'", *(f'--sheet "{each}"' for each in filled))
    if name is None and len(filled) != 1:
        what = "the workbook has several sheets" if filled else "the workbook is empty"
        raise _refuse(what, *(f'--sheet "{each}"' for each in filled))
    title = name if name is not None else filled[0]
    if title not in {sheet.title for sheet in written.worksheets}:
        raise _refuse(f"the sheet '{title}' holds a chart alone", *(f'--sheet "{each}"' for each in filled))
    return _rows(stored[title], written[title], title, written.epoch)


def _refuse(what: str, *settles: str) -> Unreadable:
    return Unreadable([Problem(0, 0, "", what, None, settles)])


def _bounded(data: bytes) -> None:
    """Refuse an archive that is no workbook, or that would unpack to more than any workbook of readings."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = archive.infolist()
    except _DAMAGED:
        raise _refuse("the workbook is cut off or damaged") from None
    if not any(part.filename == "xl/workbook.xml" for part in parts):
        raise _refuse("the file is an archive and no workbook (.xlsx)")
    if len(parts) > _MOST_PARTS or sum(part.file_size for part in parts) > _LARGEST_PART:
        raise _refuse("the workbook is far larger unpacked than any of readings; save the sheet as CSV")
    if any(part.flag_bits & 1 for part in parts):
        raise _refuse("the workbook is locked; save it without a password")
    _undeclared(data)


def _undeclared(data: bytes) -> None:
    """Refuse a workbook that declares entities: no spreadsheet writes them, and they unfold without end."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            for part in archive.infolist():
                if part.filename.endswith((".xml", ".rels")) and b"<!DOCTYPE" in archive.read(part):
                    raise _refuse("the workbook holds declarations that no spreadsheet writes")
    except _DAMAGED:
        raise _refuse("the workbook is cut off or damaged") from None


def _loaded(data: bytes, *, stored: bool) -> Any:
    try:
        with warnings.catch_warnings():
            # What a spreadsheet's styles and drawings lack is nothing to a reading.
            warnings.simplefilter("ignore")
            return openpyxl.load_workbook(io.BytesIO(data), data_only=stored)
    except Exception as error:  # noqa: BLE001 - the library raises many kinds on a damaged workbook
        raise _refuse(f"the workbook cannot be read: {type(error).__name__}") from None


def _filled(sheet: Any) -> Any:
    if sheet.max_row * sheet.max_column > _MOST_CELLS:
        raise _refuse(f"the sheet '{sheet.title}' is larger than any of readings; save it as CSV")
    return (cell for row in sheet.iter_rows() for cell in row if cell.value is not None)


def _rows(stored: Any, written: Any, title: str, epoch: datetime) -> Grid:
    rows: list[Row] = []
    texts: set[tuple[int, int]] = set()
    for number, (values, formulas) in enumerate(zip(stored.iter_rows(), written.iter_rows(), strict=True), 1):
        cells = []
        for place, (cell, formula) in enumerate(zip(values, formulas, strict=True)):
            lost = formula.data_type == "f" and cell.value is None
            cells.append(FORMULA if lost else _text(cell.value, epoch))
            if isinstance(cell.value, str):
                texts.add((number, place))
        rows.append(Row(number, tuple(cells)))
    return Grid(tuple(rows), (), "", frozenset(texts), title)


def _text(value: object, epoch: datetime) -> str:
    """A cell's value as a text file would have it; numbers to the fifteen digits that a spreadsheet holds."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return _plain(f"{value:.15g}")
    if isinstance(value, datetime | date | time | timedelta):
        return _time(value, epoch)
    return " ".join(str(value).split())


def _plain(number: str) -> str:
    """Without an exponent, where the number is of a size that readings have."""
    if "e" not in number:
        return number
    exact = Decimal(number)
    return f"{exact:f}" if abs(exact.adjusted()) < 15 else number


def _time(value: datetime | date | time | timedelta, epoch: datetime) -> str:
    """By the serial number behind it: a day and its time, or hours since a start, however many."""
    serial = Decimal(repr(float(to_excel(value, epoch))))  # type: ignore[no-untyped-call]
    milliseconds = int((serial * 86_400_000).to_integral_value())
    if serial < _LATEST_DURATION:
        return _clock(milliseconds)
    days, rest = divmod(milliseconds, 86_400_000)
    day = date.fromordinal(epoch.toordinal() + days)
    return f"{day.isoformat()} {_clock(rest)}" if rest else f"{day.isoformat()} 00:00:00"


def _clock(milliseconds: int) -> str:
    seconds, part = divmod(milliseconds, 1000)
    minutes, second = divmod(seconds, 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours:02d}:{minute:02d}:{second:02d}" + (f".{part:03d}" if part else "")
