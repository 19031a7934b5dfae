"""What is told of an import: the facts for the templates, which have the words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import groupby
from pathlib import Path

from generator.fault import shown
from generator.intake.importing.entry import began_at, spans
from generator.intake.importing.events import told_time
from generator.intake.importing.plan import Plan
from generator.intake.meter.series import MeterColumn, MeterFile, MeterWarning, NotReading
from generator.pages.render import Renderer


@dataclass(frozen=True)
class ColumnView:
    """A column of readings: name, unit, where it goes (empty where nowhere), first and last value, count."""

    name: str
    unit: str
    goes: str
    first: str
    last: str
    count: int


@dataclass(frozen=True)
class NotView:
    """What stands for no reading: its lines (empty where all are meant), column, token, meaning and bound."""

    lines: str
    column: str
    token: str
    means: str
    cell: str


@dataclass(frozen=True)
class EventView:
    """What a row tells: when, its words, its line."""

    at: str
    text: str
    line: int


@dataclass(frozen=True)
class View:
    """A file as it was understood.

    Attributes:
        file: The file.
        rows: Its lines with readings, as spans.
        ignored: Its lines after the table, as spans.
        began: The first reading's time.
        step: From reading to reading; empty where it is not the same throughout.
        lasted: From the first reading to the last.
        columns: Those with readings.
        widths: Of their names, units, targets, first and last values, in signs.
        missing: What stands for no reading.
        events: What rows tell beside readings.
        other_day: The day of the first reading, where the record has another.
    """

    file: MeterFile
    rows: str
    ignored: str
    began: str
    step: str
    lasted: str
    columns: tuple[ColumnView, ...]
    widths: tuple[int, ...]
    missing: tuple[NotView, ...]
    events: tuple[EventView, ...]
    other_day: str


def view_of(plan: Plan) -> View:
    """What is told of a file."""
    file = plan.understood.file
    time = file.time
    goes = {pair.column.name: pair.slot.label for pair in plan.pairs}
    columns = tuple(_column(each, goes.get(each.name, each.mapped)) for each in file.columns)
    first, day = time.first, plan.target.record.date if plan.target else None
    return View(
        file=file,
        rows=", ".join(spans(file.lines)),
        ignored=", ".join(spans(file.ignored_lines)),
        began=began_at(time),
        step=told_time(time.step_s) if time.step_s is not None else "",
        lasted=told_time(file.elapsed_s[-1] if file.elapsed_s else Decimal(0)),
        columns=columns,
        widths=tuple(_widths(columns)),
        missing=tuple(_missing(file.not_readings)),
        events=tuple(EventView(told_time(each.elapsed_s), each.text, each.line) for each in file.events),
        other_day=first.date().isoformat() if first and day and first.date() != day else "",
    )


def preview(plan: Plan, here: Path) -> str:
    """The text for a terminal: what was understood, what was left out, what is taken from where.

    Args:
        plan: The import.
        here: The folder whose own templates come first.
    """
    text = Renderer(here).text("text/import.txt.jinja", plan=plan, view=view_of(plan))
    # What a file holds is none of our text: nothing in it may speak to the terminal.
    return "\n".join(shown(line) for line in text.split("\n"))


def outcome(plan: Plan, root: Path) -> str:
    """The text for a terminal after writing: each file and what it holds now."""
    written = [each.path.relative_to(root).as_posix() for each in plan.writes]
    seconds = plan.start.seconds
    told = {"at": told_time(abs(seconds)), "side": "before" if seconds < 0 else "after"}
    return Renderer(root).text("text/imported.txt.jinja", plan=plan, written=written, root=root, **told)


def sentences(warnings: Sequence[MeterWarning], here: Path) -> tuple[str, ...]:
    """Each warning as a sentence."""
    return tuple(Renderer(here).text("text/import_warnings.txt.jinja", warnings=warnings).splitlines())


def _column(column: MeterColumn, goes: str) -> ColumnView:
    read = [text for text in column.values if text is not None]
    unit = column.unit.typed if column.unit is not None else ""
    return ColumnView(column.name, unit, goes, read[0] if read else "", read[-1] if read else "", len(read))


def _widths(columns: Sequence[ColumnView]) -> Iterator[int]:
    for attribute in ("name", "unit", "goes", "first", "last"):
        yield max((len(getattr(each, attribute)) for each in columns), default=0)


def _missing(found: Sequence[NotReading]) -> Iterator[NotView]:
    """Those that are alike together, in the order of their first."""

    def alike(each: NotReading) -> tuple[str, str, str, str]:
        return each.column, each.token, each.means, f"{each.bound}{each.limit}" if each.limit else ""

    kinds = {key: list(group) for key, group in groupby(sorted(found, key=alike), key=alike)}
    order = dict.fromkeys(alike(each) for each in found)
    for key in order:
        lines = [each.line for each in kinds[key] if each.line is not None]
        yield NotView(", ".join(spans(lines)), *key)
