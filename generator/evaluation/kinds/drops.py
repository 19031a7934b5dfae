"""The readings that a drop, a resistance or a power is made of: which rows, which pairs, how warm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import electrical as formulas
from generator.analysis.repeats import Repeats, mean_of_repeats
from generator.analysis.specimens import own_spread
from generator.analysis.uncertainty import Uncertain, rectangle, total
from generator.evaluation.infrared import refused
from generator.evaluation.instruments import Indication, resolution_of, uncertain
from generator.evaluation.kinds.air import single_value
from generator.evaluation.kinds.records import Cells, Record
from generator.evaluation.kinds.task import NoFigure, Task, cells, column, step, times
from generator.evaluation.why_not import WhyNot
from generator.evaluation.worked_electrical import ReadPair

if TYPE_CHECKING:
    from generator.records.quantity import Quantity
    from generator.records.schema.electrical import ElectricalMeasure

OUTSIDE: dict[str, WhyNot] = {">": "over-range", "<": "under-range"}


@dataclass(frozen=True)
class Both:
    """A drop at a current, alive: the drop with its sign, the current by its amount."""

    drop: Uncertain
    current: Uncertain


@dataclass(frozen=True)
class Measured:
    """What lies between the probe points.

    Attributes:
        ohms: Ω, alive.
        pairs: What it is made of, as plain numbers.
        each: Row of the readings and what it gives, Ω, alive; both rows of a pair give the same.
        current: Mean of the currents, A; None where a meter told the resistance itself.
        step: Smallest step, Ω.
        time: Of the reading at the mark, s; None without one.
    """

    ohms: Uncertain
    pairs: tuple[ReadPair, ...] = ()
    each: tuple[tuple[int, Uncertain], ...] = ()
    current: float | None = None
    step: float = 0.0
    time: float | None = None

    @property
    def rows(self) -> tuple[int, ...]:
        """Rows of the readings that were used."""
        return tuple(row for row, _ in self.each)


def measured(task: Task[ElectricalMeasure]) -> Measured:
    """What a run read between the probe points.

    Raises:
        NoFigure: It read nothing that counts, went over range, or its meters state no accuracy.
    """
    value = task.run.values.get(task.measure.id)
    if value is not None:
        return _of_value(task, value)
    told = task.table.column("resistance") if task.measure.kind == "resistance" else None
    if told is not None:
        return _of_ohms(task)
    return _of_pairs(task)


def _of_value(task: Task[ElectricalMeasure], value: Quantity) -> Measured:
    if value.bound:
        raise NoFigure(OUTSIDE[value.bound])
    name = task.measure.id if task.measure.id in task.run.uses else value.quantity
    cell = Indication(name, value.quantity, value.si, value.last_digit, 0)
    read = _known(uncertain(task.ledger, task.bench, task.run, cell))
    digit = resolution_of(task.bench, task.run, cell)
    if value.quantity == "resistance":
        return Measured(read, step=digit)
    current = _said_current(task)
    return _single(task, Both(read, current), digit)


def _said_current(task: Task[ElectricalMeasure]) -> Uncertain:
    """The current that a run says among its conditions; without a meter, as the method holds it."""
    said = task.run.conditions.get("current")
    found = getattr(said, "si", None)
    if said is None or found is None or isinstance(said, str):
        raise NoFigure("no-current")
    if "current" in task.run.uses:
        digit = float(getattr(said, "last_digit", 0.0))
        cell = Indication("current", "current", float(found), digit, 0)
        return _known(uncertain(task.ledger, task.bench, task.run, cell))
    asked = task.method.conditions.get("current")
    within = getattr(asked, "within", None)
    if within is None:
        raise NoFigure("no-accuracy")
    half = within.si * (float(found) if within.quantity == "ratio" else 1.0)
    words = "current, as the method holds it"
    entry = rectangle((task.run.id, "current held"), words, half, "A", "run", source="stated by the method")
    return task.ledger.input(entry, float(found))


def _of_ohms(task: Task[ElectricalMeasure]) -> Measured:
    """A column of resistances, as a meter told them."""
    rows = _rows(task, (cells(task, "resistance"),), ("resistance",))
    numbers = [_known(_at(cells(task, "resistance"), row)) for row in rows]
    digit = _digit(task, "resistance", rows[0])
    time = times(task.table)[rows[0]] if task.measure.at is not None else None
    each = tuple(zip(rows, numbers, strict=True))
    return Measured(_mean(task, numbers, digit), each=each, step=digit, time=time)


def _of_pairs(task: Task[ElectricalMeasure]) -> Measured:
    if task.table.column("drop") is None:
        raise NoFigure("no-drop")
    drops, currents = cells(task, "drop"), cells(task, "current")
    rows = _rows(task, (drops, currents), ("drop", "current"))
    signed = any(_at(currents, row).x < 0 for row in rows)
    both = []
    for row in rows:
        drop, current = _known(_at(drops, row)), _known(_at(currents, row))
        if current.x == 0:
            raise NoFigure("no-current")
        both.append((row, Both(drop, _size(current)), (current if signed else drop).x < 0))
    return _of_rows(task, both)


def _of_rows(task: Task[ElectricalMeasure], both: Sequence[tuple[int, Both, bool]]) -> Measured:
    """Pairs of readings that were taken both ways; single ones where none was."""
    forward = [(row, each) for row, each, back in both if not back]
    back = [(row, each) for row, each, turned in both if turned]
    if task.measure.at is not None:
        forward, back = forward[:1], back[:1]
    if forward and back:
        joined = zip(forward, back, strict=False)
        found: list[tuple[tuple[int, ...], tuple[Uncertain, ReadPair]]] = [
            ((row, turned), _both_ways(one, other)) for (row, one), (turned, other) in joined
        ]
    else:
        found = [((row,), _one_way(task, read)) for row, read in forward or back]
    each = tuple((row, ohms) for rows, (ohms, _) in found for row in rows)
    used = {row for row, _ in each}
    currents = [read.current.x for row, read, _ in both if row in used]
    mean = math.fsum(currents) / len(currents)
    first = each[0][0]
    digit = _digit(task, "drop", first) / mean
    ohms = _mean(task, [number for _, (number, _) in found], digit)
    time = times(task.table)[first] if task.measure.at is not None else None
    return Measured(ohms, tuple(pair for _, (_, pair) in found), each, mean, digit, time)


def _single(task: Task[ElectricalMeasure], both: Both, digit: float) -> Measured:
    ohms, pair = _one_way(task, both)
    return Measured(ohms, (pair,), current=both.current.x, step=digit / abs(both.current.x))


def _both_ways(one: Both, other: Both) -> tuple[Uncertain, ReadPair]:
    ohms, emf = formulas.of_reversed((one.drop, one.current), (other.drop, other.current))
    back = other.drop.x, other.current.x
    return ohms, ReadPair(one.drop.x, one.current.x, back, ohms.x, emf.x)


def _one_way(task: Task[ElectricalMeasure], both: Both) -> tuple[Uncertain, ReadPair]:
    """A drop that was not read with the current reversed: thermal EMF is in it."""
    drop = _size(both.drop)
    if task.measure.emf is not None:
        words = "thermal EMF, current not reversed"
        key = (task.run.id, "thermal EMF", task.measure.emf.text)
        entry = rectangle(key, words, task.measure.emf.si, "V", "run", source="stated by the method")
        drop = drop + task.ledger.input(entry)
    ohms = formulas.resistance(drop, both.current)
    return ohms, ReadPair(drop.x, both.current.x, None, ohms.x, None)


def _mean(task: Task[ElectricalMeasure], numbers: Sequence[Uncertain], digit: float) -> Uncertain:
    of = Repeats(
        key=(task.run.id, task.measure.id),
        what="readings",
        holds=frozenset({"reading"}),
        scope="reading",
        unit="Ω",
        resolution=digit,
    )
    return mean_of_repeats(task.ledger, numbers, own_spread([each.x for each in numbers]), of)


def _rows(task: Task[ElectricalMeasure], read: Sequence[Cells], names: Sequence[str]) -> tuple[int, ...]:
    """The rows that count: all, or with a mark those within its tolerance, the nearest first."""
    table = task.table
    found = [row for row in range(table.rows) if row not in table.excluded]
    missing: WhyNot = "no-reading"
    if task.measure.at is not None:
        at, within, missing = task.mark, task.measure.within.si, "no-reading-at-mark"
        when = times(table)
        off = {row: abs(when[row] - at) for row in found}
        found = sorted((row for row in found if off[row] <= within), key=lambda row: (off[row], row))
    for name in names:
        for row in found:
            cell = column(table, name).cells[row]
            if cell is not None and cell.bound:
                raise NoFigure(OUTSIDE[cell.bound])
    rows = tuple(row for row in found if all(each[row] is not None for each in read))
    if not rows:
        raise NoFigure(missing)
    return rows if task.measure.at is None or len(read) > 1 else rows[:1]


def _digit(task: Task[ElectricalMeasure], name: str, row: int) -> float:
    read = column(task.table, name)
    cell = read.cells[row]
    value = cell.value if cell is not None else 0.0
    seen = Indication(name, read.quantity, value, step(task.table, read), row)
    return resolution_of(task.bench, task.run, seen)


def _at(read: Cells, row: int) -> Uncertain:
    found = read[row]
    if found is None:
        raise NoFigure("no-reading")
    return found


def _size(number: Uncertain) -> Uncertain:
    """A drop or a current by its amount."""
    return number if number.x >= 0 else number * -1.0


def _known(number: Uncertain) -> Uncertain:
    """A reading by a meter that states how far off it may be."""
    if number.u == 0:
        raise NoFigure("no-accuracy")
    return number


def temperature(task: Task[ElectricalMeasure], rows: Sequence[int]) -> Uncertain | None:
    """How warm the part was, °C: at the method's point, else as the air; None where neither is known.

    What an infra-red meter cannot be trusted with is not known.
    """
    point = task.measure.point
    table = task.run.readings
    if point is not None and table is not None and table.column("temperature", point) is not None:
        if refused(task.bench, task.run, f"temperature@{point}") is not None:
            return None
        read = cells(task, "temperature", point)
        known = [each for row in rows if (each := read[row]) is not None]
        return total(known) / float(len(known)) if known else None
    return None if point is not None else air(task, rows)


def air(task: Task[ElectricalMeasure], rows: Sequence[int]) -> Uncertain | None:
    """The air at some rows, °C; None where the record does not say it."""
    table = task.run.readings
    read = table.column("ambient") if table is not None else None
    if table is not None and read is not None and rows:
        found = cells(task, "ambient")
        if table.column("time") is not None:
            over = Record.of(times(table), found)
            at = times(table)[rows[0]]
            return over.at(at) if over.covers(at) else None
        known = [each for each in found if each is not None]
        return total(known) / float(len(known)) if known else None
    said = task.run.ambient
    return single_value(task, said) if said is not None else None
