"""Five items on one bench: how often equal ones are told apart, and how often a hotter one is found."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from generator.analysis.comparison import difference
from generator.analysis.multiple import holm
from generator.analysis.ranking import places
from generator.analysis.specimens import Spread
from tests.simulator.heat import Array
from tests.simulator.meters import generator
from tests.studies import plant, reduced
from tests.studies.coverage import RISE, Template

NAMES = tuple("abcdef")
FIVE = 5
DECLARED_DOF = 9
"""Degrees of freedom behind the spread that a method declares: ten pieces, measured once."""

SPREAD = 1.0
"""Standard deviation between pieces, K."""


@dataclass(frozen=True)
class Told:
    """What a number of reports said.

    Attributes:
        reports: How many.
        any_order: Reports with at least one pair shown.
        hotter_than_all: Reports in which the first item is shown hotter than every other.
        hotter_than_one: Reports in which it is shown hotter than at least one.
        ranked: Reports in which any item has a place.
    """

    reports: int
    any_order: int
    hotter_than_all: int
    hotter_than_one: int
    ranked: int


def study(
    seed: int,
    count: int,
    reports: int,
    *,
    items: int = FIVE,
    hotter: float = 0.0,
    declared: bool = True,
    looser: float = 1.0,
) -> Told:
    """Simulate reports on some items.

    Args:
        seed: Of everything.
        count: n, pieces of each item.
        reports: How many.
        items: On each report.
        hotter: By how many σ the first item's mean lies above the others; σ is the scatter from run to run,
            with all that is new in each.
        declared: Whether the method declares a spread for single pieces.
        looser: Spread between the first item's pieces over that of the others'.
    """
    named = ("ranks", str(count), f"{hotter:g}", str(declared))
    others = [f"{looser:g}"] if looser != 1.0 else []
    draw = generator(seed, *named, *others, *([f"{items} items"] if items != FIVE else []))
    template = Template(1.0, items, count, reduced.DEFAULT)
    new = _new_in_each_run(template)
    sigma = float(np.hypot(SPREAD, new))
    ohms = np.full((reports, items, count), plant.resistance_for(RISE))
    ohms[:, 0, :] = plant.resistance_for(RISE + hotter * sigma)
    deviations = SPREAD * plant.ohms_per_kelvin(RISE) * np.array([looser, *[1.0] * (items - 1)])
    ohms += draw.normal(0.0, deviations[:, np.newaxis], ohms.shape)
    values = reduced.rises(plant.heated(draw, ohms), 1.0, reduced.DEFAULT[0]).reshape(ohms.shape)
    # What an earlier series of pieces had told of σ.
    told = sigma * np.sqrt(draw.chisquare(DECLARED_DOF, reports) / DECLARED_DOF)
    spreads = [Spread(each, DECLARED_DOF, "declared") if declared else None for each in told.tolist()]
    found = [
        shown_pairs(template, each, spread, str(report))
        for report, (each, spread) in enumerate(zip(values, spreads, strict=True))
    ]
    worse = [sum(second == "a" for _, second in pairs or ()) for pairs in found]
    return Told(
        reports,
        any_order=sum(bool(pairs) for pairs in found),
        hotter_than_all=sum(each == items - 1 for each in worse),
        hotter_than_one=sum(each > 0 for each in worse),
        ranked=sum(pairs is not None for pairs in found),
    )


def shown_pairs(
    template: Template, values: Array, declared: Spread | None, report: str
) -> set[tuple[str, str]] | None:
    """Pairs (cooler, hotter) that a report shows; None where no pair may be ranked at all."""
    judged = template.figures(values, report, declared)
    figures, pooled = judged.figures, judged.pooled
    items = NAMES[: len(figures)]
    pairs = list(combinations(range(len(items)), 2))
    found = [difference(template.ledger, figures[first], figures[second], pooled) for first, second in pairs]
    known = [(pair, each) for pair, each in zip(pairs, found, strict=True) if each.spread_known]
    if not known:
        return None
    held = holm([each.p for _, each in known])
    shown = set()
    for ((first, second), each), verdict in zip(known, held, strict=True):
        if verdict.shown:
            cooler, hotter = (first, second) if each.estimate.value < 0 else (second, first)
            shown.add((items[cooler], items[hotter]))
    standing = places(items, shown)
    # Whoever has no pair shown may stand anywhere.
    if not shown and any((each.first, each.last) != (1, len(items)) for each in standing.values()):
        raise AssertionError(standing)
    return shown


def _new_in_each_run(template: Template) -> float:
    """Standard uncertainty of what is new in each run, K."""
    number = template.pieces[0][0]
    return float(np.sqrt(number.u**2 - template.ledger.without(number, {"run", "reading"}).u ** 2))
