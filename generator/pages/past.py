"""Editions as pages tell them: names for ids, figures in both systems of units, what each edition changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from generator.history.change import WITHDRAWAL, Change
from generator.history.figures import Figure, published
from generator.history.frozen import as_published
from generator.history.moved import Moved
from generator.history.past import Past, past
from generator.pages.alone import alone
from generator.pages.disclosure import Disclosure
from generator.pages.format import Day, Plus, day
from generator.pages.parts import titles_of
from generator.pages.report import disclosure_of, methods_of
from generator.pages.shown import Shown, shown_in
from generator.pages.stocks import stock_name
from generator.records.bench import Bench, Report
from generator.records.run import Run
from generator.records.schema.edition import Edition


@dataclass(frozen=True)
class FigureView:
    """A figure as an edition has it.

    Attributes:
        plus: With its ±; None without a figure.
        counted: So many of so many, in place of one; empty without.
        outcome: What was said of it, or why there is none.
        place: Its place among the items; empty without.
        ends: How its runs ended, and how many did.
        pieces: Pieces that it rests on.
        stock: Name of its stock; empty where the item has one only.
    """

    plus: Plus | None
    counted: str
    outcome: str
    place: str
    ends: tuple[tuple[str, int], ...]
    pieces: int
    stock: str


@dataclass(frozen=True)
class MovedView:
    """An item by a measure that is told otherwise than in the edition before.

    Attributes:
        item: Name of the item.
        measure: Name of the measure.
        rise: Whether its figures are rises above the air.
        was: Its figure then; None where there was none.
        now: Its figure now; None where it is no longer told.
        main: Whether the measure is the one that answers the report's question.
        figure, outcome, place, ends: Which of these is another.
        difference: Of two figures that may differ because the product does; None without.
        outside: Of one figure read anew: whether it left the interval that was published; None without.
    """

    item: str
    measure: str
    rise: bool
    was: FigureView | None
    now: FigureView | None
    main: bool
    figure: bool
    outcome: bool
    place: bool
    ends: bool
    difference: Plus | None
    outside: bool | None


@dataclass(frozen=True)
class RunView:
    """A run: its item or control by name, its piece, its day."""

    name: str
    piece: str
    day: Day


@dataclass(frozen=True)
class PartView:
    """Keys of a record that say something else: of the report, the bench, an item or a meter by name."""

    of: Literal["report", "items", "instruments", "bench"]
    name: str
    keys: tuple[str, ...]


@dataclass(frozen=True)
class ChangeView:
    """What an amendment changed; of `choice` each name is empty where none was chosen."""

    moved: tuple[MovedView, ...]
    choice: tuple[str, str] | None
    new_runs: tuple[RunView, ...]
    gone_runs: tuple[RunView, ...]
    parts: tuple[PartView, ...]
    withdrawn: bool


@dataclass(frozen=True)
class EditionView:
    """An edition.

    Attributes:
        report: Id of its report.
        question: The report's question as this edition has it.
        number: Its number.
        day: The day of publishing.
        reason: Why; empty at the first.
        summary: What changed, in a sentence; may be empty at the first.
        authorised: Who authorised it.
        hash: Its fingerprint.
        disclosure: Who got the pieces and how, as this edition has it.
        change: What it changed; None at the first.
    """

    report: str
    question: str
    number: int
    day: Day
    reason: str
    summary: str
    authorised: str
    hash: str
    disclosure: Disclosure
    change: ChangeView | None


@dataclass(frozen=True)
class Told:
    """A report with its editions, oldest first; one at least."""

    report: Report
    editions: tuple[EditionView, ...]

    @property
    def latest(self) -> EditionView:
        """The newest edition."""
        return self.editions[-1]

    @property
    def withdrawn(self) -> bool:
        """Whether the newest edition withdraws it."""
        return self.latest.reason == WITHDRAWAL


def told_editions(bench: Bench) -> tuple[Told, ...]:
    """Every report that has an edition, by id.

    Args:
        bench: The records, without faults: what editions rest on is as it was.
    """
    with_editions = (report for _, report in sorted(bench.reports.items()) if report.editions)
    return tuple(_told(bench, report) for report in with_editions)


def newest_editions(told: Iterable[Told]) -> tuple[EditionView, ...]:
    """Every edition of every report, newest first; of one day, by report, its newest first."""
    every = [edition for each in told for edition in reversed(each.editions)]
    return tuple(sorted(every, key=lambda each: each.day.iso, reverse=True))


def _told(bench: Bench, report: Report) -> Told:
    units = units_of_measures(report)
    made = []
    for each in past(bench, report):
        was, then = as_published(bench, report, report.editions[each.number])
        words = _Words(was, then, units)
        made.append(words.edition(each))
    return Told(report, tuple(made))


def units_of_measures(report: Report) -> dict[tuple[str, str], Shown]:
    """In which unit each measure's figures stand, by the measure and the unit they were published in.

    All editions of it are told in one, so that old and new stand beside each other.
    """
    values: dict[tuple[str, str], list[float]] = {}
    for edition in report.editions.values():
        for figure in figures_in(edition):
            if figure.unrounded is not None:
                values.setdefault((figure.measure, figure.unit), []).append(figure.unrounded[0])
    return {key: shown_in(key[1], every) for key, every in values.items()}


def figures_in(edition: Edition) -> tuple[Figure, ...]:
    """The figures of an edition."""
    return tuple(published(each) for each in edition.figures)


@dataclass(frozen=True)
class _Words:
    """Names as one edition has them: its bench, its report, and units by measure."""

    bench: Bench
    report: Report
    units: Mapping[tuple[str, str], Shown]

    def edition(self, each: Past) -> EditionView:
        """The edition with its change."""
        return EditionView(
            self.report.id,
            self.report.record.question,
            each.number,
            day(each.day),
            each.reason,
            each.summary,
            each.authorised,
            each.hash,
            disclosure_of(self.bench, self.report),
            self.change(each.change, each.reason) if each.change is not None else None,
        )

    def change(self, made: Change, reason: str) -> ChangeView:
        """A change in names."""
        titles = titles_of(self.report, methods_of(self.bench, self.report))
        moved = tuple(self.moved(each, titles.get(each.measure, each.measure), reason) for each in made.moved)
        choice = (self.name(made.choice[0]), self.name(made.choice[1])) if made.choice else None
        new, gone = (tuple(map(self.run, runs)) for runs in (made.new_runs, made.gone_runs))
        return ChangeView(moved, choice, new, gone, tuple(self.parts(made.parts)), made.withdrawn)

    def moved(self, each: Moved, title: str, reason: str) -> MovedView:
        """One figure, old and new."""
        unit = self.unit(each.now or each.was)
        return MovedView(
            self.name(each.item),
            title,
            unit.unit == "K",
            self.figure(each.was),
            self.figure(each.now),
            each.measure == self.report.record.main,
            each.figure,
            each.outcome,
            each.place,
            each.ends,
            unit.gap(*each.gap) if each.gap is not None and each.figure and reason == "retest" else None,
            each.outside if each.figure and reason == "correction" else None,
        )

    def figure(self, found: Figure | None) -> FigureView | None:
        """A figure in both systems of units."""
        if found is None:
            return None
        said = (found.counted, found.outcome, found.place, found.ends, found.pieces)
        plus = None if found.unrounded is None else shown_figure(self.unit(found), *found.unrounded)
        item = self.bench.items.get(found.item)
        return FigureView(plus, *said, stock_name(item, found.stock) if item is not None else found.stock)

    def unit(self, figure: Figure | None) -> Shown:
        """How figures of a measure are written."""
        if figure is None:
            return Shown("")
        return self.units.get((figure.measure, figure.unit), Shown(figure.unit))

    def name(self, item: str) -> str:
        """An item or a control, as readers know it; empty for none."""
        known = self.bench.items.get(item)
        return known.title if known is not None else item.replace("-", " ")

    def run(self, key: str) -> RunView:
        """A run; it is still among the records, whatever rests on it."""
        run: Run = self.bench.runs[key]
        return RunView(self.name(run.item or run.control or ""), run.specimen or "", day(run.date))

    def parts(self, paths: Iterable[str]) -> Iterator[PartView]:
        """Keys that say something else, by the record that they stand in."""
        found: dict[tuple[str, str], list[str]] = {}
        for path in paths:
            of, _, rest = path.partition(".")
            name, _, key = rest.partition(".") if of in {"items", "instruments"} else ("", "", rest)
            found.setdefault((of, name), []).append(key.partition(".")[0])
        for (of, name), keys in found.items():
            told = self.name(name) if of == "items" else self.meter(name)
            yield PartView(of, told, tuple(dict.fromkeys(filter(None, keys))))  # type: ignore[arg-type]

    def meter(self, key: str) -> str:
        """A meter's name; empty for none."""
        known = self.bench.instruments.get(key)
        return known.name if known is not None else key


def shown_figure(unit: Shown, value: float, half_width: float) -> Plus:
    """A published figure with its ±; alone where it has none."""
    if half_width > 0:
        return unit.plus(value, half_width)
    return alone(value * unit.factor, unit.unit)
