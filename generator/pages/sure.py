"""What "How sure?" is given: every pair, where each item stands, and where the spread comes from."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.evaluation.findings import ItemFinding, MeasureFinding, PairFinding
from generator.evaluation.spreads import SpreadOrigin
from generator.evaluation.statements import Place
from generator.pages.budgets import BudgetView, budget_view, dof_text
from generator.pages.format import Both, Plus, as_printed
from generator.pages.in_unit import in_unit
from generator.pages.pieces import PiecesView, pieces_view
from generator.pages.shown import Shown, shown
from generator.records.schema.instrument import Instrument

FEWEST_PLACES = 3
"""So many items make an order that pairs alone do not tell at a glance."""
_PROBE = "probe "
"""So begins the name of a probe in a budget; every other sensor's with the id of its meter."""


@dataclass(frozen=True)
class PairRow:
    """One pair: the lower by figure, the other, the gap, and what may be said of it.

    Attributes:
        lower: Name of the item with the smaller figure.
        other: Name of the other.
        gap: The difference with the pair's own ±.
        pieces: How many pieces of the lower it rests on, and how many of the other.
        said: `shown`, `none found`, or, where a spread is not known, `pieces only` where a side has one piece
            and `one each` where both have.
        sees: Where none was found, the gap that this test would find; else None.
    """

    lower: str
    other: str
    gap: Plus
    pieces: tuple[int, int]
    said: str
    sees: Both | None


@dataclass(frozen=True)
class PlaceRow:
    """Where one item stands: in words, and as a number only where that is a range.

    Attributes:
        name: The item.
        below: Items whose figure is shown to be larger.
        above: Items whose figure is shown to be smaller.
        first: First of the places that it may have.
        last: Last of them.
        best: Whether it is shown better than every other.
        stopped: Whether it has no figure and stands behind all that have one.
    """

    name: str
    below: tuple[str, ...]
    above: tuple[str, ...]
    first: int
    last: int
    best: bool
    stopped: bool


@dataclass(frozen=True)
class SpreadRow:
    """Where the spread of one item comes from.

    Attributes:
        name: The item.
        rests: Its pieces and runs, and what the pieces tell beside their mean.
        origin: pooled, own, declared or none.
        deviation: Standard deviation; None where the origin is none.
        dof: Degrees of freedom, as text.
        declared_from: Where a declared one comes from.
    """

    name: str
    rests: PiecesView
    origin: SpreadOrigin
    deviation: Both | None
    dof: str
    declared_from: str


@dataclass(frozen=True)
class LoosestRow:
    """The item that scatters more than the others: its standard deviation and theirs, and its pieces."""

    name: str
    deviation: Both
    others: Both
    pieces: int
    others_pieces: int


@dataclass(frozen=True)
class AssumedRow:
    """An assumption that costs some figures most of what is assumed: their items, its share in each."""

    what: str
    figures: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class SureView:
    """Everything that `fragments/pairs.html.jinja` and its neighbours are given.

    Attributes:
        heating: Whether the figures are rises, so that lower is cooler.
        pairs: Every pair.
        tests: By which spreads the pairs are compared, and how many by each.
        compared: How many of them speak of the products, and are held together.
        places: Where each item stands; empty where fewer than three do: then the pair says it all.
        spreads: Where each item's spread comes from.
        pooled: Whether any is pooled over several items, which takes for granted that they scatter alike.
        loosest: The item that was found to scatter more; None without one.
        budgets: How each figure's ± is made up.
        assumed: Which assumption costs each figure most.
        single: Items whose figure is without a spread between pieces.
    """

    heating: bool
    pairs: tuple[PairRow, ...]
    tests: tuple[tuple[str, int], ...]
    compared: int
    places: tuple[PlaceRow, ...]
    spreads: tuple[SpreadRow, ...]
    pooled: bool
    loosest: LoosestRow | None
    budgets: tuple[BudgetView, ...]
    assumed: tuple[AssumedRow, ...]
    single: tuple[str, ...]

    @property
    def alone(self) -> tuple[str, ...]:
        """Items of one piece and one run, of which no spread is known."""
        return tuple(row.name for row in self.spreads if row.origin == "none" and row.rests.runs <= 1)

    @property
    def told_apart(self) -> int:
        """How many pairs are shown to differ."""
        return sum(pair.said == "shown" for pair in self.pairs)


@dataclass(frozen=True)
class Probes:
    """Probes of one tolerance: their ids, and the tolerance as stated."""

    ids: tuple[str, ...]
    tolerance: str


@dataclass(frozen=True)
class Errors:
    """What the ± of a report's figures holds.

    Attributes:
        meters: Names of the meters.
        probes: The probes.
        others: Every other source by the first words of its label, each once.
    """

    meters: tuple[str, ...]
    probes: tuple[Probes, ...]
    others: tuple[str, ...]


