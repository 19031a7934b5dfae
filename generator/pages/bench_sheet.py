"""A bench sheet to print: cautions first, then steps, order and tables to fill in by hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.charts.numerals import NO_BREAK
from generator.evaluation.planned import Plan
from generator.pages.format import Both, as_printed, quantity, times
from generator.pages.method import Condition, conditions_of
from generator.pages.plan import plan_view
from generator.pages.render import Renderer
from generator.records.bench import Bench
from generator.records.schema.electrical import ElectricalBase
from generator.records.schema.measures import CheckMeasure, CountMeasure, HeatingMeasure, ScalarMeasure
from generator.records.schema.method import Method, Point

PAIRS = 3
"""Rows of a table without times, each way: common practice, no source."""

ROOM = 7
"""Signs that a number written by hand takes at least."""


@dataclass(frozen=True)
class Sheet:
    """What a sheet has of its method.

    Attributes:
        stop_limit: Where a run is stopped; None without.
        conditions: What must be so.
        points: Where temperatures are read.
        steps: What is done, in order.
        times: When to read; empty without a schedule.
        table: Lines of the empty table of a run; empty without one.
        both_ways: Whether it has a row for each direction of the current.
        singles: What is one number a run.
        counts: What is counted.
        checks: Questions that a look answers.
    """

    stop_limit: Both | None
    conditions: tuple[Condition, ...]
    points: tuple[PointOnSheet, ...]
    steps: tuple[str, ...]
    times: str
    table: tuple[str, ...]
    both_ways: bool
    singles: tuple[str, ...]
    counts: tuple[str, ...]
    checks: tuple[str, ...]


@dataclass(frozen=True)
class PointOnSheet:
    """A place where a temperature is read."""

    name: str
    where: str
    held_by: str


def bench_sheet(bench: Bench, plan: Plan) -> str:
    """The sheet of a plan as Markdown that is as readable unrendered."""
    view, sheet = plan_view(bench, plan), sheet_of(bench, plan.method)
    text = Renderer(bench.root).text("text/bench-sheet.md.jinja", view=view, sheet=sheet)
    return text.replace(NO_BREAK, " ")


def sheet_of(bench: Bench, method: Method) -> Sheet:
    """What a sheet has of a method; units are those of the bench's own meters."""
    electrical = [each for each in method.measures if isinstance(each, ElectricalBase)]
    marked = any(each.at is not None for each in electrical)
    over_time = marked or any(isinstance(each, HeatingMeasure) for each in method.measures)
    schedule, both_ways = method.schedule or (), any(each.supply == "dc" for each in electrical)
    table: tuple[str, ...] = ()
    if over_time and schedule:
        heads = (_with_unit("time", schedule[0].unit.typed), *_heads(bench, method))
        table = _table([time.text.split()[0] for time in schedule], heads)
    elif both_ways:
        table = _table(("+", "\N{MINUS SIGN}") * PAIRS, ("way", *_heads(bench, method)))
    elif electrical:
        table = _table([str(number + 1) for number in range(PAIRS)], ("reading", *_heads(bench, method)))
    return Sheet(
        stop_limit=quantity(method.stop_limit) if method.stop_limit else None,
        conditions=conditions_of(method),
        points=tuple(_point(name, point) for name, point in method.points.items()),
        steps=tuple(as_printed(step.text) for step in method.steps),
        times=times(schedule) if schedule else "",
        table=table,
        both_ways=both_ways and not over_time,
        singles=tuple(
            _with_unit(each.name or each.id, _unit(bench, each.quantity))
            for each in method.measures
            if isinstance(each, ScalarMeasure)
        ),
        counts=tuple(each.what for each in method.measures if isinstance(each, CountMeasure)),
        checks=tuple(each.question for each in method.measures if isinstance(each, CheckMeasure)),
    )


def _point(name: str, point: Point) -> PointOnSheet:
    return PointOnSheet(name, point.where, point.held_by)


def _heads(bench: Bench, method: Method) -> Iterator[str]:
    """The columns of a run behind its times, named as its record names them."""
    for point in method.points:
        yield _with_unit(f"temperature@{point}", _unit(bench, "temperature"))
    yield _with_unit("ambient", _unit(bench, "temperature"))
    for name, measured in (("current", "current"), ("drop", "voltage")):
        yield _with_unit(name, _unit(bench, measured))


def _unit(bench: Bench, measured: str) -> str:
    """The unit that a meter of the bench shows a quantity in; empty where none reads it."""
    ranges = (found for _, meter in sorted(bench.instruments.items()) for found in meter.range_of(measured))
    first = next(ranges, None)
    return "" if first is None else first.to.unit.typed


def _with_unit(name: str, unit: str) -> str:
    return f"{name} {unit}" if unit else name


def _table(firsts: Sequence[str], heads: Sequence[str]) -> tuple[str, ...]:
    """A table with its times and room to write."""
    widths = [max(len(head), ROOM) for head in heads]
    rows = [list(heads), ["-" * width for width in widths]]
    rows += [[first, *([""] * (len(heads) - 1))] for first in firsts]
    return tuple(_line(row, widths) for row in rows)


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    padded = (cell.ljust(width) for cell, width in zip(cells, widths, strict=True))
    return f"| {' | '.join(padded)} |"
