"""Findings: what the evaluation found, as plain facts. Words and sentences are made by the pages.

Quantities are in SI (times in s, rises in K, temperatures in °C); `unit` names the unit of a figure.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.budget import Budget
from generator.analysis.interval import Estimate
from generator.analysis.specimens import Origin
from generator.evaluation.conditions import Departure, Unlike
from generator.evaluation.conductance import Conductance
from generator.evaluation.counted import CheckFinding, CountFinding, EnduranceFinding
from generator.evaluation.ends import End
from generator.evaluation.older import OlderFinding
from generator.evaluation.priced import NO_PRICES, PriceFinding
from generator.evaluation.sought import Sought, known
from generator.evaluation.spreads import Ahead, Apart, Loosest, Repeats, Spread
from generator.evaluation.statements import Better, InAir, LimitFinding, NotHeld, Place
from generator.evaluation.values import Reading, Value
from generator.evaluation.why_not import WhyNot
from generator.evaluation.worked import Reduction, WorkedRise, WorkedSurface
from generator.evaluation.worked_electrical import WorkedElectrical


@dataclass(frozen=True)
class RunFinding:
    """One run by its method.

    Attributes:
        run: Id of the run.
        item: Id of the item, or of the control.
        specimen: Letter of the piece; empty for a control.
        date: ISO date of the run.
        method: Id and version, `closed-box-heating/2`.
        readings: The reduced readings in order of time; empty for a kind without a series.
        figure: The measure's figure of this run with everything uncertain about it, or None.
        parts: How its uncertainty is made up, known or to be sought; None without a figure.
        why_not: Why there is no figure; None where there is one.
        mean_current: Root mean square of the current up to the mark, A; None where not read.
        correction: What the correction to the set current added to the rise, K; None without one.
        end: How it ended; None for a kind without a series.
        ramp: How the air went over the run, K/h; None where it was not read twice.
        departures: Conditions that were outside the method's tolerances.
        worked: How the figure was worked out; None without one.
        values: Its readings, for a kind without a series.
        by: How they became its figure; None without one.
        electrical: How a drop, a resistance or a power was worked out; None for another kind.
        seen: How an infra-red reading became the temperature of a surface; None by other meters.
        conductance: Of a power, that over the rise which the same run settles at; None where there is no
            heating beside it.
        heating: Which heating of its piece it was; None of one that did not complete, and of another kind.
    """

    run: str
    item: str
    specimen: str
    date: str
    method: str
    readings: tuple[Reading, ...]
    figure: Estimate | None
    parts: Budget | Sought[Budget] | None
    why_not: WhyNot | None = None
    mean_current: float | None = None
    correction: float | None = None
    end: End | None = None
    ramp: float | None = None
    departures: tuple[Departure, ...] = ()
    worked: WorkedRise | None = None
    values: tuple[Value, ...] = ()
    by: Reduction | None = None
    electrical: WorkedElectrical | None = None
    seen: WorkedSurface | None = None
    conductance: Conductance | None = None
    heating: int | None = None

    @property
    def budget(self) -> Budget | None:
        """How the uncertainty of its figure is made up."""
        return known(self.parts)


@dataclass(frozen=True)
class PieceFinding:
    """One piece.

    Its figure is its first completed heating, later ones being shown and not averaged; by other kinds of
    measure it is the mean of its runs.

    Attributes:
        specimen: Letter of the piece.
        stock: Id of its stock; empty where the item has one stock only.
        runs: Its runs in order of date.
        figure: Its own figure, everything but the spread between pieces in its interval; None without one.
    """

    specimen: str
    stock: str
    runs: tuple[RunFinding, ...]
    figure: Estimate | None


@dataclass(frozen=True)
class CurvePoint:
    """One point of an item's mean curve.

    Attributes:
        time: s.
        rise: Mean over its pieces, K, corrected as the figure is.
        reach: Half-width of its 95 % band, K, drawn with the coverage factor of the figure at the mark; known
            or to be sought.
    """

    time: float
    rise: float
    reach: float | Sought[float]

    @property
    def half_width(self) -> float:
        """Half-width of its 95 % band, K."""
        return known(self.reach)


@dataclass(frozen=True)
class ItemFinding:
    """One item (its newest stock) or one control by one measure.

    Attributes:
        item: Id of the item or of the control.
        control: Whether it is a control.
        stock: Id of the stock that the figure stands for; empty where there is one only.
        pieces: Its pieces in order of their letters.
        n: Pieces that the figure rests on.
        runs: Runs made on them.
        figure: Mean over the pieces with its interval; None without one.
        budget: How its uncertainty is made up; None without a figure.
        spread: The spread between pieces that it rests on.
        why_not: Why there is no figure; None where there is one.
        order: Place in the report's list of items, from 0; decides colour and marker.
        curve: The mean curve of its pieces, at times that all were read at; empty without a figure.
        limits: What can be said against each limit that is for its point and its conditions.
        airs: Its temperature in air from cool to hot, against limits; empty for a kind without one.
        place: Where it stands; None for one that cannot be compared.
        warming: Whether it is still warming at a mark that runs of differing length share: it has no place.
        excess: What it is hotter than the controls of its days; None without them.
        rig: Half of what the controls of a day differ by where they do not agree; None where they do.
        repeats: Runs and terminations that the figure rests on; None without one.
        apart: The piece that lies away from the others; None without one.
        ahead: What pieces not yet tested may be like; None below three pieces.
    """

    item: str
    control: bool
    stock: str
    pieces: tuple[PieceFinding, ...]
    n: int
    runs: int
    figure: Estimate | None
    budget: Budget | None
    spread: Spread
    why_not: WhyNot | None = None
    order: int = 0
    curve: tuple[CurvePoint, ...] = ()
    limits: tuple[LimitFinding, ...] = ()
    airs: tuple[InAir, ...] = ()
    place: Place | None = None
    warming: bool = False
    excess: Estimate | None = None
    rig: float | None = None
    repeats: Repeats | None = None
    apart: Apart | None = None
    ahead: Ahead | None = None


@dataclass(frozen=True)
class PairFinding:
    """The difference of two items by one measure: second less first.

    Attributes:
        first: Id of the item with the smaller figure.
        second: Id of the other.
        difference: In the figure's unit, never negative, with its 95 % interval.
        half_width: Half-width printed for the pair, at the pair's own level among all pairs of the measure.
        p: Two-sided p-value of no difference.
        shown: Whether a difference is shown, all pairs of the measure held together at 5 % (Holm).
        known: False where a side has one piece and no declared spread: it speaks of two pieces only.
        gap: Of a pair not shown, the true gap found in four cases of five at its level; else None.
        by: Which spreads it rests on, each once; own alone is Welch's comparison.
    """

    first: str
    second: str
    difference: Estimate
    half_width: float
    p: float
    shown: bool
    known: bool = True
    gap: float | None = None
    by: tuple[Origin, ...] = ()


@dataclass(frozen=True)
class MeasureFinding:
    """One measure over all items of a report.

    Attributes:
        measure: Its id.
        kind: Its kind (`heating`, `scalar`).
        unit: Unit of its figures (`K`, `N`); temperatures are in °C, and their differences in K.
        method: Id of the method; versions that ran are in `versions`.
        versions: Versions of it that ran, ascending.
        at: Time mark of the comparison, s: the method's, or the longest that all reach; None without one.
        set_current: The set current in A; None for a kind without one.
        point: The point that gives the figure; empty for a kind without one.
        items: Items in the report's order.
        controls: Controls in order of date.
        pairs: Every pair of items with figures, smaller figures first.
        own_mark: The method's time mark, s: limits are held at it; None for a kind without one.
        not_held: The report's limits that no statement is made against, and why.
        unlike: What runs in the ranking do not share though their method allows it.
        better: Which way is better; None where neither is, and there are no places.
        loosest: The item that scatters more than those it is pooled with; None without one.
        older: Results from before of its items, in none of the above.
        heating: Which heating of each piece is compared; None for a kind that counts none.
    """

    measure: str
    kind: str
    unit: str
    method: str
    versions: tuple[int, ...]
    at: float | None
    set_current: float | None
    point: str
    items: tuple[ItemFinding, ...]
    controls: tuple[ItemFinding, ...]
    pairs: tuple[PairFinding, ...]
    own_mark: float | None = None
    not_held: tuple[NotHeld, ...] = ()
    unlike: tuple[Unlike, ...] = ()
    better: Better | None = "lower"
    loosest: Loosest | None = None
    older: tuple[OlderFinding, ...] = ()
    heating: int | None = None

    def has_run(self, run: str) -> bool:
        """Whether a run gave something to this measure, a figure or why there is none."""
        pieces = (piece for item in (*self.items, *self.controls) for piece in item.pieces)
        return any(each.run == run for piece in pieces for each in piece.runs)


@dataclass(frozen=True)
class ReportFinding:
    """All measures of one report.

    Attributes:
        report: Its id.
        main: Id of its main measure.
        measures: In the report's order.
        dates: ISO dates of its runs, ascending, each once.
        pieces: How many pieces were tested.
        counts: What was counted, in the report's order.
        checks: What was asked, in the report's order.
        endurances: How long pieces last, in the report's order.
        prices: What its items cost.
    """

    report: str
    main: str
    measures: tuple[MeasureFinding, ...]
    dates: tuple[str, ...]
    pieces: int
    counts: tuple[CountFinding, ...] = ()
    checks: tuple[CheckFinding, ...] = ()
    endurances: tuple[EnduranceFinding, ...] = ()
    prices: PriceFinding = NO_PRICES

    def measure(self, measure: str) -> MeasureFinding:
        """The finding of one measure by its id; raises KeyError where it is not of this report."""
        for each in self.measures:
            if each.measure == measure:
                return each
        raise KeyError(measure)
