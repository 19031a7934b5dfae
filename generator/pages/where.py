"""What "Where will you fit it?" is given: each item's hottest piece in air from cool to hot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.analysis.limits import CARRIED
from generator.charts.description import Name
from generator.charts.numerals import plain
from generator.evaluation.findings import ItemFinding, MeasureFinding
from generator.evaluation.statements import InAir, ItemOutcome, Side
from generator.evaluation.why_not import WhyNot
from generator.pages.ends import Together, counted_run, together
from generator.pages.format import (
    Both,
    Plus,
    amperes,
    as_printed,
    celsius,
    difference,
    minutes,
    quantity,
    temperature_plus,
)
from generator.pages.statements import Heated
from generator.records.schema.report import Limit

STEP = 20.0
"""The way in air that the carried part of a rise is told for, K."""
WORTH_A_WORD = frozenset({"still-rising", "too-few", "disturbed", "worsening"})
"""How a run ended, where its temperature is not the last word."""
_ENDED = frozenset({"stopped", "over-range"})
"""Why there is no mean of an item that got too hot."""


@dataclass(frozen=True)
class AirHead:
    """Air of a temperature, and whether it is the one that the report tells temperatures for."""

    air: Both
    reference: bool


@dataclass(frozen=True)
class AirCell:
    """An item in that air: its temperature, and what it says against the limit; each may be missing."""

    plus: Plus | None
    outcome: ItemOutcome | None
    leaning: Side | None


@dataclass(frozen=True)
class WhereRow:
    """One item in each air.

    Attributes:
        id: Its id, for a link to its card.
        name: Its name.
        n: Pieces that were tested, of the stock that stands.
        why_not: Why it has no mean, where a piece of it stopped or went over range: no temperature is told.
        stopped: Minutes at which its pieces were stopped.
        states: Pieces whose temperature at the mark is not the last word, by how their runs ended.
        cells: One an air.
    """

    id: str
    name: str
    n: int
    why_not: WhyNot | None
    stopped: tuple[str, ...]
    states: tuple[Together, ...]
    cells: tuple[AirCell, ...]


@dataclass(frozen=True)
class WhereView:
    """A table of items in air from cool to hot.

    Attributes:
        measure: Name of the measure, where several tell temperatures; else empty.
        mark: The time mark.
        current: The set current.
        limit: What the outcomes are against; None where the temperatures stand alone.
        standing: What the limit rests on; empty without one.
        source: Where it stands; empty without one.
        airs: The heads.
        reference: The air that the report tells temperatures for; None where nothing names one.
        because: Why that air.
        rows: The items in the report's order.
        without: Items of which no temperature is known and none was too high to be: their names, and why.
        single: Whether each of them was tested with one piece only.
        carried: Share of a rise, in percent, that it may be off by for each step of the way in air.
        step: That step.
    """

    measure: str
    mark: str
    current: str
    limit: Both | None
    standing: str
    source: str
    airs: tuple[AirHead, ...]
    reference: Both | None
    because: str
    rows: tuple[WhereRow, ...]
    without: tuple[tuple[str, WhyNot], ...]
    single: bool
    carried: str
    step: Both


def where_views(
    limits: Sequence[Limit],
    heated: Sequence[Heated],
    names: Mapping[str, Name],
    stops: Mapping[str, tuple[str, ...]],
) -> tuple[WhereView, ...]:
    """One table a temperature limit that figures can be held against, or one without a limit, a measure.

    Args:
        limits: Of the report.
        heated: Its measures of heating.
        names: Of its items.
        stops: Minutes at which pieces of each item were stopped.
    """
    views = []
    for each in heated:
        airs = next((item.airs for item in each.measure.items if item.airs), ())
        known = [item for item in each.measure.items if item.airs and not _unknown(item)]
        without = tuple(
            (names[item.item].full, item.why_not or "no-run")
            for item in each.measure.items
            if item.airs and _unknown(item)
        )
        for number in _numbers(airs):
            limit = None if number is None else limits[number]
            rows = tuple(
                _row(item, names[item.item].full, stops.get(item.item, ()), number) for item in known
            )
            views.append(_view(each, airs, limit, (rows, without), several=len(heated) > 1))
    return tuple(views)


def _numbers(airs: Sequence[InAir]) -> list[int | None]:
    """The limits that tables are made for; one without a limit where none is for the figures."""
    if not airs:
        return []
    return [number for number, *_ in airs[0].outcomes] or [None]


def _unknown(item: ItemFinding) -> bool:
    """Whether nothing is told of an item in any air, and not because it got too hot to be measured."""
    said = any(outcome != "no-figure" for each in item.airs for _, outcome, _ in each.outcomes)
    return item.why_not not in _ENDED and not said and all(each.warmest is None for each in item.airs)


def _view(
    heated: Heated,
    airs: Sequence[InAir],
    limit: Limit | None,
    told: tuple[tuple[WhereRow, ...], tuple[tuple[str, WhyNot], ...]],
    *,
    several: bool,
) -> WhereView:
    rows, without = told
    measure: MeasureFinding = heated.measure
    mark = measure.own_mark if measure.own_mark is not None else measure.at
    return WhereView(
        heated.title if several else "",
        minutes(mark) if mark is not None else "",
        amperes(measure.set_current),
        quantity(limit.value) if limit is not None else None,
        limit.standing if limit is not None else "",
        as_printed(limit.source) if limit is not None else "",
        tuple(AirHead(celsius(each.air), each.reference) for each in airs),
        quantity(heated.air.value) if heated.air is not None else None,
        heated.air.because if heated.air is not None else "",
        rows,
        without,
        all(row.n == 1 for row in rows),
        plain(round(100 * CARRIED, 2)),
        difference(STEP, 0),
    )


def _row(item: ItemFinding, name: str, stopped: tuple[str, ...], number: int | None) -> WhereRow:
    own = [piece for piece in item.pieces if piece.stock == item.stock]
    ended = item.why_not in _ENDED
    runs = [(piece.specimen, counted_run(piece)) for piece in own]
    return WhereRow(
        item.item,
        name,
        len(own),
        item.why_not if ended else None,
        stopped,
        together(
            (run.end.state, letter)
            for letter, run in runs
            if run is not None and run.end is not None and run.end.state in WORTH_A_WORD
        ),
        tuple(_cell(each, number, told=not ended) for each in item.airs),
    )


def _cell(found: InAir, number: int | None, *, told: bool) -> AirCell:
    plus = None
    if found.warmest is not None and told:
        plus = temperature_plus(found.warmest.value, found.warmest.half_width)
    said = next((each for each in found.outcomes if each[0] == number), None)
    return AirCell(plus, said[1] if said is not None else None, said[2] if said is not None else None)
