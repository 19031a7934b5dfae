"""What every reduction of a run with readings works on: the task, its columns, and why there is no figure."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from generator.analysis.radiation import NoTemperature
from generator.analysis.uncertainty import Ledger, Uncertain
from generator.evaluation.instruments import Reader, Source
from generator.evaluation.kinds.records import Cells
from generator.evaluation.why_not import WhyNot

if TYPE_CHECKING:
    from generator.records.bench import Bench
    from generator.records.cells import Cell
    from generator.records.run import Run
    from generator.records.schema.method import Method
    from generator.records.table import Column, Table

MeasureOfKind = TypeVar("MeasureOfKind")

MISSING: dict[tuple[str, str], WhyNot] = {
    ("ambient", ""): "no-ambient",
    ("current", ""): "no-current",
}
"""Why there is no figure where a column is missing, by its name and point."""


class NoFigure(Exception):
    """The run gives no figure by this measure; `why` says why."""

    def __init__(self, why: WhyNot) -> None:
        self.why: WhyNot = why
        super().__init__(why)


@dataclass(frozen=True)
class LeadOfControls:
    """What controls that are the lead alone say of it.

    Attributes:
        metre: Resistance of a metre at 20 °C, Ω/m, alive, the error of each control's own length in it.
        lengths: How long the lead was in them, m, each once.
    """

    metre: Uncertain
    lengths: tuple[float, ...]


@dataclass(frozen=True)
class Given:
    """What other runs of the report bring to a reduction.

    Attributes:
        control_tau: Time constant of the nearest control, s; None without one.
        mark: The longest time mark that all completed runs reach, s, where that is not the method's.
        lead: A metre of lead by the controls that are the lead alone; None without one.
    """

    control_tau: float | None = None
    mark: float | None = None
    lead: LeadOfControls | None = None


@dataclass(frozen=True)
class Task(Generic[MeasureOfKind]):
    """What a reduction works on.

    Attributes:
        ledger: The report's inputs.
        bench: Its instruments.
        run: The run.
        method: The version that it was made by.
        measure: The measure, of the kind that reduces it.
        given: What other runs bring to it.
    """

    ledger: Ledger
    bench: Bench
    run: Run
    method: Method
    measure: MeasureOfKind
    given: Given = field(default_factory=Given)

    @property
    def table(self) -> Table:
        """The run's readings; NoFigure where it has none."""
        if self.run.readings is None:
            raise NoFigure("no-run")
        return self.run.readings

    @property
    def mark(self) -> float:
        """The time mark of a heating measure, s: the one that the runs share, else the method's."""
        at: float = getattr(self.measure, "at").si  # noqa: B009
        return at if self.given.mark is None else self.given.mark

    @property
    def owner(self) -> str:
        """Id of the item or of the control."""
        return self.run.item or self.run.control


def column(table: Table, name: str, point: str = "") -> Column:
    """A column by name and point; NoFigure where the run has none."""
    found = table.column(name, point)
    if found is None:
        raise NoFigure(MISSING.get((name, point), "no-run"))
    return found


def times(table: Table) -> list[float]:
    """Times of all rows, s."""
    return [cell.value for cell in column(table, "time").cells if cell is not None]


def counted(table: Table, read: Column) -> list[Cell]:
    """The cells of a column that are neither empty nor excluded."""
    return table.counted(read)


def counting(table: Table, read: Column) -> list[Cell | None]:
    """A column row by row; None where it is empty, a bound or excluded."""
    return [
        None if cell is None or cell.bound or row in table.excluded else cell
        for row, cell in enumerate(read.cells)
    ]


def step(table: Table, read: Column) -> float:
    """One step of a column's last digit as written, in SI; the finest of its cells."""
    return table.last_digit(read)


def cells(task: Task[Any], name: str, point: str = "") -> Cells:
    """A column of the readings as uncertain numbers; NoFigure where the run has none."""
    return cells_of(task, task.table, column(task.table, name, point))


def cells_of(task: Task[Any], table: Table, read: Column, of: str = "") -> Cells:
    """A column of a table of the run as uncertain numbers; excluded rows, bounds and empty cells are None.

    What an infra-red meter showed is the temperature of the surface behind it.

    Args:
        task: The run.
        table: Its readings or another of its tables.
        read: The column.
        of: Which table it is, where it is not the readings.

    Raises:
        NoFigure: No surface can have made an infra-red meter show one of them.
    """
    key = f"{read.name}@{read.point}" if read.point else read.name
    last = step(table, read)

    def made() -> Cells:
        reader = Reader(task.ledger, task.bench, task.run, Source(key, read.quantity, last, of))
        try:
            return tuple(
                None if cell is None else reader.uncertain(cell.value, row)
                for row, cell in enumerate(counting(table, read))
            )
        except NoTemperature as none:
            raise NoFigure("no-such-surface") from none

    return task.ledger.once(("cells", task.run.id, of, key), made)
