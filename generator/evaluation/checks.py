"""What a method promises and its schedule cannot hold, with the noise that the meters of its runs state.

A change or a slope that noise alone reaches tells nothing: such a method is refused before its runs are
judged by it. No arithmetic library is loaded, so that a check of records stays quick.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from typing import TYPE_CHECKING

from generator.analysis.settling import change_uncertainty
from generator.analysis.worsening import HOUR, WARM_FROM, slope_uncertainty
from generator.evaluation import agreements, order
from generator.evaluation.noises import resistance_noise, rise_noise
from generator.evaluation.seeing import without_surface
from generator.fault import Doubt, Fault, in_order
from generator.records.nodes import Mapping
from generator.records.schema.measures import HOTTEST, HeatingMeasure

if TYPE_CHECKING:
    from collections.abc import Callable

    from generator.records.bench import Bench
    from generator.records.nodes import Node
    from generator.records.quantity import Quantity
    from generator.records.run import Run
    from generator.records.schema.method import Method

LEAST_CHANGE = 4.0
"""A change that settles a run is at least so many of its standard uncertainties; our choice, no source."""

LEAST_SLOPE = 2.0
"""The same of the slope that calls a part worsening; our choice, no source."""

FEWEST = 2
"""Readings without which there is no slope."""


def checked(bench: Bench) -> Bench:
    """A bench with what its methods cannot hold among its faults and doubts, in the order of files and lines.

    Args:
        bench: As loaded; of records that are left out nothing is said.
    """
    found = tuple(dict.fromkeys((*_found(bench), *agreements.doubts(bench), *order.doubts(bench))))
    faults = tuple(each for each in found if not isinstance(each, Doubt))
    doubts = tuple(each for each in found if isinstance(each, Doubt))
    files = {each.place.file for each in faults} - {each.place.file for each in bench.faults}
    return replace(
        bench,
        faults=in_order((*bench.faults, *faults)),
        doubts=tuple(each for each in in_order((*bench.doubts, *doubts)) if isinstance(each, Doubt)),
        left_out=bench.left_out + len(files),
    )


@dataclass(frozen=True)
class _Promise:
    """A heating measure of a method.

    Attributes:
        method: The method.
        number: The measure's place in it.
        measure: The measure.
        times: Times of the schedule, s.
        runs: The runs by that version.
    """

    method: Method
    number: int
    measure: HeatingMeasure
    times: tuple[float, ...]
    runs: tuple[Run, ...]

    @property
    def points(self) -> tuple[str, ...]:
        """The points that may give the figure."""
        return tuple(self.method.points) if self.measure.point == HOTTEST else (self.measure.point,)


@dataclass(frozen=True)
class _Least:
    """The run whose meters are the least steady.

    Attributes:
        run: Its id.
        noise: Standard deviation of one of its readings.
    """

    run: str
    noise: float


def _found(bench: Bench) -> Iterator[Fault]:
    yield from without_surface(bench)

    def version(run: Run) -> tuple[str, int]:
        return run.method, run.version

    for (name, number), runs in groupby(sorted(bench.standing, key=version), key=version):
        method = bench.methods[name][number]
        if method.schedule is None:
            continue
        times, by_it = tuple(each.si for each in method.schedule), tuple(runs)
        for place, measure in enumerate(method.measures):
            if isinstance(measure, HeatingMeasure):
                promise = _Promise(method, place, measure, times, by_it)
                yield from _change(bench, promise)
                yield from _slope(bench, promise)


def _change(bench: Bench, of: _Promise) -> Iterator[Fault]:
    """The change that settles a run, where noise alone reaches it."""
    settled, within = of.measure.settled, of.measure.within.si
    least = _least(of, of.runs, lambda run, point: rise_noise(bench, run, point))
    if least is None or settled.change.si <= 0:
        return
    seen = change_uncertainty(of.times, of.times[-1], settled.over.si, least.noise, within)
    needed = LEAST_CHANGE * seen.standard_uncertainty
    if seen.readings < FEWEST or settled.change.si >= needed:
        return
    unit = settled.change
    yield _refused(
        of,
        ("settled", "change"),
        unit,
        f"too small to be told from noise: the readings of the last {settled.over.text} give the change with"
        f" a standard uncertainty of {_in(unit, seen.standard_uncertainty)} ({_in(unit, least.noise)} a"
        f" reading in the run {least.run}); it needs four times that",
        (f"at least {_above(unit, needed)}", "a window with more readings", "a steadier meter"),
    )


def _slope(bench: Bench, of: _Promise) -> Iterator[Fault]:
    """The slope that calls a part worsening, where noise alone reaches it."""
    allowed = of.measure.worsening
    pieces = [run for run in of.runs if run.item]
    least = _least(of, pieces, lambda run, point: resistance_noise(bench, run, point))
    if least is None:
        return
    u = slope_uncertainty(of.times, of.times[-1], least.noise) / HOUR
    since = f"{WARM_FROM / 60:g} min"
    if math.isinf(u):
        what = f"fewer than two readings from {since} on, so no run can tell a part that gets worse"
        yield of.method.doubt(("schedule",), what)
    elif allowed.si < LEAST_SLOPE * u:
        yield _refused(
            of,
            ("worsening",),
            allowed,
            f"too small to be told from noise: the readings from {since} on give the slope of the resistance"
            f" with a standard uncertainty of {_in(allowed, u)} ({_plain(100 * least.noise)} % a reading in"
            f" the run {least.run}); it needs twice that",
            (
                f"at least {_above(allowed, LEAST_SLOPE * u)}",
                f"more readings from {since} on",
                "a steadier meter",
            ),
        )


def _least(of: _Promise, runs: Iterable[Run], noise: Callable[[Run, str], float | None]) -> _Least | None:
    """The run with the largest noise, the first by id of several; None where no meter states any."""
    known = [
        _Least(run.id, size) for run in runs for point in of.points if (size := noise(run, point)) is not None
    ]
    return min(known, key=lambda each: (-each.noise, each.run), default=None)


def _refused(
    of: _Promise, path: tuple[str, ...], stated: Quantity, what: str, accepted: tuple[str, ...]
) -> Fault:
    """A fault of what a measure states, or of the default that stands where it states nothing."""
    place: tuple[str | int, ...] = ("measures", of.number, *path)
    if _is_written(of.measure, path):
        return of.method.fault(place, what, stated.text, accepted)
    return of.method.fault(place, f"{stated.text} where left out: {what}", None, accepted)


def _is_written(measure: HeatingMeasure, path: tuple[str, ...]) -> bool:
    node: Node = measure.node
    for key in path:
        if not isinstance(node, Mapping) or key not in node:
            return False
        node = node[key]
    return True


def _in(like: Quantity, si: float) -> str:
    """A width in the unit of a quantity, two digits."""
    return f"{_plain(si / like.unit.factor)} {like.unit.symbol}"


def _above(like: Quantity, si: float) -> str:
    """The same rounded up, so that what is told would do."""
    size = si / like.unit.factor
    step = 10.0 ** (math.floor(math.log10(size)) - 1)
    return f"{_plain(math.ceil(size / step) * step)} {like.unit.symbol}"


def _plain(number: float) -> str:
    """Two significant digits, never with an exponent."""
    digits = max(0, 1 - math.floor(math.log10(number))) if number > 0 else 0
    return f"{number:.{digits}f}"
