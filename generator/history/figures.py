"""Findings → the figures that an edition keeps, as printed; the same read back from an edition."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from generator.analysis.counts import Share
from generator.analysis.interval import Estimate
from generator.analysis.rounding import rounded
from generator.evaluation.counted import ItemCheck, ItemCount, ItemEndurance
from generator.evaluation.findings import ItemFinding, MeasureFinding, ReportFinding
from generator.evaluation.statements import gravest_told
from generator.records.schema.edition import PublishedFigure
from generator.records.writer import Value

DIGITS = 9
"""Digits that are kept of an unrounded figure; the last bits differ between processors."""


@dataclass(frozen=True)
class Figure:
    """An item by a measure, as printed.

    Attributes:
        item: Id of the item.
        measure: Id of the measure.
        stock: The stock that it stands for; empty where the item has one only.
        value: The figure; empty without one.
        uncertainty: Half-width at 95 %; empty without.
        unit: Unit of both; empty without.
        unrounded: Both before rounding; None without.
        counted: So many of so many, in place of a figure; of endurance what each piece came to; empty
            without.
        outcome: Against the report's limits the gravest of what is said, else why there is no figure, else
            `measured`, `counted`, `asked` or `endured`.
        place: Its place among the items, as `2 to 3`; empty without.
        ends: How its runs ended, to how many did.
        pieces: Pieces that it rests on.
    """

    item: str
    measure: str
    stock: str = ""
    value: str = ""
    uncertainty: str = ""
    unit: str = ""
    unrounded: tuple[float, float] | None = None
    counted: str = ""
    outcome: str = "measured"
    place: str = ""
    ends: tuple[tuple[str, int], ...] = ()
    pieces: int = 0

    @property
    def printed(self) -> str:
        """What a reader sees of it: `41.3 ± 1.8 K`, `0 of 50`; empty without a figure."""
        if self.counted:
            return self.counted
        return f"{self.value} ± {self.uncertainty} {self.unit}" if self.value else ""


def figures_of(finding: ReportFinding) -> tuple[Figure, ...]:
    """The figures of a report, in its order: measures, counts, questions, then endurance."""
    return tuple(_all(finding))


def _all(finding: ReportFinding) -> Iterator[Figure]:
    for measure in finding.measures:
        yield from (_of_item(measure, item) for item in measure.items)
    for count in finding.counts:
        for counted in count.items:
            yield _tallied(count.measure, counted, _share(counted.trials), "counted", counted.n)
    for check in finding.checks:
        for asked in check.items:
            yield _tallied(check.measure, asked, _share(asked.against), "asked", len(asked.answers))
    for endurance in finding.endurances:
        for endured in endurance.items:
            yield _tallied(endurance.measure, endured, _lives(endured), "endured", len(endured.lives))


def _tallied(
    measure: str, item: ItemCount | ItemCheck | ItemEndurance, told: str, outcome: str, pieces: int
) -> Figure:
    return Figure(item.item, measure, item.stock, counted=told, outcome=outcome, pieces=pieces)


def _lives(item: ItemEndurance) -> str:
    """Every life by its piece, in the words of a record: all that is told of endurance comes of these."""
    told = (f"{letter} {'broke at' if life.failed else 'over'} {life.cycles}" for letter, life in item.lives)
    return ", ".join(told)


def _share(share: Share | None) -> str:
    return f"{share.k} of {share.n}" if share is not None else ""


def _of_item(measure: MeasureFinding, item: ItemFinding) -> Figure:
    value, uncertainty = _printed(item.figure)
    place = item.place
    ends = Counter(
        run.end.state
        for piece in item.pieces
        if piece.stock == item.stock
        for run in piece.runs
        if run.end is not None
    )
    return Figure(
        item=item.item,
        measure=measure.measure,
        stock=item.stock,
        value=value,
        uncertainty=uncertainty,
        unit=measure.unit if value else "",
        unrounded=(item.figure.value, item.figure.half_width) if item.figure is not None else None,
        outcome=gravest_told(item.limits) or item.why_not or "measured",
        place=_place(place.first, place.last) if place is not None else "",
        ends=tuple(sorted(ends.items())),
        pieces=item.n,
    )


def _place(first: int, last: int) -> str:
    return str(first) if first == last else f"{first} to {last}"


def _printed(figure: Estimate | None) -> tuple[str, str]:
    return as_printed(figure.value, figure.half_width) if figure is not None else ("", "")


def as_printed(value: float, half_width: float) -> tuple[str, str]:
    """A figure and its half-width at 95 % as an edition has them; an exact one has a half-width of 0."""
    if half_width <= 0:
        return f"{value:.{DIGITS}g}", "0"
    text = rounded(value, half_width)
    return text.value_text, text.uncertainty_text


def as_record(figure: Figure) -> dict[str, Value]:
    """A figure as an edition's file has it; what is empty is left out."""
    found: dict[str, Value] = {
        "item": figure.item,
        "measure": figure.measure,
        "stock": figure.stock,
        "value": figure.value,
        "uncertainty": figure.uncertainty,
        "unit": figure.unit,
        "counted": figure.counted,
        "outcome": figure.outcome,
        "place": figure.place,
        "ends": {state: str(count) for state, count in figure.ends},
        "pieces": str(figure.pieces),
    }
    if figure.unrounded is not None:
        found["unrounded"] = " ± ".join(f"{number:.{DIGITS}g}" for number in figure.unrounded)
    return {key: each for key, each in found.items() if each}


def published(record: PublishedFigure) -> Figure:
    """A figure as an edition has it.

    Raises:
        ValueError: Its unrounded figure is no pair of numbers.
    """
    value, parted, half_width = (record.unrounded or "").partition("±")
    return Figure(
        item=record.item,
        measure=record.measure,
        stock=record.stock or "",
        value=record.value or "",
        uncertainty=record.uncertainty or "",
        unit=record.unit or "",
        unrounded=(float(value), float(half_width)) if parted else None,
        counted=record.counted or "",
        outcome=record.outcome,
        place=record.place or "",
        ends=tuple(sorted(record.ends.items())),
        pieces=record.pieces,
    )
