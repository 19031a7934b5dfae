"""Benches and findings for the tests of charts and pages: the demo, a hostile one, figures by hand."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from generator.analysis.interval import Estimate
from generator.evaluation.findings import (
    CurvePoint,
    ItemFinding,
    MeasureFinding,
    PairFinding,
    PieceFinding,
    RunFinding,
)
from generator.evaluation.spreads import Spread
from generator.evaluation.values import Reading
from generator.history.shelf import published
from generator.pages import make
from generator.pages.site import Site
from generator.records.bench import Bench, load

ROOT = Path(__file__).parents[2]

HOSTILE = (
    'A&B <i>"2,5" </script> $1 <script>alert(1)</script> | a | b **x** [x](javascript:1) {{ x }} {: #y }'
)
"""In one text: HTML, an end of script, mathematics, a table, stress and link, Jinja, attributes."""

LINES = (
    "# x",
    "1. x",
    "::: x",
    "- x",
    "> x",
    "```",
    "    words behind four blanks",
    "*[x]: y",
    "[^1]: z",
    "==x== ~~y~~ `z` <!-- c",
    "x\n===",
    "~~~",
)
"""What means something at the start of a line."""


@cache
def demo() -> Bench:
    """The demo bench's records."""
    return load(ROOT)


@cache
def demo_site() -> Site:
    """The demo bench's site, as it is published."""
    return make.made(published(demo()))


def estimate(value: float, half_width: float, unit: str = "K") -> Estimate:
    """A figure with a symmetric interval, k = 2."""
    return Estimate(
        value, half_width / 2, half_width, 2.0, float("inf"), value - half_width, value + half_width, unit
    )


def run(name: str, item: str, piece: str, rises: dict[float, float | None], **more: Any) -> RunFinding:
    """A run from its rises in K by minute; its figure is the last of them, ± 2 K."""
    readings = tuple(
        Reading(
            minute * 60, None if rise is None else 20 + rise, 20.0, 30.0, rise, None if rise is None else 2.0
        )
        for minute, rise in rises.items()
    )
    known = [rise for rise in rises.values() if rise is not None]
    figure = None if "why_not" in more else estimate(known[-1], 2.0)
    more = {"readings": readings, "figure": figure, **more}
    return RunFinding(name, item, piece, "2026-03-08", "box/1", parts=None, **more)


def item(name: str, order: int, *runs: RunFinding, control: bool = False, **more: Any) -> ItemFinding:
    """An item of one run a piece; its curve is the mean where all were read, ± 1 K."""
    pieces = tuple(PieceFinding(each.specimen, "", (each,), each.figure) for each in runs)
    figures = [each.figure.value for each in runs if each.figure]
    whole = len(figures) == len(runs) and bool(runs)
    rows = [{reading.time: reading.rise for reading in each.readings} for each in runs]
    common = (
        sorted(set.intersection(*({t for t, rise in row.items() if rise is not None} for row in rows)))
        if rows
        else []
    )
    curve = tuple(CurvePoint(t, sum(row[t] or 0.0 for row in rows) / len(rows), 1.0) for t in common)
    given = {
        "n": len(runs),
        "figure": estimate(sum(figures) / len(figures), 1.0) if whole else None,
        "why_not": None if whole else "stopped",
        "spread": Spread("pooled", 1.0, 8.0) if len(runs) > 1 else Spread("none", 0.0, float("inf")),
        "curve": curve if whole else (),
        **more,
    }
    return ItemFinding(name, control, "", pieces, runs=len(runs), budget=None, order=order, **given)


def measure(
    *items: ItemFinding,
    controls: tuple[ItemFinding, ...] = (),
    pairs: tuple[PairFinding, ...] = (),
    **more: Any,
) -> MeasureFinding:
    """A measure of rise at 60 min and 30 A."""
    return MeasureFinding(
        "rise", "heating", "K", "box", (1,), 3600.0, 30.0, "body", tuple(items), controls, pairs, **more
    )


HOLDERS = measure(
    item(
        "cool",
        0,
        run("r/cool-a", "cool", "A", {0: 0.0, 30: 26.0, 60: 28.0}),
        run("r/cool-b", "cool", "B", {0: 0.0, 30: None, 60: 30.0}),
    ),
    item("single", 1, run("r/single-a", "single", "A", {0: 0.0, 30: 28.5, 60: 31.0})),
    item(
        "stops",
        2,
        run("r/stops-a", "stops", "A", {0: 0.0, 30: 80.0}, why_not="stopped"),
    ),
    controls=(
        item("plain-cable", 0, run("r/cable", "plain-cable", "", {0: 0.0, 30: 13.0, 60: 14.2}), control=True),
    ),
)
"""A mean with a gap, one piece, one that was stopped, and a control."""
