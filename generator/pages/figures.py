"""What the template of the bars is given: one row an item, with figure, track, pieces and price."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.analysis.interval import Estimate
from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN
from generator.charts.bars import Bar, Bars
from generator.charts.looks import Look
from generator.charts.numerals import tick_texts
from generator.charts.scales import Scale, minor_ticks
from generator.charts.still import Tick, percent
from generator.evaluation.findings import MeasureFinding
from generator.pages.format import Day, Plus, day, figure
from generator.pages.prices import Price


@dataclass(frozen=True)
class Track:
    """What is drawn on a row's scale, in percent of its width."""

    low: str
    value: str
    high: str
    pieces: tuple[str, ...]


@dataclass(frozen=True)
class FigureRow:
    """One row.

    Attributes:
        id: Id of the item, for links to its card.
        name: Maker and model.
        stock: Name of its stock; empty where there is one only.
        look: Colour role and marker.
        plus: Its figure; None without one.
        track: Its drawing; None without a figure.
        why_not: Why there is no figure; empty with one.
        end: Where a stopped piece was last read, in percent; empty where none was stopped.
        stopped: Minutes at which its pieces were stopped.
        n: Pieces that the figure rests on.
        meter_only: Whether the ± is the meter's alone.
        price: What a piece cost; None where none was paid.
        alike: Names of the items that it could not be told from.
    """

    id: str
    name: str
    stock: str
    look: Look
    plus: Plus | None
    track: Track | None
    why_not: str
    end: str
    stopped: tuple[str, ...]
    n: int
    meter_only: bool
    price: Price | None
    alike: tuple[str, ...]


@dataclass(frozen=True)
class ControlFigure:
    """The figure of a control run, and its day."""

    name: str
    plus: Plus
    day: Day


@dataclass(frozen=True)
class FiguresView:
    """Everything that `fragments/figures.html.jinja` is given."""

    id: str
    mark: str
    current: str
    ticks: tuple[Tick, ...]
    ticks_us: tuple[Tick, ...]
    rows: tuple[FigureRow, ...]
    controls: tuple[ControlFigure, ...]

    @property
    def drawn(self) -> bool:
        """Whether any row has a mark on the scale."""
        return any(row.track or row.end for row in self.rows)


@dataclass(frozen=True)
class About:
    """What is known of the items beside their figures, by id."""

    stocks: Mapping[str, str]
    prices: Mapping[str, Price | None]
    names: Mapping[str, str]
    stops: Mapping[str, tuple[str, ...]]


def figures_view(bars: Bars, measure: MeasureFinding, about: About, mark: str, current: str) -> FiguresView:
    """From the description of the bars to what their template is given."""
    return FiguresView(
        bars.id,
        mark,
        current,
        axis(bars.scale, bars.scale),
        axis(bars.scale_us, bars.scale, FAHRENHEIT_PER_KELVIN),
        tuple(_row(bar, bars.scale, measure, about) for bar in bars.rows),
        tuple(ControlFigure(name.full, figure(found), day(when)) for name, found, when in bars.controls),
    )


def axis(scale: Scale, on: Scale, factor: float = 1.0) -> tuple[Tick, ...]:
    """Ticks along a row: those with a text, and the minor ones between them, whose text is empty."""
    texts = tick_texts([tick * factor for tick in scale.ticks])
    own = [Tick(percent(on.part(tick)), text) for tick, text in zip(scale.ticks, texts, strict=True)]
    return (*own, *(Tick(percent(on.part(tick)), "") for tick in minor_ticks(scale)))


def alike(measure: MeasureFinding, item: str) -> tuple[str, ...]:
    """Items that this one could not be told from."""
    return tuple(
        pair.second if pair.first == item else pair.first
        for pair in measure.pairs
        if item in {pair.first, pair.second} and pair.known and not pair.shown
    )


def _row(bar: Bar, scale: Scale, measure: MeasureFinding, about: About) -> FigureRow:
    return FigureRow(
        bar.item,
        bar.name.full,
        about.stocks[bar.item],
        bar.look,
        figure(bar.figure) if bar.figure else None,
        _track(bar.figure, bar, scale) if bar.figure else None,
        bar.why_not or "",
        "" if bar.stopped is None else percent(scale.part(bar.stopped)),
        about.stops.get(bar.item, ()) if bar.figure is None else (),
        bar.n,
        bar.meter_only,
        about.prices[bar.item],
        tuple(about.names[other] for other in alike(measure, bar.item)),
    )


def _track(found: Estimate, bar: Bar, scale: Scale) -> Track:
    return Track(
        percent(scale.part(found.low)),
        percent(scale.part(found.value)),
        percent(scale.part(found.high)),
        tuple(percent(scale.part(piece)) for piece in bar.pieces) if bar.n > 1 else (),
    )