def sure_view(measure: MeasureFinding, names: Mapping[str, str]) -> SureView:
    """From one measure's findings to what is printed of their certainty."""
    unit, pieces = shown(measure), {each.item: each.n for each in measure.items}
    figures = [each for each in measure.items if each.figure is not None]
    budgets = [
        budget_view(each, each.budget, names[each.item])
        for each in in_unit(unit, measure).items
        if each.budget is not None
    ]
    return SureView(
        measure.kind == "heating",
        tuple(_pair(pair, names, unit, of=pieces) for pair in measure.pairs),
        _tests(measure),
        sum(pair.known for pair in measure.pairs),
        _places(measure, names),
        tuple(_spread(each, names[each.item], unit, measure) for each in figures),
        _pooled(figures),
        _loosest(measure, names, unit),
        tuple(budgets),
        _assumed(budgets),
        tuple(names[each.item] for each in figures if each.spread.origin == "none"),
    )


def errors_in(measures: Iterable[MeasureFinding], instruments: Mapping[str, Instrument]) -> Errors:
    """Every source of error in the budgets, each once; those of a meter or probe by its name alone."""
    budgets = [item.budget for measure in measures for item in measure.items if item.budget]
    labels = [row.label.partition(": ") for budget in budgets for row in budget.rows]
    sensors = sorted({sensor for sensor, colon, _ in labels if colon})
    meters = [re.split("[ ,]", each)[0] for each in sensors if not each.startswith(_PROBE)]
    probes: dict[str, list[str]] = {}
    for each in sensors:
        if each.startswith(_PROBE):
            name, _, tolerance = each.removeprefix(_PROBE).partition(", ")
            probes.setdefault(as_printed(tolerance), []).append(name)
    return Errors(
        tuple(dict.fromkeys(instruments[each].name for each in meters)),
        tuple(Probes(tuple(ids), tolerance) for tolerance, ids in probes.items()),
        tuple(dict.fromkeys(label.partition(", ")[0] for label, colon, _ in labels if not colon)),
    )


def _pair(pair: PairFinding, names: Mapping[str, str], unit: Shown, *, of: Mapping[str, int]) -> PairRow:
    if pair.known:
        said = "shown" if pair.shown else "none found"
    else:
        said = "one each" if of[pair.first] == of[pair.second] == 1 else "pieces only"
    gap = unit.gap(pair.difference.value, pair.half_width)
    sees = None if pair.gap is None else unit.size(pair.gap)
    pieces = of[pair.first], of[pair.second]
    return PairRow(names[pair.first], names[pair.second], gap, pieces, said, sees)


def _tests(measure: MeasureFinding) -> tuple[tuple[str, int], ...]:
    by = ["-".join(pair.by) for pair in measure.pairs if pair.known and pair.by]
    return tuple((code, by.count(code)) for code in sorted(set(by)))


def _assumed(budgets: Iterable[BudgetView]) -> tuple[AssumedRow, ...]:
    found: dict[str, list[tuple[str, str]]] = {}
    for each in budgets:
        if each.dearest is not None:
            found.setdefault(each.dearest.what, []).append((each.name, each.dearest.share))
    return tuple(AssumedRow(what, tuple(each)) for what, each in found.items())


def _places(measure: MeasureFinding, names: Mapping[str, str]) -> tuple[PlaceRow, ...]:
    standing = [(each.place, each) for each in measure.items if each.place is not None]
    if len(standing) < FEWEST_PLACES:
        return ()
    standing.sort(key=lambda row: (row[0].first, row[0].last, row[1].order))
    return tuple(_place(place, item, measure, names) for place, item in standing)


def _place(place: Place, item: ItemFinding, measure: MeasureFinding, names: Mapping[str, str]) -> PlaceRow:
    shown = [pair for pair in measure.pairs if pair.known and pair.shown]
    return PlaceRow(
        names[item.item],
        tuple(names[pair.second] for pair in shown if pair.first == item.item),
        tuple(names[pair.first] for pair in shown if pair.second == item.item),
        place.first,
        place.last,
        place.best,
        item.figure is None,
    )


def _pooled(figures: Iterable[ItemFinding]) -> bool:
    """Whether a spread is pooled over more than one item."""
    origins = [each.spread.origin for each in figures if each.n > 1]
    return "pooled" in origins and len(origins) > 1


def _loosest(measure: MeasureFinding, names: Mapping[str, str], unit: Shown) -> LoosestRow | None:
    found = measure.loosest
    if found is None:
        return None
    more = {each.item: each.n for each in measure.items if each.figure is not None and each.n > 1}
    own = more.pop(found.item)
    sizes = unit.size(found.deviation), unit.size(found.others)
    return LoosestRow(names[found.item], *sizes, own, sum(more.values()))


def _spread(item: ItemFinding, name: str, unit: Shown, measure: MeasureFinding) -> SpreadRow:
    spread = item.spread
    known = spread.origin != "none"
    return SpreadRow(
        name,
        pieces_view(item, unit, measure),
        spread.origin,
        unit.size(spread.deviation) if known else None,
        dof_text(spread.dof) if known else "",
        spread.declared_from,
    )
