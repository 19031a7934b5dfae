"""The live chart of a heating chart: a plain dictionary in plotly's JSON, beside the same drawing's still.

Colours are roles, `var(--s1)`; the page's script puts in what the style sheet says, and the box's padding for
the margins. Axes hold numbers alone; every text that is read was made here, in both systems of units.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from typing import Any

from generator.analysis.rounding import FAHRENHEIT_PER_KELVIN, rounded
from generator.charts.description import HeatingChart, Limit, Line
from generator.charts.looks import DASHES, Marker
from generator.charts.numerals import numeral, plain, tick_texts, true_minus
from generator.charts.scales import Scale
from generator.charts.series import Place, Places
from generator.charts.still import bands, strokes

NO_BREAK = "\N{NO-BREAK SPACE}"
THIN = "\N{NARROW NO-BREAK SPACE}"
METRIC = f"%{{customdata[1]}}{NO_BREAK}°C · %{{customdata[0]}}{NO_BREAK}min"
US = f"%{{customdata[2]}}{NO_BREAK}°F · %{{customdata[0]}}{NO_BREAK}min"
"""The text beside a point, in either system of units."""

CLEAR = "rgba(0,0,0,0)"

SIZES: dict[Marker, float] = {
    "circle": 10,
    "triangle-up": 11,
    "square": 9,
    "diamond": 9.23,
    "triangle-down": 11,
    "pentagon": 11.2,
}
"""As large as the still's markers; plotly draws a diamond 1.3 times as wide as it is told."""

STOP_SIZE = 11
"""Width of the cross, px."""


def live(chart: HeatingChart) -> dict[str, Any]:
    """The live chart.

    Args:
        chart: The description that the still is drawn from.

    Returns:
        `data` and `layout` as plotly has them, in the units of the metric system; and `units`, which says for
        each system of units what it puts in their place: `factor` (of K), what stands behind a figure, ticks,
        the limits' rises, and the template of the text beside a point, whose `customdata` holds minutes and
        the figure in either system.
    """
    return {
        "data": [
            *_bands(chart),
            *_thin(chart),
            *(_lead(line) for line in chart.lines if line.lead),
            *_stops(chart.lines),
            *_struck(chart),
        ],
        "layout": _layout(chart),
        "units": {
            "metric": _unit(chart.y, chart.limits, 1.0, METRIC, "°C"),
            "us": _unit(chart.y_us, chart.limits, FAHRENHEIT_PER_KELVIN, US, "°F"),
        },
    }


def _unit(scale: Scale, limits: Iterable[Limit], factor: float, hover: str, sign: str) -> dict[str, Any]:
    return {
        "sign": f"{NO_BREAK}{sign}",
        "factor": factor,
        "tickvals": _numbers(scale.ticks),
        "ticktext": list(tick_texts([tick * factor for tick in scale.ticks])),
        "limits": [plain(round(each.rise * factor, 1)) for each in limits],
        "hovertemplate": hover,
    }


def _number(value: float) -> float | int:
    """To a thousandth, which no screen shows; a whole one without its point."""
    short = round(value, 3)
    return int(short) if short == int(short) else short


def _numbers(values: Iterable[float]) -> list[float | int]:
    return [_number(each) for each in values]


def _xy(places: Places, decimals: int = 2) -> dict[str, Any]:
    """Times in minutes and rises in K; a hundredth of a kelvin is a small part of a pixel."""
    return {
        "x": [None if each is None else _number(each.minutes) for each in places],
        "y": [None if each is None else _number(round(each.rise, decimals)) for each in places],
    }


def _colour(role: str) -> str:
    return f"var(--{role})"


def _silent(mode: str, places: Places, **more: Any) -> dict[str, Any]:
    """A trace that tells nothing when it is pointed at; a line breaks where there is no point."""
    gaps = {"connectgaps": False} if mode == "lines" else {"cliponaxis": False}
    return {"type": "scatter", "mode": mode, **_xy(places), **gaps, "hoverinfo": "skip", **more}


def _name(line: Line) -> str:
    """The item's name, with the piece's letter; plotly reads a small HTML in it."""
    return escape(f"{line.name.full} {line.piece}".rstrip(), quote=False)


def _bands(chart: HeatingChart) -> Iterator[dict[str, Any]]:
    for line, outlines in bands(chart):
        places: list[Place | None] = []
        for outline in outlines:
            places += [*([None] if places else []), *outline]
        # An outline without a line of its own: what it weighs in the page is more than what a digit shows.
        yield _silent(
            "lines",
            (),
            **_xy(tuple(places), 1),
            fill="toself",
            fillcolor=_colour(line.look.role),
            line={"width": 0},
            opacity=0.16,
        )


