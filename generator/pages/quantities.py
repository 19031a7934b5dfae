"""What the table of a measure without a series is given: one row an item, with its figure and its pieces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding
from generator.evaluation.statements import Better
from generator.pages.figures import About, ControlFigure
from generator.pages.format import Plus
from generator.pages.older import OlderView
from generator.pages.pieces import PiecesView, pieces_view
from generator.pages.shown import Shown


@dataclass(frozen=True)
class PieceCell:
    """One piece of the stock that stands: its figure, or why it has none, and how many runs it rests on."""

    letter: str
    plus: Plus | None
    why_not: str
    runs: int


@dataclass(frozen=True)
class QuantityRow:
    """One item.

    Attributes:
        id: Id of the item, for links to its card.
        name: Maker and model.
        stock: Name of its stock; empty where there is one only.
        plus: Its figure; None without one.
        why_not: Why there is none; empty with one.
        rests: Pieces and runs that it rests on, and what the pieces tell beside it.
        meter_only: Whether the ± is the meter's alone.
        alike: Names of the items that it could not be told from.
        pieces: Its pieces.
        older: Its results from before, the newest first.
    """

    id: str
    name: str
    stock: str
    plus: Plus | None
    why_not: str
    rests: PiecesView
    meter_only: bool
    alike: tuple[str, ...]
    pieces: tuple[PieceCell, ...]
    older: tuple[OlderView, ...] = ()


@dataclass(frozen=True)
class QuantityView:
    """Everything that `fragments/quantity.html.jinja` is given.

    Attributes:
        measure: Id of the measure.
        title: Its name.
        better: Which way is better; None where neither is.
        rows: The better figures first, those without one last; in the report's order where neither way is
            better.
        controls: Figures of the controls.
    """

    measure: str
    title: str
    better: Better | None
    rows: tuple[QuantityRow, ...]
    controls: tuple[ControlFigure, ...]

    @property
    def known(self) -> Plus | None:
        """One of its figures, for their unit; None where there is none."""
        figures = (plus for row in self.rows for plus in (row.plus, *(piece.plus for piece in row.pieces)))
        return next((each for each in figures if each is not None), None)


def quantity_view(measure: MeasureFinding, title: str, about: About, shown: Shown) -> QuantityView:
    """From the findings of a measure to what its table is given."""
    items = sorted(measure.items, key=lambda each: _order(each, measure.better))
    return QuantityView(
        measure.measure,
        title,
        measure.better,
        tuple(_row(each, measure, about, shown) for each in items),
        _controls(measure, about, shown),
    )


def _controls(measure: MeasureFinding, about: About, shown: Shown) -> tuple[ControlFigure, ...]:
    by_name: dict[str, list[Plus]] = {}
    for each in measure.controls:
        if each.figure is not None:
            told = shown.plus(each.figure.value, each.figure.half_width)
            by_name.setdefault(about.names[each.item], []).append(told)
    return tuple(ControlFigure(name, tuple(figures)) for name, figures in by_name.items())


def _alike(measure: MeasureFinding, item: str) -> tuple[str, ...]:
    """Items that this one could not be told from."""
    return tuple(
        pair.second if pair.first == item else pair.first
        for pair in measure.pairs
        if item in {pair.first, pair.second} and pair.known and not pair.shown
    )


def _order(item: ItemFinding, better: Better | None) -> tuple[bool, float, int]:
    if item.figure is None or better is None:
        return item.figure is None, 0.0, item.order
    return False, item.figure.value if better == "lower" else -item.figure.value, item.order


def _row(item: ItemFinding, measure: MeasureFinding, about: About, shown: Shown) -> QuantityRow:
    found = item.figure
    return QuantityRow(
        item.item,
        about.names[item.item],
        about.stocks[item.item],
        shown.figure(found),
        item.why_not or "",
        pieces_view(item, shown, measure),
        found is not None and item.n == 1 and item.spread.origin == "none",
        tuple(about.names[other] for other in _alike(measure, item.item)),
        tuple(_piece(each, shown) for each in item.pieces if each.stock == item.stock),
        about.older.get(item.item, ()),
    )


def _piece(piece: PieceFinding, shown: Shown) -> PieceCell:
    found = piece.figure
    reasons: Mapping[str, None] = dict.fromkeys(run.why_not for run in piece.runs if run.why_not)
    return PieceCell(
        piece.specimen,
        shown.figure(found),
        "" if found is not None else next(iter(reasons), ""),
        len(piece.runs),
    )
