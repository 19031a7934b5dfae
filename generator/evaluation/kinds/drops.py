"""The readings that a drop, a resistance or a power is made of: which rows, which pairs."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis import electrical as formulas
from generator.analysis.repeats import Repeats, mean_of_repeats
from generator.analysis.specimens import own_spread
from generator.analysis.uncertainty import Uncertain, rectangle
from generator.evaluation.instruments import Indication, resolution_of, uncertain
from generator.evaluation.kinds.records import Cells
from generator.evaluation.kinds.stated import tolerance_of
from generator.evaluation.kinds.task import NoFigure, Task, cells, column, step, times
from generator.evaluation.why_not import WhyNot
from generator.evaluation.worked_electrical import ReadPair
from generator.records.quantity import Quantity
from generator.records.schema.method import Toleranced

if TYPE_CHECKING:
    from generator.records.schema.electrical import ElectricalMeasure


class OutOfRange(NoFigure):
    """A reading lay past its meter's range, on the side that `why` names.

    `end` is what the range's own end gives; None where nothing says what was read beside it.
    """

    def __init__(self, why: WhyNot, end: Measured | None = None) -> None:
        super().__init__(why)
        self.end = end


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
        outside = _side(value.bound, value.si) if value.bound else None
        return _inside(outside, lambda: _as_said(task, value))
    told = task.table.column("resistance") if task.measure.kind == "resistance" else None
    if told is None and task.table.column("drop") is None:
        raise NoFigure("no-drop")
    name, of = ("drop", _of_pairs) if told is None else ("resistance", _of_ohms)
    near = _near(task)
    return _inside(_outside(task, name, near), lambda: of(task, near))


def _inside(outside: WhyNot | None, found: Callable[[], Measured]) -> Measured:
    """What was found, where it lay inside the meter's range."""
    if outside is None:
        return found()
    try:
        end = found()
    except NoFigure:
        raise OutOfRange(outside) from None
    raise OutOfRange(outside, end)


def _as_said(task: Task[ElectricalMeasure], value: Quantity) -> Measured:
    name = task.measure.id if task.measure.id in task.run.uses else value.quantity
    cell = Indication(name, value.quantity, value.si, value.last_digit, 0)
    read = _known(uncertain(task.ledger, task.bench, task.run, cell))
    digit = resolution_of(task.bench, task.run, cell)
    if value.quantity == "resistance":
        return Measured(read, step=digit)
    return _single(task, Both(read, _said_current(task)), digit)


def _said_current(task: Task[ElectricalMeasure]) -> Uncertain:
    """The current that a run says among its conditions; without a meter, as the method holds it."""
    said = task.run.conditions.get("current")
    if not isinstance(said, Quantity):
        raise NoFigure("no-current")
    if "current" in task.run.uses:
        cell = Indication("current", "current", said.si, said.last_digit, 0)
        return _known(uncertain(task.ledger, task.bench, task.run, cell))
    asked = task.method.conditions.get("current")
    if not isinstance(asked, Toleranced):
        raise NoFigure("no-accuracy")
    words, half = "current, as the method holds it", tolerance_of(asked)
    entry = rectangle((task.run.id, "current held"), words, half, "A", "run", source="stated by the method")
    return task.ledger.input(entry, said.si)


def _of_ohms(task: Task[ElectricalMeasure], near: Sequence[int]) -> Measured:
    """A column of resistances, as a meter told them."""
    read = _told(task, "resistance", near)
    rows = _read(task, near, (read,))[: None if task.measure.at is None else 1]
    numbers = [_known(_at(read, row)) for row in rows]
    digit = _digit(task, "resistance", rows[0])
    time = times(task.table)[rows[0]] if task.measure.at is not None else None
    each = tuple(zip(rows, numbers, strict=True))
    return Measured(_mean(task, numbers, digit), each=each, step=digit, time=time)


def _of_pairs(task: Task[ElectricalMeasure], near: Sequence[int]) -> Measured:
    drops, currents = _told(task, "drop", near), cells(task, "current")
    unknown = _outside(task, "current", near)
    if unknown:
        raise OutOfRange(unknown)
    rows = _read(task, near, (drops, currents))
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


def _near(task: Task[ElectricalMeasure]) -> tuple[int, ...]:
    """The rows that may count: all that are not excluded, or those near a mark, the nearest first."""
    table = task.table
    found = [row for row in range(table.rows) if row not in table.excluded]
    if task.measure.at is None:
        return tuple(found)
    at, within, when = task.mark, task.measure.within.si, times(table)
    off = {row: abs(when[row] - at) for row in found}
    return tuple(sorted((row for row in found if off[row] <= within), key=lambda row: (off[row], row)))


def _read(task: Task[ElectricalMeasure], near: Sequence[int], read: Sequence[Cells]) -> tuple[int, ...]:
    """Those of some rows in which everything was read."""
    rows = tuple(row for row in near if all(each[row] is not None for each in read))
    if not rows:
        raise NoFigure("no-reading" if task.measure.at is None else "no-reading-at-mark")
    return rows


def _outside(task: Task[ElectricalMeasure], name: str, near: Sequence[int]) -> WhyNot | None:
    """On which side a column left its meter's range; None where it did not."""
    found = [column(task.table, name).cells[row] for row in near]
    sides = [_side(cell.bound, cell.value) for cell in found if cell is not None and cell.bound]
    return sides[0] if sides else None


def _side(bound: str, value: float) -> WhyNot:
    """By its amount: a drop below −200 mV, the current reversed, is over the range."""
    return "over-range" if (bound == ">") == (value >= 0) else "under-range"


def _told(task: Task[ElectricalMeasure], name: str, near: Sequence[int]) -> Cells:
    """A column; where it left its meter's range in all rows on one side, where the range ends.

    Raises:
        OutOfRange: Some rows left it and others did not: nothing says what their mean lies past.
    """
    read, outside = column(task.table, name), _outside(task, name, near)
    if outside is None:
        return cells(task, name)
    seen = {row: cell for row in near if (cell := read.cells[row]) is not None}
    if any(not cell.bound or _side(cell.bound, cell.value) != outside for cell in seen.values()):
        raise OutOfRange(outside)
    digit = step(task.table, read)
    made = {
        row: uncertain(
            task.ledger, task.bench, task.run, Indication(name, read.quantity, cell.value, digit, row)
        )
        for row, cell in seen.items()
    }
    return tuple(made.get(row) for row in range(task.table.rows))


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
