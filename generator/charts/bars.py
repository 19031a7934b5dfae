"""The figures of a measure side by side: rows in groups on one scale, the limit as a post through all."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.interval import Estimate
from generator.charts.description import Name
from generator.charts.groups import Group, groups
from generator.charts.rows import Bar, rows_of
from generator.charts.scales import Scale, value_scale
from generator.evaluation.findings import ItemFinding, MeasureFinding
from generator.evaluation.statements import LimitKind

Lies = Literal["over", "under", "beyond"]


@dataclass(frozen=True)
class Post:
    """A limit, as it stands on the scale.

    Attributes:
        at: Where it stands, in the bars' unit: a limit on the temperature less the reference ambient, K.
        limit: The limit itself, in its own unit.
        kind: Of the limit.
        reference: The reference ambient, °C; None but for a limit on the temperature.
        claimed: Whether it is a figure that the maker prints.
    """

    at: float
    limit: float
    kind: LimitKind
    reference: float | None
    claimed: bool


@dataclass(frozen=True)
class Bars:
    """All rows of one measure.

    Attributes:
        id: Unique on its page.
        unit: Of its figures; K for a rise.
        better: Which way is better; None where neither is.
        scale: In the measure's unit; ticks are set where figures are told.
        groups: Rows by what can be said of their pieces.
        posts: The limits that the rows are grouped by, the lowest first; empty without a limit.
        controls: Name, figure and ISO date of each control that has a figure.
    """

    id: str
    unit: str
    better: Literal["higher", "lower"] | None
    scale: Scale
    groups: tuple[Group, ...]
    posts: tuple[Post, ...]
    controls: tuple[tuple[Name, Estimate, str], ...]

    @property
    def lies(self) -> Lies:
        """Where what is beyond its limits lies: over them, or under them where all are the least."""
        kinds = {post.kind == "at least" for post in self.posts}
        return "beyond" if len(kinds) > 1 else "under" if True in kinds else "over"

    @property
    def rows(self) -> tuple[Bar, ...]:
        """All rows in the order they stand."""
        return tuple(row for group in self.groups for row in group.rows)


def bars(
    chart_id: str, measure: MeasureFinding, names: Mapping[str, Name], claimed: Collection[int] = ()
) -> Bars:
    """Describe the figures of a measure.

    Args:
        chart_id: An id, unique on the page.
        measure: What was found.
        names: Names of all its items and controls by id.
        claimed: Numbers of the report's limits that are figures a maker prints. Rows are grouped by the
            others where there are any.

    Returns:
        A row for each item, those without a figure too.
    """
    found = {each.number: each for item in measure.items for each in item.limits}
    deciding = sorted(set(found) - set(claimed)) or sorted(found)
    posts = [
        Post(each.limit - (each.reference or 0.0), each.limit, each.kind, each.reference, number in claimed)
        for number, each in ((number, found[number]) for number in deciding)
    ]
    rows = rows_of(measure, names, deciding)
    controls = tuple((names[each.item], each.figure, _date(each)) for each in measure.controls if each.figure)
    return laid(chart_id, rows, posts, controls=controls, unit=measure.unit, better=measure.better)


def laid(
    chart_id: str,
    rows: Sequence[Bar],
    posts: Sequence[Post],
    *,
    controls: tuple[tuple[Name, Estimate, str], ...] = (),
    unit: str = "K",
    better: Literal["higher", "lower"] | None = "lower",
) -> Bars:
    """Rows on one scale that holds all that is drawn of them, in groups."""
    reach = [end for row in rows for end in row.reaches]
    scale = value_scale([*reach, *(post.at for post in posts), *(figure.value for _, figure, _ in controls)])
    order = sorted(posts, key=lambda post: post.at)
    return Bars(
        chart_id,
        unit,
        better,
        scale,
        groups(rows, better=better),
        tuple(order),
        controls,
    )


def _date(control: ItemFinding) -> str:
    return next(run.date for piece in control.pieces for run in piece.runs if run.figure)
