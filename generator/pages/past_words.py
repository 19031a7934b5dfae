"""What an edition changed, in names and in both systems of units, from the codes of its records."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.history.change import Change
from generator.history.figures import Figure, published
from generator.history.moved import Moved
from generator.history.past import Past
from generator.history.scattered import Scattered
from generator.pages.alone import alone
from generator.pages.corrected import changed_keys
from generator.pages.format import Plus, as_printed, day, significant
from generator.pages.parts import titles_of
from generator.pages.past_views import (
    ChangeView,
    CorrectedView,
    EditionView,
    FigureView,
    MovedView,
    PartView,
    RunView,
    ScatteredView,
)
from generator.pages.report import disclosure_of, methods_of
from generator.pages.shown import Shown, shown_in
from generator.pages.stocks import stock_name
from generator.records.bench import Bench, Report
from generator.records.run import Run
from generator.records.schema.edition import Edition


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


TOLD_APART = frozenset({"report.runs", "report.choice"})
"""Keys whose change is told in a sentence of its own."""


@dataclass(frozen=True)
class Words:
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
            as_printed(each.summary),
            each.authorised,
            each.hash,
            disclosure_of(self.bench, self.report),
            self.change(each.change, each.reason) if each.change is not None else None,
            tuple(map(self.scattered, each.scattered)),
        )

    def scattered(self, each: Scattered) -> ScatteredView:
        """A ratio of spreads, to two digits."""
        spread, titles = each.spread, titles_of(self.report, methods_of(self.bench, self.report))
        ratio, low, high = (significant(number) for number in (spread.ratio, spread.low, spread.high))
        title = titles.get(each.measure, each.measure)
        return ScatteredView(self.name(each.item), title, each.pieces, ratio, low, high, spread.shown)

    def change(self, made: Change, reason: str) -> ChangeView:
        """A change in names."""
        titles = titles_of(self.report, methods_of(self.bench, self.report))
        moved = tuple(self.moved(each, titles.get(each.measure, each.measure), reason) for each in made.moved)
        choice = (self.name(made.choice[0]), self.name(made.choice[1])) if made.choice else None
        new, gone = (tuple(map(self.run, runs)) for runs in (made.new_runs, made.gone_runs))
        corrected = tuple(
            CorrectedView(self.run(each.run), each.because, changed_keys(each.changed))
            for each in made.corrected
        )
        parts = tuple(self.parts(made.parts))
        return ChangeView(moved, choice, new, gone, parts, made.withdrawn, corrected)

    def moved(self, each: Moved, title: str, reason: str) -> MovedView:
        """One figure, old and new."""
        unit = self.unit(each.now if each.now is not None and each.now.unit else each.was or each.now)
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
            if path in TOLD_APART:
                continue
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
