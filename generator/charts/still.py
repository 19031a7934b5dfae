"""Where everything of a heating chart stands in its still, in percent of the box it is drawn in.

Curves and bands stand in a square of 1,000 by 1,000 that is stretched over the box; marks and texts in
percent, so that they keep their size. Every number has a fixed count of decimals, so that two builds are the
same bytes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN, rounded
from generator.charts.description import HeatingChart, Limit, Line
from generator.charts.looks import Look
from generator.charts.numerals import plain, tick_texts, true_minus
from generator.charts.scales import Scale, label_places
from generator.charts.series import Place, Places

HEIGHT = 320
"""Height of the box in px; the style sheet holds the same figure."""

LABEL_GAP = 16
"""Smallest distance between the baselines of two labels, px."""

INNER_LINES = 2
"""Lines of text of a label inside the box: the name, and when it was stopped."""

OWN_PLACE = 0.75
"""A stopped line that ends left of this part of the width is named beside its end and not at the edge."""


@dataclass(frozen=True)
class Tick:
    """A tick: where, in percent, and its text."""

    at: str
    text: str


@dataclass(frozen=True)
class Stroke:
    """A curve or a band: its look and the path in the stretched square."""

    look: Look
    lead: bool
    path: str


@dataclass(frozen=True)
class Marks:
    """The markers of one line: their look, whether they are filled, and where, in percent across and down."""

    look: Look
    filled: bool
    places: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Label:
    """A name at a line's end.

    Attributes:
        name: The item's short name; empty for a limit.
        piece: Letter of the piece; empty for a mean.
        value: The item's figure, or the limit, in °C above the air; empty without one, and for a control.
        value_us: The same in °F.
        stopped: Minutes at which it was stopped; empty where it was not.
        soft: Whether it names a control.
        end: Where its line ends, part of the width.
        line_y: How far down its line ends, part of the height.
        y: How far down it stands itself, part of the height.
        claimed: Of a limit, whether it is a figure that the maker prints.
    """

    name: str
    piece: str
    value: str
    value_us: str
    stopped: str
    soft: bool
    end: float
    line_y: float
    y: float
    claimed: bool = False

    @property
    def place(self) -> tuple[str, str]:
        """Where its line ends across, and how far down it stands, in percent."""
        return percent(self.end), percent(self.y)

    @property
    def leader(self) -> str:
        """How far down its line ends, in percent, where that is another height than its own; else empty."""
        return "" if abs(self.y - self.line_y) * HEIGHT < 1 else percent(self.line_y)


@dataclass(frozen=True)
class Still:
    """Everything that the template draws, in the order it is drawn; a limit by how far down it lies."""

    x_ticks: tuple[Tick, ...]
    y_ticks: tuple[Tick, ...]
    y_ticks_us: tuple[Tick, ...]
    limits: tuple[str, ...]
    bands: tuple[Stroke, ...]
    curves: tuple[Stroke, ...]
    marks: tuple[Marks, ...]
    stops: tuple[tuple[str, str], ...]
    struck: tuple[tuple[str, str], ...]
    edge_labels: tuple[Label, ...]
    inner_labels: tuple[Label, ...]


def still(chart: HeatingChart) -> Still:
    """Place a heating chart."""
    labels = [_label(chart, line) for line in _named(chart.lines)]
    inner = [each for each in labels if each.stopped and each.end < OWN_PLACE]
    edge = [each for each in labels if each not in inner] + [_limit(chart, each) for each in chart.limits]
    # A label inside the box reaches the names at the edge where the box is narrow: none may meet another.
    placed = _placed([*edge, *inner], [1] * len(edge) + [INNER_LINES] * len(inner))
    return Still(
        _ticks(chart.x, chart.x, across=True),
        _ticks(chart.y, chart.y),
        _ticks(chart.y_us, chart.y, FAHRENHEIT_PER_KELVIN),
        tuple(_down(chart, each.rise) for each in chart.limits),
        tuple(_bands(chart)),
        tuple(Stroke(line.look, lead, _path(chart, places)) for line, lead, places in strokes(chart)),
        tuple(_marks(chart)),
        tuple(_at(chart, _end(line)) for line in chart.lines if line.stopped is not None),
        tuple((_across(chart, each.minutes), _down(chart, each.rise)) for each in chart.struck),
        placed[: len(edge)],
        placed[len(edge) :],
    )


def strokes(chart: HeatingChart) -> Iterator[tuple[Line, bool, Places]]:
    """Every curve in the order drawn: of which line, whether it is its heavy one, and its points.

    A curve through the readings is drawn thin: behind the heavy line of its item, or in place of the thin
    line of its piece.
    """
    for line in chart.lines:
        if line.fitted is not None:
            yield line, False, line.fitted.places()
        if line.lead or line.fitted is None:
            yield line, line.lead, line.places


def _named(lines: Sequence[Line]) -> list[Line]:
    """The lines that bear a name: runs of one control bear it once, and so do pieces without a mean."""
    controls = {line.item: line for line in lines if line.kind == "control"}
    pieces: dict[str, list[Line]] = {}
    for line in lines:
        if line.lead and line.kind == "piece" and line.stopped is None:
            pieces.setdefault(line.item, []).append(line)
    alone = [each[0] for each in pieces.values() if len(each) == 1]
    middle = [sorted(each, key=_last_rise)[len(each) // 2] for each in pieces.values() if len(each) > 1]
    others = [line for line in lines if line.lead and (line.kind != "piece" or line.stopped is not None)]
    named = [line for line in others if line.kind != "control" or line is controls[line.item]]
    return [*named, *alone, *(replace(line, piece="") for line in middle)]


def _last_rise(line: Line) -> float:
    return _end(line).rise


def percent(part: float) -> str:
    """A part of 1 as percent with two decimals."""
    return f"{100 * part:.2f}%".replace("-0.00%", "0.00%")


def _across(chart: HeatingChart, minutes: float) -> str:
    return percent(chart.x.part(minutes))


def _down(chart: HeatingChart, rise: float) -> str:
    return percent(1 - chart.y.part(rise))


def _ticks(scale: Scale, on: Scale, factor: float = 1.0, *, across: bool = False) -> tuple[Tick, ...]:
    texts = tick_texts([tick * factor for tick in scale.ticks])
    places = [on.part(tick) if across else 1 - on.part(tick) for tick in scale.ticks]
    return tuple(Tick(percent(place), text) for place, text in zip(places, texts, strict=True))


def _stretches(places: Places) -> Iterator[tuple[Place, ...]]:
    """The unbroken parts of a curve."""
    held: list[Place] = []
    for place in (*places, None):
        if place:
            held.append(place)
        elif held:
            yield tuple(held)
            held = []


def _point(chart: HeatingChart, minutes: float, rise: float) -> str:
    return f"{1000 * chart.x.part(minutes):.1f} {1000 * (1 - chart.y.part(rise)):.1f}"


def _path(chart: HeatingChart, places: Places) -> str:
    parts = [
        "L".join(_point(chart, place.minutes, place.rise) for place in stretch)
        for stretch in _stretches(places)
    ]
    return "".join(f"M{part}" for part in parts)


def bands(chart: HeatingChart) -> Iterator[tuple[Line, tuple[tuple[Place, ...], ...]]]:
    """The band of each line that has one, as outlines: along its upper edge and back along its lower."""
    for line in chart.lines:
        known = tuple(place if place and place.half_width is not None else None for place in line.places)
        outlines = tuple(_outline(stretch) for stretch in _stretches(known) if len(stretch) > 1)
        if line.lead and line.kind != "control" and outlines:
            yield line, outlines


def _outline(stretch: Sequence[Place]) -> tuple[Place, ...]:
    upper = [replace(place, rise=place.rise + (place.half_width or 0.0)) for place in stretch]
    lower = [replace(place, rise=place.rise - (place.half_width or 0.0)) for place in stretch]
    return (*upper, *reversed(lower))


def _bands(chart: HeatingChart) -> Iterator[Stroke]:
    for line, outlines in bands(chart):
        yield Stroke(line.look, True, "".join(f"{_path(chart, each)}Z" for each in outlines))


def _marks(chart: HeatingChart) -> Iterator[Marks]:
    for line in chart.lines:
        if line.lead and line.look.marker != "none":
            places = tuple(_at(chart, place) for place in line.places if place)
            yield Marks(line.look, line.kind == "mean", places)


def _at(chart: HeatingChart, place: Place) -> tuple[str, str]:
    return _across(chart, place.minutes), _down(chart, place.rise)


def _end(line: Line) -> Place:
    return next(place for place in reversed(line.places) if place)


def _label(chart: HeatingChart, line: Line) -> Label:
    end = _end(line)
    height = 1 - chart.y.part(end.rise)
    figure = line.figure if line.kind != "control" else None
    values = [
        true_minus(rounded(figure.value, figure.half_width, factor).value_text) if figure else ""
        for factor in (1.0, FAHRENHEIT_PER_KELVIN)
    ]
    return Label(
        line.name.short,
        line.piece if line.kind == "piece" else "",
        values[0],
        values[1],
        "" if line.stopped is None else f"{line.stopped:.0f}",
        line.kind == "control",
        chart.x.part(end.minutes),
        height,
        height,
    )


def _limit(chart: HeatingChart, limit: Limit) -> Label:
    values = [plain(round(limit.rise * factor, 1)) for factor in (1.0, FAHRENHEIT_PER_KELVIN)]
    height = 1 - chart.y.part(limit.rise)
    return Label("", "", values[0], values[1], "", False, 1.0, height, height, limit.claimed)


def _placed(labels: Sequence[Label], lines: Sequence[int]) -> tuple[Label, ...]:
    places = label_places([label.line_y for label in labels], LABEL_GAP / HEIGHT, 0.0, 1.0, lines)
    return tuple(replace(label, y=place) for label, place in zip(labels, places, strict=True))
