"""What the template of an item's card is given: its figures, its pieces, what is printed on it, opinions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.charts.numerals import plain
from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding
from generator.evaluation.versions import counts, is_mean
from generator.pages.conductance import ConductanceRow, conductance_rows
from generator.pages.ends import EndsView, ends_view
from generator.pages.format import Both, Day, Plus, amperes, as_printed, day, minutes, quantity
from generator.pages.older import OlderView
from generator.pages.pieces import PiecesView, pieces_view
from generator.pages.prices import Price, price_each
from generator.pages.provenance import Provenance, provenance
from generator.pages.seen import showed
from generator.pages.shown import Shown, shown
from generator.pages.stocks import stock_name
from generator.pages.tallied import Told
from generator.records.run import Run
from generator.records.schema.item import Item, Specimen
from generator.records.schema.run import Opinion


@dataclass(frozen=True)
class RunOf:
    """A run of a piece: its day, its figure or why it has none, and at how many minutes it was stopped.

    `counted`: whether its piece rests on it; `termination`: empty where the piece has one; `showed`: highest
    that an infra-red meter showed where nothing may be made of it; `heating`: of the piece, 0 for none.
    """

    day: Day
    plus: Plus | None
    why_not: str
    stopped: str
    counted: bool
    termination: str = ""
    showed: Both | None = None
    heating: int = 0


@dataclass(frozen=True)
class PieceFigure:
    """One piece: its letter, the name of its stock where that is an older one, its runs, and their mean."""

    letter: str
    older: str
    runs: tuple[RunOf, ...]
    mean: Plus | None = None


@dataclass(frozen=True)
class CardFigure:
    """One measure of an item.

    Attributes:
        measure: Id of the measure.
        title: Its name.
        mark: The time mark of a rise; empty of anything else.
        current: The set current; empty without one.
        plus: The figure; None without one.
        why_not: Why there is none; empty with one.
        rests: Pieces and runs that it rests on, and what the pieces tell beside it.
        meter_only: Whether the ± is the meter's alone.
        stopped: Pieces that were stopped.
        pieces: Each piece with its own figure.
        ends: How its runs of heating ended; None where there is none.
        excess: What it is hotter than the controls of its days; None without them.
        older: Name of the stock that it stands for, where that is not the card's.
        conductances: Of a power, that over the settled rise, run by run.
    """

    measure: str
    title: str
    mark: str
    current: str
    plus: Plus | None
    why_not: str
    rests: PiecesView
    meter_only: bool
    stopped: int
    pieces: tuple[PieceFigure, ...]
    ends: EndsView | None
    excess: Plus | None = None
    older: str = ""
    conductances: tuple[ConductanceRow, ...] = ()


@dataclass(frozen=True)
class RatingRow:
    """A figure printed on the item or said of it, and what it rests on."""

    limit: str
    value: Both
    standing: str
    source: str


@dataclass(frozen=True)
class Basis:
    """What an opinion rests on: a run, by its piece and day, or a text as written."""

    text: str
    piece: str = ""
    day: Day | None = None


@dataclass(frozen=True)
class OpinionView:
    """An opinion and what it rests on."""

    text: str
    basis: tuple[Basis, ...]


@dataclass(frozen=True)
class Card:
    """Everything that an item's part of the report is given.

    Attributes:
        id: Id of the item.
        name: Maker and model.
        what: What it is; empty where the record does not say.
        stock: Name of the newest stock that was tested; empty where there is one only, or the first.
        tell_by: How to tell that stock.
        figures: One a measure.
        provenance: Where its pieces came from.
        price: What a piece cost.
        bought: Days of buying, first and last; empty where nothing was bought.
        ratings: What is printed on it.
        notes: What the record adds.
        opinions: What the reviewer thinks of it.
        tallied: What was counted and asked of it.
        older: Its results from before, by measure.
    """

    id: str
    name: str
    what: str
    stock: str
    tell_by: str
    figures: tuple[CardFigure, ...]
    provenance: tuple[Provenance, ...]
    price: Price | None
    bought: tuple[Day, ...]
    ratings: tuple[RatingRow, ...]
    notes: str
    opinions: tuple[OpinionView, ...]
    tallied: tuple[Told, ...] = ()
    older: tuple[OlderView, ...] = ()

    def stock_of(self, measure: str) -> str:
        """Name of the stock that the figure of a measure stands for; as `stock`."""
        older = next((each.older for each in self.figures if each.measure == measure), "")
        return older or self.stock

    def stops(self, measure: str) -> tuple[str, ...]:
        """Minutes at which its pieces were stopped, earlier stocks apart."""
        pieces = (piece for each in self.figures if each.measure == measure for piece in each.pieces)
        return tuple(run.stopped for piece in pieces if not piece.older for run in piece.runs if run.stopped)


def card(
    key: str,
    item: Item,
    measures: Sequence[MeasureFinding],
    runs: Mapping[str, Run],
    opinions: Sequence[Opinion],
    *,
    titles: Mapping[str, str],
) -> Card:
    """The card of one item.

    Args:
        key: Id of the item.
        item: Its record.
        measures: The report's findings.
        runs: The report's runs by id.
        opinions: The opinions of the report; those of its runs are added.
        titles: Names of the measures by id.
    """
    found = [(measure, each) for measure in measures for each in measure.items if each.item == key]
    letters = sorted({run.specimen for run in runs.values() if run.item == key})
    tested = {letter: item.specimens[letter].stock or "" for letter in letters}
    standing = item.newest_stock([each.stock for _, each in found] or tested.values())
    stock = item.stocks.get(standing)
    newest = [item.specimens[letter] for letter, of in tested.items() if of == standing]
    return Card(
        key,
        item.title,
        item.what or "",
        stock.name if stock else "",
        (stock.tell_by or "") if stock else "",
        tuple(_figure(*each, item, runs, titles=titles, standing=standing) for each in found),
        provenance(letters, item),
        price_each(newest),
        _days(newest),
        _ratings(item),
        item.notes or "",
        tuple(opinion_view(each, runs) for each in _opinions(key, runs, opinions)),
    )


def _ratings(item: Item) -> tuple[RatingRow, ...]:
    return tuple(
        RatingRow(each.limit, quantity(each.value), each.standing, as_printed(each.source))
        for each in item.ratings
    )


def _opinions(key: str, runs: Mapping[str, Run], opinions: Sequence[Opinion]) -> Iterator[Opinion]:
    """Opinions of an item: the report's own, then those of its runs."""
    yield from (each for each in opinions if each.item == key)
    yield from (each for run in runs.values() if run.item == key for each in run.opinions)


