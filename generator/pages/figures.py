"""What the template of the bars is given: groups of rows, each with figure, track, remarks and price."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from generator.charts.bars import Bars, Lies, Post
from generator.charts.groups import Code, Group
from generator.charts.looks import Look
from generator.charts.numerals import plain, tick_texts
from generator.charts.rows import Bar
from generator.charts.scales import Scale, minor_ticks
from generator.charts.still import Tick, percent
from generator.charts.systems import Unit, ticked, units_of
from generator.evaluation.statements import LimitKind
from generator.pages.alone import amount
from generator.pages.format import Both, Plus, celsius, figure
from generator.pages.older import OlderView
from generator.pages.prices import Price
from generator.pages.remarks import Remark, remarks
from generator.pages.track import Track, track

ROOM = 0.14
"""Part of a phone's scale that the name of a limit takes: a tick nearer to it bears no number."""

Hold = Literal["", "first", "middle", "last"]
"""Where a row stands in a bracket."""


@dataclass(frozen=True)
class FigureRow:
    """One row.

    Attributes:
        id: Id of the item, for links to its card.
        name: Maker and model.
        stock: Name of its stock; empty where there is one only.
        look: Colour role and marker.
        plus: Its figure; None without one.
        older: The newest result from before, where nothing newer is; None in all other rows.
        track: Its drawing; None where there is nothing to draw.
        why_not: Why there is no figure; empty with one.
        stopped: Minutes at which its pieces were stopped.
        n: Pieces that the figure rests on; without one, pieces that were tested.
        of: Pieces that were tested.
        price: What a piece cost; None where none was paid.
        remarks: What else must be said of it.
        holds: Where it stands in a bracket, column by column.
        versions: Of the method that its figure is by, where those of others are by another; else empty.
    """

    id: str
    name: str
    stock: str
    look: Look
    plus: Plus | None
    older: OlderView | None
    track: Track | None
    why_not: str
    stopped: tuple[str, ...]
    n: int
    of: int
    price: Price | None
    remarks: tuple[Remark, ...]
    holds: tuple[Hold, ...]
    versions: tuple[int, ...] = ()


@dataclass(frozen=True)
class GroupView:
    """Rows of which the same can be said, under a heading.

    Attributes:
        code: What is said.
        untold: Whether none of them could be told from any other of them.
        over: Whether all of them were over the limit besides.
        single: Whether it is one row.
        tested: Whether any of them was tested.
        rows: The rows.
    """

    code: Code
    untold: bool
    over: bool
    single: bool
    tested: bool
    rows: tuple[FigureRow, ...]


@dataclass(frozen=True)
class PostView:
    """A limit on the scale.

    Attributes:
        at: Where, in percent.
        text: Its value on the scale.
        text_us: The same in the other system of units; empty where there is none.
        limit: The limit itself.
        air: The reference ambient that it is told for; None for a limit on the rise.
        claimed: Whether it is a figure that the maker prints.
        kind: Of the limit.
        named: Whether its value has room on the scale.
    """

    at: str
    text: str
    text_us: str
    limit: Both
    air: Both | None
    claimed: bool
    kind: LimitKind
    named: bool


@dataclass(frozen=True)
class ControlFigure:
    """The figures of runs of one control, in order of their days."""

    name: str
    figures: tuple[Plus, ...]


@dataclass(frozen=True)
class FiguresView:
    """Everything that `fragments/figures.html.jinja` is given."""

    id: str
    rise: bool
    unit: str
    unit_us: str
    title: str
    mark: str
    current: str
    ticks: tuple[Tick, ...]
    ticks_us: tuple[Tick, ...]
    posts: tuple[PostView, ...]
    groups: tuple[GroupView, ...]
    controls: tuple[ControlFigure, ...]
    lies: Lies = "over"

    @property
    def rows(self) -> tuple[FigureRow, ...]:
        """All rows in the order they stand."""
        return tuple(row for group in self.groups for row in group.rows)

    @property
    def drawn(self) -> bool:
        """Whether any row has a mark on the scale."""
        return any(row.track for row in self.rows)

    @property
    def shown(self) -> frozenset[str]:
        """Which marks the key has to explain."""
        marks = {mark for row in self.rows if row.track for mark in row.track.marks}
        held = {"bracket"} if any(hold for row in self.rows for hold in row.holds) else set()
        return frozenset(marks | held)


