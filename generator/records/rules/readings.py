"""Runs and their readings: points of the method, the mark reached or the stop said, the air said once."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from generator.fault import Fault
from generator.records.conditions import AIR_MEASURED, AMBIENT, Conditions, read_conditions
from generator.records.drafts import Draft
from generator.records.library import Library
from generator.records.rules.common import absent, plainly
from generator.records.schema.measures import HOTTEST, HeatingMeasure, ScalarMeasure
from generator.records.schema.method import Method
from generator.records.table import Column, Table


def check(draft: Draft, library: Library) -> Iterator[Fault]:
    """The readings of a run against its method."""
    method = library.method(draft.body.method.id, draft.body.method.version)
    if method is None:
        return
    table = draft.table
    if table is not None:
        yield from _points(draft, table, method)
        yield from _scalars(draft, table, method)
    heating = [each for each in method.measures if isinstance(each, HeatingMeasure)]
    if heating and table is not None:
        yield from _series(draft, table, method, heating)
        yield from _air(draft, table, read_conditions(draft, method))
        yield from _current(draft, table)
    yield from _stopped(draft, method)
    yield from _events(draft)


def _readings(draft: Draft) -> str:
    return draft.record.path_of("readings")


def _points(draft: Draft, table: Table, method: Method) -> Iterator[Fault]:
    for column in table.columns:
        if column.name != "temperature":
            continue
        if column.point and column.point not in method.points:
            yield absent(
                f"{draft.body.method} has no point",
                column.point,
                method.points,
                column.place,
                _readings(draft),
            )
        elif not column.point and method.points:
            known = tuple(f"temperature@{point}" for point in method.points)
            yield Fault(column.place, _readings(draft), "missing: at which point", "temperature", known)


def _scalars(draft: Draft, table: Table, method: Method) -> Iterator[Fault]:
    """A table of a scalar measure needs a word on how it becomes one figure."""
    names = {column.name for column in table.columns}
    for measure in method.measures:
        if not isinstance(measure, ScalarMeasure) or not names & {measure.id, measure.quantity}:
            continue
        for column in table.columns:
            if column.name == measure.id and column.quantity != measure.quantity:
                what = f"'{measure.id}' is {plainly(measure.quantity)}; this is {plainly(column.quantity)}"
                yield Fault(column.place, _readings(draft), what, column.unit.symbol)
        if measure.id in draft.body.values:
            what = "given twice: here and in the readings; leave out one of the two"
            yield draft.body.fault_of_key(("values", measure.id), what)
        elif measure.reduce is None and not any(isinstance(m, HeatingMeasure) for m in method.measures):
            what = (
                f"{draft.body.method} does not say how readings of '{measure.id}' become one figure; "
                "give one value under `values`"
            )
            yield draft.record.fault(("readings",), what)


def _series(draft: Draft, table: Table, method: Method, heating: list[HeatingMeasure]) -> Iterator[Fault]:
    times = table.column("time")
    if times is None:
        yield draft.record.fault(("readings",), "missing: the column 'time', the first of the table")
        return
    hot = [each for each in table.columns if each.name == "temperature"]
    told_elsewhere = not draft.reads_itself or any(each.point not in method.points for each in hot)
    yield from _beyond(draft, times, method, max(each.within.si for each in heating))
    for measure in heating:
        wanted = [each for each in hot if measure.point in {HOTTEST, each.point}]
        if not wanted and (told_elsewhere or measure.point not in {HOTTEST, *method.points}):
            continue
        if not wanted:
            what = f"missing: the column '{_column(draft, measure)}', which '{measure.id}' is told for"
            yield draft.record.fault(("readings",), what)
            continue
        last = max((_last(table, times, each) for each in wanted), default=-1.0)
        if draft.body.stopped is None and not draft.waits and last < measure.at.si - measure.within.si:
            what = (
                f"the readings{_of(draft)} end at {_minutes(last)}, before the mark of '{measure.id}' at "
                f"{measure.at.text}; say `stopped` with when and why, if they end there"
            )
            yield draft.record.fault(("readings",), what)


def _of(draft: Draft) -> str:
    """Whose readings, where a table holds those of several runs."""
    return f" of {draft.owner}" if draft.owner else ""


def _column(draft: Draft, measure: HeatingMeasure) -> str:
    return f"{draft.owner or 'temperature'}@{measure.point}"


def _beyond(draft: Draft, times: Column, method: Method, within: float) -> Iterator[Fault]:
    if method.schedule is None:
        return
    end = method.schedule[-1]
    late = [cell for cell in times.cells if cell is not None and cell.value > end.si + within]
    if late:
        what = f"readings go on to {_minutes(late[-1].value)}, and the schedule ends at {end.text}"
        yield draft.record.doubt(("readings",), what)


def _last(table: Table, times: Column, hot: Column) -> float:
    """Time of the last reading that counts, s; −1 where there is none."""
    found = [
        time.value
        for row, (time, cell) in enumerate(zip(times.cells, hot.cells, strict=True))
        if time is not None and cell is not None and row not in table.excluded
    ]
    return max(found, default=-1.0)


def _minutes(seconds: float) -> str:
    return f"{seconds / 60.0:g} min" if seconds >= 0.0 else "no time at all"


def _air(draft: Draft, table: Table, said: Conditions) -> Iterator[Fault]:
    column = table.column(AMBIENT)
    if column is not None and said.node is not None:
        what = "the air is said twice: here and in a column of the readings"
        yield Fault(said.node.place, said.node.path, what)
    elif said.faults:
        return
    elif column is None and said.mode == "none":
        what = "the air is not said, so this run gives a temperature and no rise"
        yield draft.record.doubt(("conditions", AMBIENT), what)
    elif AIR_MEASURED not in said.said and said.mode != "first reading":
        what = "where the air was read is not said, as 'beside the box'"
        yield draft.record.doubt(("conditions", AIR_MEASURED), what)


def _current(draft: Draft, table: Table) -> Iterator[Fault]:
    said = any("current" in mapping for mapping in draft.conditions)
    if table.column("current") is None and not said:
        what = "no column 'current', so the rise cannot be told for the set current"
        yield draft.record.doubt(("readings",), what)


def _stopped(draft: Draft, method: Method) -> Iterator[Fault]:
    stopped = draft.body.stopped
    if stopped is None:
        return
    if stopped.because == "stop limit" and method.stop_limit is None:
        what = f"{draft.body.method} has no stop limit"
        others = ("smoke", "part failed", "rig", "other")
        yield stopped.fault(("because",), what, stopped.because, others)
    times = draft.table.column("time") if draft.table else None
    if draft.table is None or times is None:
        return
    own = [each for each in draft.table.columns if each.name == "temperature"]
    last = max((_last(draft.table, times, each) for each in own), default=-1.0)
    if last > stopped.at.si:
        what = f"stopped at {stopped.at.text}, and the readings go on to {_minutes(last)}"
        yield stopped.fault(("at",), what)
    missed = [each for each in method.schedule or () if last < each.si < stopped.at.si]
    if missed:
        what = (
            f"stopped at {stopped.at.text}, and the last reading is of {_minutes(last)}; "
            f"the schedule has one at {missed[0].text} in between"
        )
        yield stopped.doubt(("at",), what)


def _events(draft: Draft) -> Iterator[Fault]:
    for earlier, later in pairwise(draft.body.events):
        if later.at.si < earlier.at.si:
            what = f"events stand in order of time; {earlier.at.text} stands before this one"
            yield later.fault(("at",), what)
