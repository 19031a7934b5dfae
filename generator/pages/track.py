"""What is drawn on a row's scale, in percent of its width."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from generator.charts.rows import Bar
from generator.charts.scales import Scale
from generator.charts.still import percent

Mark = Literal[
    "mean", "single", "meter", "pieces", "reach", "stock", "amended", "older", "stopped", "unfinished"
]
"""Marks that a key explains."""


@dataclass(frozen=True)
class Track:
    """A row's drawing; what is not drawn is empty.

    Attributes:
        low: Lower end of the interval.
        value: The figure.
        high: Upper end of the interval.
        outer: Ends of the interval with the part that the reference ambient brings.
        hollow: Whether the figure's mark is hollow.
        meter_only: Whether the interval speaks of the meter alone.
        pieces: Each piece's own figure.
        before: What the figure was before.
        before_kind: Why it was another: an older stock, a retest, a correction.
        from_end: Which end of the interval it comes to.
        end: Where a piece without a figure was last read.
        crossed: Whether it was stopped there.
        arrow: Which arrow stands at the interval's end: still warming, or getting worse.
        older: Results from before, hollow and without an interval.
    """

    low: str = ""
    value: str = ""
    high: str = ""
    outer: tuple[str, ...] = ()
    hollow: bool = False
    meter_only: bool = False
    pieces: tuple[str, ...] = ()
    before: str = ""
    before_kind: str = ""
    from_end: str = ""
    end: str = ""
    crossed: bool = False
    arrow: str = ""
    older: tuple[str, ...] = ()

    @property
    def marks(self) -> tuple[Mark, ...]:
        """Which marks it has."""
        drawn: tuple[tuple[Mark, bool], ...] = (
            ("mean", bool(self.low) and not self.hollow),
            ("single", bool(self.low) and self.hollow and not self.meter_only),
            ("meter", self.meter_only),
            ("pieces", bool(self.pieces)),
            ("reach", bool(self.outer)),
            ("stock", self.before_kind == "stock"),
            ("amended", bool(self.before) and self.before_kind != "stock"),
            ("older", bool(self.older)),
            ("stopped", bool(self.end) and self.crossed),
            ("unfinished", bool(self.end) and not self.crossed),
        )
        return tuple(mark for mark, shown in drawn if shown)


def track(bar: Bar, scale: Scale) -> Track | None:
    """The drawing of a row; None where there is nothing to draw."""

    def at(value: float) -> str:
        return percent(scale.part(value))

    pieces = tuple(at(piece) for piece in bar.pieces)
    older = tuple(at(each.value) for each in bar.older if not each.bound)
    if bar.figure is None:
        end = at(bar.end) if bar.end is not None else ""
        crossed = bar.why_not in {"stopped", "over-range"}
        return Track(pieces=pieces, end=end, crossed=crossed, older=older) if end or pieces or older else None
    found, before = bar.figure, bar.earlier
    return Track(
        at(found.low),
        at(found.value),
        at(found.high),
        tuple(at(each) for each in bar.reach or ()),
        hollow=bar.n == 1,
        meter_only=bar.meter_only,
        pieces=pieces if bar.n > 1 else (),
        before=at(before.value) if before else "",
        before_kind=before.kind if before else "",
        from_end=at(found.low if before.value < found.value else found.high) if before else "",
        arrow=bar.states[0] if bar.states else "",
        older=older,
    )