def opinion_view(opinion: Opinion, runs: Mapping[str, Run]) -> OpinionView:
    """An opinion; a run that it names is told by its piece and its day."""
    return OpinionView(opinion.text, tuple(_basis(text, runs) for text in opinion.basis))


def _basis(text: str, runs: Mapping[str, Run]) -> Basis:
    for key, run in runs.items():
        if text == key or key.endswith(f"/{text}"):
            return Basis(text, run.specimen, day(run.date))
    return Basis(text)


def _figure(
    measure: MeasureFinding,
    found: ItemFinding,
    item: Item,
    runs: Mapping[str, Run],
    *,
    titles: Mapping[str, str],
    standing: str,
) -> CardFigure:
    unit = shown(measure)
    pieces = tuple(_piece(piece, found, item, runs, unit) for piece in found.pieces)
    mark = minutes(measure.at) if measure.at is not None and measure.kind == "heating" else ""
    return CardFigure(
        measure.measure,
        titles[measure.measure],
        mark,
        amperes(measure.set_current),
        unit.figure(found.figure),
        found.why_not or "",
        pieces_view(found, unit, measure),
        found.figure is not None and found.n == 1 and found.spread.origin == "none",
        sum(any(run.stopped for run in piece.runs) for piece in pieces if not piece.older),
        pieces,
        ends_view(found, mark) if measure.kind == "heating" else None,
        unit.figure(found.excess),
        "" if found.stock == standing else stock_name(item, found.stock),
        conductance_rows(found),
    )


def _piece(
    piece: PieceFinding, found: ItemFinding, item: Item, runs: Mapping[str, Run], unit: Shown
) -> PieceFigure:
    older = "" if piece.stock == found.stock else stock_name(item, piece.stock)
    mean = is_mean(piece)
    terminations = {_termination(runs[run.run]) for run in piece.runs}
    told = tuple(
        RunOf(
            day(run.date),
            unit.figure(run.figure),
            run.why_not or "",
            _stopped(runs[run.run]),
            counts(run, piece),
            _termination(runs[run.run]) if len(terminations) > 1 else "",
            showed(run),
            run.heating or 0,
        )
        for run in piece.runs
    )
    return PieceFigure(piece.specimen, older, told, unit.figure(piece.figure) if mean else None)


def _stopped(run: Run) -> str:
    """At how many minutes a run was stopped; empty where it was not."""
    return plain(round(run.stopped.at.si / 60, 1)) if run.stopped else ""


def _termination(run: Run) -> str:
    return str(run.termination.number if run.termination is not None else 1)


def _days(specimens: Iterable[Specimen]) -> tuple[Day, ...]:
    days = sorted({each.date for each in specimens if each.date is not None and each.paid is not None})
    return tuple(day(each) for each in dict.fromkeys((*days[:1], *days[-1:])))
