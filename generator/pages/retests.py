"""What the drawing of a report's figures over its editions is given."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from generator.charts.looks import look_of
from generator.charts.retests import Point, RetestChart, RetestStill, Strip, retest_stills
from generator.history.figures import Figure
from generator.pages.format import Day, Plus
from generator.pages.past import Told
from generator.pages.past_views import EditionView
from generator.pages.past_words import figures_in, shown_figure
from generator.pages.shown import Shown


@dataclass(frozen=True)
class RetestRow:
    """A figure in the table beside the drawing.

    Attributes:
        edition: Number of the edition that told it first.
        day: Its day.
        reason: Why that edition was published.
        plus: The figure.
        pieces: Pieces that it rests on.
        older: Whether the item has a newer stock since.
        corrected: Whether a later edition says that it was wrong.
    """

    edition: int
    day: Day
    reason: str
    plus: Plus
    pieces: int
    older: bool
    corrected: bool


@dataclass(frozen=True)
class RetestStrip:
    """An item: the id of its drawing, its name, its figures, the drawing; None where it has one figure."""

    id: str
    name: str
    rows: tuple[RetestRow, ...]
    still: RetestStill | None


@dataclass(frozen=True)
class RetestView:
    """Everything that `fragments/retests.html.jinja` is given.

    Attributes:
        id: Id of the figure.
        title: The measure's name.
        rise: Whether figures are rises above the air.
        unit: Their unit.
        unit_us: Their US unit; empty where one serves everyone.
        first, last: Days of the first and the last edition.
        items: One an item that has a figure.
    """

    id: str
    title: str
    rise: bool
    unit: str
    unit_us: str
    first: Day
    last: Day
    items: tuple[RetestStrip, ...]

    @property
    def drawn(self) -> tuple[RetestStrip, ...]:
        """The items that an edition told anew."""
        return tuple(each for each in self.items if each.still is not None)


def retest_view(told: Told) -> RetestView | None:
    """The figures of the main measure over the editions; None where no edition has told one anew."""
    newest = _figures(told, told.editions[-1].number)
    unit = next((each.unit for each in reversed(_all(told)) if each.unit), "")
    shown = told.units.get((told.main, unit), Shown(unit))
    strips = []
    for order, (item, name) in enumerate(told.names.items()):
        stock = newest[item].stock if item in newest else ""
        points, last = _points(told, item, unit, stock, shown.factor)
        if points:
            strips.append(Strip(item, name.full, look_of(order), points, last))
    anew = tuple(each for each in strips if len(each.points) > 1)
    if not anew:
        return None
    days = {each.number: date.fromisoformat(each.day.iso).toordinal() for each in told.editions}
    drawn = retest_stills(RetestChart(shown.unit, days, anew))
    stills = {each.item: still for each, still in zip(anew, drawn, strict=True)}
    by_number = {each.number: each for each in told.editions}
    views = tuple(
        RetestStrip(f"retests-{each.item}", each.name, _rows(each, by_number, shown), stills.get(each.item))
        for each in strips
    )
    told_in = views[0].rows[0].plus
    days_of = (told.editions[0].day, told.editions[-1].day)
    return RetestView(
        "retests-drawn", told.title, shown.unit == "K", told_in.unit, told_in.unit_us, *days_of, views
    )


def _all(told: Told) -> list[Figure]:
    """Every figure of the main measure, oldest edition first."""
    editions = (told.report.editions[each.number] for each in told.editions)
    return [figure for each in editions for figure in figures_in(each) if figure.measure == told.main]


def _figures(told: Told, number: int) -> dict[str, Figure]:
    """The figures of the main measure in an edition, by item."""
    every = figures_in(told.report.editions[number])
    return {each.item: each for each in every if each.measure == told.main}


def _points(told: Told, item: str, unit: str, stock: str, factor: float) -> tuple[tuple[Point, ...], int]:
    """Figures of an item where an edition told them anew, and the last edition that tells the last."""
    points: list[Point] = []
    before: Figure | None = None
    last = 0
    for each in told.editions:
        found = _figures(told, each.number).get(item)
        if found is None or found.unrounded is None or found.unit != unit:
            continue
        last = each.number
        if before is not None and _same(before, found):
            continue
        if points and each.reason == "correction":
            points[-1] = _corrected(points[-1])
        value, half_width = (number * factor for number in found.unrounded)
        points.append(Point(each.number, value, half_width, found.pieces, found.stock != stock, False))
        before = found
    return tuple(points), last


def _same(was: Figure, now: Figure) -> bool:
    return (was.printed, was.stock, was.pieces) == (now.printed, now.stock, now.pieces)


def _corrected(point: Point) -> Point:
    return Point(point.edition, point.value, point.half_width, point.pieces, point.older, True)


def _rows(strip: Strip, editions: dict[int, EditionView], shown: Shown) -> tuple[RetestRow, ...]:
    own = Shown(shown.unit)
    return tuple(
        RetestRow(
            each.edition,
            editions[each.edition].day,
            editions[each.edition].reason,
            shown_figure(own, each.value, each.half_width),
            each.pieces,
            each.older,
            each.corrected,
        )
        for each in strip.points
    )
