"""What the table of meters is given: what each read, how far off it may be, and how that is known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.charts.numerals import numeral
from generator.evaluation.agreements import side_by_side
from generator.pages.format import Both, Day, as_printed, day, narrow, narrow_difference, quantity
from generator.records.quantity import Quantity
from generator.records.run import Run
from generator.records.schema.instrument import Instrument
from generator.records.units import TEMPERATURE


@dataclass(frozen=True)
class Reads:
    """What a meter read: the column, its point, and each channel with its probe (empty where it has none)."""

    column: str
    point: str
    channels: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Calibrated:
    """A calibration: when, by whom, its certificate."""

    day: Day
    by: str
    certificate: str


@dataclass(frozen=True)
class BesideView:
    """What a meter and another read of one thing, each within what it states, and E_n.

    Attributes:
        other: Name of the other meter.
        read: What the meter read.
        within: Its expanded uncertainty.
        other_read: What the other read.
        other_within: Its expanded uncertainty.
        number: |E_n|, as text.
        agree: Whether it is at most 1.
        bare: Names of those of the two whose probe is not in it.
    """

    other: str
    read: Both
    within: Both
    other_read: Both
    other_within: Both
    number: str
    agree: bool
    bare: tuple[str, ...] = ()


@dataclass(frozen=True)
class CheckView:
    """The reviewer's own check of a meter; `beside` where another meter stood beside it."""

    day: Day
    what: str
    found: str
    beside: BesideView | None


@dataclass(frozen=True)
class Meter:
    """One meter.

    Attributes:
        id: Its id, by which the budgets name it.
        name: What it is.
        made: Maker, model and serial number, as far as stated.
        reads: What it read.
        accuracies: Quantity and stated accuracy of each range used.
        calibrations: Its calibrations, oldest first; none where it never was.
        checks: The reviewer's own checks.
    """

    id: str
    name: str
    made: str
    reads: tuple[Reads, ...]
    accuracies: tuple[tuple[str, str], ...]
    calibrations: tuple[Calibrated, ...]
    checks: tuple[CheckView, ...]


def meters_of(runs: tuple[Run, ...], instruments: Mapping[str, Instrument]) -> tuple[Meter, ...]:
    """The meters of some runs, in order of their ids.

    Args:
        runs: The runs.
        instruments: All of the bench: one may have been read beside another.
    """
    used = sorted({use.instrument for run in runs for use in run.uses.values()})
    return tuple(_meter(key, instruments, runs) for key in used)


def _meter(key: str, instruments: Mapping[str, Instrument], runs: tuple[Run, ...]) -> Meter:
    instrument = instruments[key]
    made = (instrument.maker, instrument.model, instrument.serial)
    return Meter(
        key,
        instrument.name,
        " ".join(part for part in made if part),
        _reads(key, runs),
        tuple((each.quantity, as_printed(each.accuracy.text)) for each in instrument.ranges if each.accuracy),
        tuple(
            Calibrated(day(each.date), each.by, each.certificate or "") for each in instrument.calibrations
        ),
        tuple(_checks(key, instruments)),
    )


def _checks(key: str, instruments: Mapping[str, Instrument]) -> Iterator[CheckView]:
    beside = {each.number: each for each in side_by_side(instruments, key)}
    for number, check in enumerate(instruments[key].checks):
        found, other = beside.get(number), check.beside
        view = None
        if found is not None and check.read is not None and other is not None:
            view = BesideView(
                instruments[found.other].name,
                quantity(check.read),
                _size(found.first_within, check.read),
                quantity(other.read),
                _size(found.second_within, other.read),
                numeral(abs(found.found.number), 2),
                found.found.agree,
                tuple(instruments[each].name for each in found.bare),
            )
        yield CheckView(day(check.date), as_printed(check.what), as_printed(check.found), view)


def _size(within: float, like: Quantity) -> Both:
    """A half-width in the unit of a reading; of temperatures a difference."""
    if like.quantity == TEMPERATURE:
        return narrow_difference(within)
    return narrow(within / like.unit.factor, like.unit.symbol)


def _reads(key: str, runs: tuple[Run, ...]) -> tuple[Reads, ...]:
    columns: dict[str, set[tuple[str, str]]] = {}
    for run in runs:
        for column, use in run.uses.items():
            if use.instrument == key:
                columns.setdefault(column, set()).add((use.channel or "", use.probe or ""))
    return tuple(
        Reads(name, point, tuple(sorted(columns[column])))
        for column in sorted(columns)
        for name, _, point in [column.partition("@")]
    )
