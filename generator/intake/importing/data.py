"""What is told of an import, as plain data for other programs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from generator.intake.importing.entry import began_at, digest
from generator.intake.importing.plan import Plan
from generator.intake.importing.view import sentences
from generator.intake.meter.series import MeterColumn, MeterFile, NotReading


def as_data(plan: Plan, here: Path, written: Iterable[str] = ()) -> dict[str, object]:
    """An import as data.

    Args:
        plan: The import.
        here: The folder whose own templates come first.
        written: The files that were written, relative to the bench.

    Returns:
        Times in seconds since the first reading; columns by the file's own names, each with its unit and its
        values in that unit, None where there is no reading.
    """
    file = plan.understood.file
    told = sentences(file.warnings, here)
    return {
        "format": 1,
        "file": {"name": file.name, "sha256": digest(plan.request.data), **_form(file)},
        "time": _time(file),
        "elapsed_s": [_number(each) for each in file.elapsed_s],
        "lines": list(file.lines),
        "columns": {each.name: _column(each) for each in file.columns},
        "other_columns": [{"name": each.name, "holds": each.role} for each in file.others],
        "not_readings": [_missing(each) for each in file.not_readings],
        "events": [
            {"at_s": _number(each.elapsed_s), "text": each.text, "line": each.line} for each in file.events
        ],
        "warnings": [
            {"kind": each.kind, "columns": list(each.columns), "lines": list(each.lines), "told": text}
            for each, text in zip(file.warnings, told, strict=True)
        ],
        "ignored_lines": list(file.ignored_lines),
        "settings": dict(file.settings),
        "metadata": [list(each) for each in file.metadata],
        "into": plan.target.id if plan.target else None,
        "mapped": {pair.column.name: pair.slot.label for pair in plan.pairs},
        "written": list(written),
    }


def _form(file: MeterFile) -> dict[str, Any]:
    keys = ("encoding", "delimiter", "decimal", "sheet")
    lines = ("header_line", "units_line", "first_data_line", "last_data_line")
    return {key: getattr(file, key) for key in (*keys, *lines)}


def _time(file: MeterFile) -> dict[str, Any]:
    time = file.time
    return {
        "kind": time.kind,
        "columns": list(time.columns),
        "first": time.first.isoformat() if time.first else began_at(time) or None,
        "last": time.last.isoformat() if time.last else None,
        "step_s": _number(time.step_s) if time.step_s is not None else None,
        "date_order": time.date_order,
    }


def _column(column: MeterColumn) -> dict[str, Any]:
    values: Sequence[float | None] = [None if text is None else float(text) for text in column.values]
    unit = column.unit.typed if column.unit is not None else None
    return {"unit": unit, "values": values, "line": column.line, "number": column.number}


def _missing(each: NotReading) -> dict[str, Any]:
    keys = ("line", "column", "token", "means", "bound", "limit")
    return {key: getattr(each, key) for key in keys}


def _number(value: Decimal) -> int | float:
    return int(value) if value == value.to_integral_value() else float(value)
