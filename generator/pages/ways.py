"""What is told of the way to a figure: steps with the numbers put in, for the words of the templates."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.pages.budgets import BudgetRow
from generator.pages.format import Day


@dataclass(frozen=True)
class Step:
    """One step: which, and the numbers that it puts in; the words are the templates'."""

    code: str
    numbers: Mapping[str, str]


@dataclass(frozen=True)
class Result:
    """A figure with its uncertainty, before and after rounding.

    Attributes:
        value: To more digits than are told.
        deviation: Standard uncertainty.
        dof: Effective degrees of freedom; empty where infinite.
        factor: Coverage factor.
        half_width: Half-width of the 95 % interval, to more digits than are told.
        rounded: Value as told.
        rounded_half_width: ± as told.
        unit: Of all of them.
    """

    value: str
    deviation: str
    dof: str
    factor: str
    half_width: str
    rounded: str
    rounded_half_width: str
    unit: str


@dataclass(frozen=True)
class ReadingRow:
    """One reading: minutes, °C, °C, A, °C of the surface seen, K of rise as corrected; empty without."""

    time: str
    temperature: str
    air: str
    current: str
    surface: str
    rise: str
    excluded: str


@dataclass(frozen=True)
class RunWay:
    """The way to the figure of one run.

    Attributes:
        run: Its id.
        name: Of its item or control.
        piece: Letter of its piece; empty for a control.
        day: Its day.
        method: Id and version.
        readings: Its readings; none for a kind without a series.
        steps: From its readings to its figure, and how it ended.
        result: The figure; None without one.
        why_not: Why there is none; empty with one.
        rows: The budget of its figure.
        counted: Whether its piece stands by it, alone or with others.
        mean_of: How many runs its piece stands by the mean of; 1 where it stands by one.
        beside: What is made of its figure beside it.
        heating: Which heating of its piece it was; 0 where none is counted.
    """

    run: str
    name: str
    piece: str
    day: Day
    method: str
    readings: tuple[ReadingRow, ...]
    steps: tuple[Step, ...]
    result: Result | None
    why_not: str
    rows: tuple[BudgetRow, ...]
    counted: bool
    mean_of: int = 1
    beside: tuple[Step, ...] = ()
    heating: int = 0

    @property
    def seen(self) -> bool:
        """Whether an infra-red meter read it, so that its readings have a surface behind them."""
        return any(each.surface for each in self.readings)


@dataclass(frozen=True)
class ItemWay:
    """The way to the figure of one item by one measure.

    Attributes:
        id: Id of the item.
        name: Its name.
        measure: Id of the measure.
        runs: Its runs, piece by piece.
        steps: From the pieces to the figure, against limits, over controls.
        result: The figure; None without one.
        why_not: Why there is none; empty with one.
        rows: The budget of its figure.
        whole: Whether there is more to tell than its runs: of controls there is not.
    """

    id: str
    name: str
    measure: str
    runs: tuple[RunWay, ...]
    steps: tuple[Step, ...]
    result: Result | None
    why_not: str
    rows: tuple[BudgetRow, ...]
    whole: bool = True


@dataclass(frozen=True)
class TallyRun:
    """What one run counted or answered, and whether it is in what is said of its item."""

    run: str
    piece: str
    day: Day
    said: Step
    counted: bool


@dataclass(frozen=True)
class TallyWay:
    """The way to an item's share by one count or question.

    Attributes:
        id: Id of the item.
        name: Its name.
        measure: Id of the measure.
        method: Id of the method.
        runs: Its runs, piece by piece.
        steps: From the runs to the share with its interval; empty where none of them is in it.
    """

    id: str
    name: str
    measure: str
    method: str
    runs: tuple[TallyRun, ...]
    steps: tuple[Step, ...]