@dataclass(frozen=True)
class About:
    """What is known of the items beside their figures, by id; and what was measured, and how."""

    stocks: Mapping[str, str]
    prices: Mapping[str, Price | None]
    names: Mapping[str, str]
    stops: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    title: str = ""
    mark: str = ""
    current: str = ""
    older: Mapping[str, tuple[OlderView, ...]] = field(default_factory=dict)
    versions: Mapping[str, tuple[int, ...]] = field(default_factory=dict)


def figures_view(bars: Bars, about: About) -> FiguresView:
    """From the description of the bars to what their template is given."""
    metric, us = units_of(bars.unit)
    return FiguresView(
        bars.id,
        bars.unit == "K",
        metric.symbol,
        us.symbol if us else "",
        about.title,
        about.mark,
        about.current,
        _axis(bars, metric),
        _axis(bars, us) if us else (),
        _posts(bars, metric, us),
        tuple(_group(group, bars, about) for group in bars.groups),
        _controls(bars),
        bars.lies,
    )


def _controls(bars: Bars) -> tuple[ControlFigure, ...]:
    by_name: dict[str, list[Plus]] = {}
    for name, found, _ in bars.controls:
        by_name.setdefault(name.full, []).append(figure(found))
    return tuple(ControlFigure(name, tuple(found)) for name, found in by_name.items())


def _axis(bars: Bars, unit: Unit) -> tuple[Tick, ...]:
    """Ticks along a row: those with a text, and those without, whose text is empty."""
    scale, named = ticked(bars.scale, unit), [post.at for post in _named(bars)]
    texts = tick_texts([unit.of(tick) for tick in scale.ticks])
    own = [
        Tick(percent(scale.part(tick)), "" if _hidden(scale, tick, named) else text)
        for tick, text in zip(scale.ticks, texts, strict=True)
    ]
    return (*own, *(Tick(percent(scale.part(tick)), "") for tick in minor_ticks(scale)))


def _hidden(scale: Scale, tick: float, named: list[float]) -> bool:
    return any(abs(scale.part(tick) - scale.part(at)) < ROOM for at in named)


def _named(bars: Bars) -> list[Post]:
    """The limits whose value has room on the scale: the lowest first, none too near to the one before."""
    named: list[Post] = []
    for post in bars.posts:
        if not named or bars.scale.part(post.at) - bars.scale.part(named[-1].at) >= 2 * ROOM:
            named.append(post)
    return named


def _posts(bars: Bars, metric: Unit, us: Unit | None) -> tuple[PostView, ...]:
    named = _named(bars)
    return tuple(
        PostView(
            percent(bars.scale.part(post.at)),
            plain(round(metric.of(post.at), 1)),
            plain(round(us.of(post.at), 1)) if us else "",
            celsius(post.limit) if post.kind == "temperature" else amount(post.limit, bars.unit),
            celsius(post.reference) if post.reference is not None else None,
            post.claimed,
            post.kind,
            post in named,
        )
        for post in bars.posts
    )


def _group(group: Group, bars: Bars, about: About) -> GroupView:
    columns = max((each.column + 1 for each in group.brackets), default=0)
    rows = []
    for place, bar in enumerate(group.rows):
        holds = tuple(_hold(group, place, column) for column in range(columns))
        rows.append(_row(bar, group, bars, about, holds))
    return GroupView(
        group.code,
        group.untold,
        all(row.outcome == "beyond" for row in group.rows),
        len(group.rows) == 1,
        any(row.of for row in group.rows),
        tuple(rows),
    )


def _hold(group: Group, place: int, column: int) -> Hold:
    for each in group.brackets:
        if each.column == column and each.first <= place <= each.last:
            return "first" if place == each.first else "last" if place == each.last else "middle"
    return ""


def _row(bar: Bar, group: Group, bars: Bars, about: About, holds: tuple[Hold, ...]) -> FigureRow:
    older = about.older.get(bar.item, ())
    alone = group.code == "older"
    return FigureRow(
        bar.item,
        bar.name.full,
        about.stocks.get(bar.item, ""),
        bar.look,
        figure(bar.figure) if bar.figure else None,
        older[0] if alone else None,
        track(bar, bars.scale),
        "" if alone else bar.why_not or "",
        about.stops.get(bar.item, ()) if bar.figure is None else (),
        bar.n,
        bar.of,
        about.prices.get(bar.item),
        remarks(bar, group, bars.unit, about.names, older),
        holds,
        about.versions.get(bar.item, ()),
    )