def _thin(chart: HeatingChart) -> Iterator[dict[str, Any]]:
    for line, lead, places in strokes(chart):
        if not lead:
            drawn = {"color": _colour(line.look.role), "width": 1}
            yield _silent("lines", places, line=drawn, opacity=0.45)


def _lead(line: Line) -> dict[str, Any]:
    """The curve that stands for an item, a piece or a control: it tells its figure where it is pointed at."""
    control, marker, colour = line.kind == "control", line.look.marker, _colour(line.look.role)
    dash = ",".join(f"{each}px" for each in DASHES[line.look.dash])
    trace = {
        "type": "scatter",
        "mode": "lines" if marker == "none" else "lines+markers",
        "name": _name(line),
        "meta": _meta(line),
        **_xy(line.places),
        "connectgaps": False,
        "customdata": [each and _told(each) for each in line.places],
        "line": {"color": colour, "width": 1.5 if control else 2, "dash": dash or "solid"},
    }
    if marker == "none":
        return trace
    return {**trace, "marker": _marker(marker, colour, line), "cliponaxis": False}


def _meta(line: Line) -> dict[str, Any]:
    """The name at the line's end while only a part of the chart is seen."""
    piece = line.piece if line.kind == "piece" else ""
    return {"end": escape(f"{line.name.short} {piece}".rstrip(), quote=False)}


def _marker(marker: Marker, colour: str, line: Line) -> dict[str, Any]:
    filled = line.kind == "mean"
    return {
        "symbol": marker,
        "size": SIZES[marker],
        "color": colour if filled else _colour("paper"),
        "line": {"color": _colour("paper") if filled else colour, "width": 1 if filled else 2},
    }


def _told(place: Place) -> list[str]:
    return [
        plain(round(place.minutes, 2)),
        _figure(place, 1.0),
        _figure(place, FAHRENHEIT_PER_KELVIN),
    ]


def _figure(place: Place, factor: float) -> str:
    if not place.half_width:
        return numeral(place.rise * factor, 1)
    told = rounded(place.rise, place.half_width, factor)
    return f"{true_minus(told.value_text)}{THIN}±{THIN}{told.uncertainty_text}"


def _stops(lines: Iterable[Line]) -> Iterator[dict[str, Any]]:
    for line in lines:
        if line.stopped is not None:
            end = next(each for each in reversed(line.places) if each)
            cross = {"width": 2.5, "color": _colour("ink")}
            marker = {"symbol": "x-thin", "size": STOP_SIZE, "line": cross}
            yield _silent("markers", (end,), marker=marker)


def _struck(chart: HeatingChart) -> Iterator[dict[str, Any]]:
    """A ring with a stroke through it, each at its reading."""
    if chart.struck:
        places = tuple(Place(each.minutes, each.rise, None) for each in chart.struck)
        for symbol, size in (("circle-open", 8), ("line-ne", 12)):
            drawn = {"width": 1, "color": _colour("soft")}
            marker = {"symbol": symbol, "size": size, "color": _colour("soft"), "line": drawn}
            yield _silent("markers", places, marker=marker)


def _layout(chart: HeatingChart) -> dict[str, Any]:
    return {
        "showlegend": False,
        "hovermode": "closest",
        "paper_bgcolor": CLEAR,
        "plot_bgcolor": CLEAR,
        "hoverlabel": {
            "bgcolor": _colour("paper"),
            "bordercolor": _colour("edge"),
            "font": {"color": _colour("ink"), "size": 14},
            "namelength": -1,
        },
        "xaxis": {
            **_axis(chart.x),
            "showgrid": False,
            "ticks": "outside",
            "ticklen": 5,
            "tickcolor": _colour("edge"),
        },
        "yaxis": {**_axis(chart.y), "showgrid": True, "gridcolor": _colour("rule")},
        "shapes": [_rule(limit.rise) for limit in chart.limits],
    }


def _axis(scale: Scale) -> dict[str, Any]:
    return {
        "type": "linear",
        "range": [_number(scale.low), _number(scale.high)],
        "tickmode": "array",
        "tickvals": _numbers(scale.ticks),
        "ticktext": list(tick_texts(scale.ticks)),
        "tickfont": {"size": 12, "color": _colour("soft")},
        "zeroline": False,
        "exponentformat": "none",
    }


def _rule(rise: float) -> dict[str, Any]:
    place = {"xref": "paper", "x0": 0, "x1": 1, "yref": "y", "y0": _number(rise), "y1": _number(rise)}
    return {"type": "line", **place, "layer": "between", "line": {"color": _colour("limit"), "width": 2}}
