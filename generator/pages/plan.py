"""A planned comparison as text for a terminal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.interval import half_width
from generator.charts.numerals import NO_BREAK
from generator.evaluation.costs import Cost, Price
from generator.evaluation.planned import Plan, Run, Warned
from generator.pages.budgets import dof_text
from generator.pages.cautions import Cautions, cautions
from generator.pages.format import Both, money, significant
from generator.pages.render import Renderer
from generator.pages.shown import Shown, shown_in
from generator.records.bench import Bench


@dataclass(frozen=True)
class RowView:
    """So many pieces of each: the gap seen, ν, what they cost, and how many items are in no sum."""

    pieces: int
    gap: Both
    dof: str
    cost: str
    without: int


@dataclass(frozen=True)
class PriceView:
    """An item's price: of a piece, of its pack, when and from whom; empty where the record does not say."""

    item: str
    each: str
    pack: int
    paid: str
    day: str
    seller: str
    recorded: bool


@dataclass(frozen=True)
class WarnedView:
    """A warning with its numbers: differences in both systems, counts as they are."""

    what: str
    value: Both
    count: int
    other: Both
    other_count: int


@dataclass(frozen=True)
class RunView:
    """A run of the order: its number, the item and the piece."""

    number: int
    item: str
    piece: str


@dataclass(frozen=True)
class PlanView:
    """Everything that `text/plan.txt.jinja` is given.

    Attributes:
        plan: The plan.
        first: `metric` or `us`: the units that stand first.
        name: Of the measure.
        cautions: Those of the method.
        rows: The table.
        chosen: Its row for as many pieces as are ordered; None where nothing says.
        gap: What was asked for; None without it.
        spread: The spread that is assumed.
        dof: Its degrees of freedom.
        own: The recorded spread, where another is assumed; None else.
        meters: What meters bring to a difference of two means, a half-width; None where not known.
        level: The level of the strictest pair, in percent.
        prices: What is known of prices.
        currencies: How many currencies they are in.
        days: The order.
        warned: What has to be known before.
    """

    plan: Plan
    first: str
    name: str
    cautions: Cautions
    rows: tuple[RowView, ...]
    chosen: RowView | None
    gap: Both | None
    spread: Both
    dof: str
    own: Both | None
    meters: Both | None
    level: str
    prices: tuple[PriceView, ...]
    currencies: int
    days: tuple[tuple[RunView, ...], ...]
    warned: tuple[WarnedView, ...]


def plan_view(bench: Bench, plan: Plan) -> PlanView:
    """A plan as its templates are given it."""
    own, asked, unit = plan.recorded, plan.asked, shown_in(plan.unit, (row.gap for row in plan.rows))
    rows = tuple(
        RowView(row.pieces, unit.size(row.gap), dof_text(row.dof), told(cost), len(cost.without))
        for row, cost in zip(plan.rows, plan.costs, strict=True)
    )
    other = own.spread if plan.origin != "recorded" else None
    return PlanView(
        plan=plan,
        first=bench.settings.units,
        name=plan.measure.name or plan.measure.id,
        cautions=cautions([plan.method]),
        rows=rows,
        chosen=next((row for row in rows if row.pieces == plan.pieces), None),
        gap=unit.size(asked.gap) if asked.gap else None,
        spread=unit.size(plan.spread.deviation),
        dof=dof_text(plan.spread.dof),
        own=None if other is None else unit.size(other.deviation),
        meters=_meters(plan, unit),
        level=significant(100 * plan.level),
        prices=tuple(map(_price, plan.prices)),
        currencies=len({each.purchase.paid.currency for each in plan.prices}),
        days=_days(plan.days),
        warned=tuple(_warned(each, unit) for each in plan.warned),
    )


def planned(bench: Bench, plan: Plan) -> str:
    """A plan in words, with its table and its order of runs."""
    text = Renderer(bench.root).text("text/plan.txt.jinja", view=plan_view(bench, plan))
    return text.replace(NO_BREAK, " ")


def told(cost: Cost) -> str:
    """Sums side by side, one a currency."""
    return " + ".join(money(each) for each in cost.sums)


def _meters(plan: Plan, unit: Shown) -> Both | None:
    """The half-width that meters alone bring to a difference."""
    between = plan.recorded.between
    if between is None:
        return None
    return unit.size(half_width(between))


def _price(price: Price) -> PriceView:
    bought = price.purchase
    return PriceView(
        price.item,
        money(bought.each),
        bought.pack,
        money(bought.paid),
        bought.day.isoformat() if bought.day else "",
        bought.seller,
        price.recorded,
    )


def _days(days: Sequence[Sequence[Run]]) -> tuple[tuple[RunView, ...], ...]:
    found, number = [], 0
    for day in days:
        found.append(tuple(RunView(number + place, run.item, run.piece) for place, run in enumerate(day, 1)))
        number += len(day)
    return tuple(found)


def _warned(warned: Warned, unit: Shown) -> WarnedView:
    value, other = (unit.size(each) for each in (warned.value, warned.other))
    return WarnedView(warned.what, value, round(warned.value), other, round(warned.other))
