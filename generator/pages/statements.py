"""What is said of items against limits: facts for the words of the templates."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from generator.analysis.mark import TimeTo
from generator.charts.description import Name
from generator.charts.numerals import plain
from generator.evaluation.findings import MeasureFinding
from generator.evaluation.statements import (
    ItemOutcome,
    KeptBy,
    LimitFinding,
    LimitKind,
    PieceAgainst,
    Rule,
    Side,
)
from generator.pages.format import Both, Plus, as_printed, condition, quantity, temperature_plus
from generator.pages.shown import Shown, shown
from generator.records.schema.method import Method
from generator.records.schema.report import Limit
from generator.records.schema.settings import ReferenceAmbient


@dataclass(frozen=True)
class KeptRow:
    """What alone kept pieces from being within: how their runs ended, or where they would settle."""

    by: KeptBy
    letters: tuple[str, ...]


@dataclass(frozen=True)
class LimitRow:
    """One item against a limit.

    Attributes:
        name: Its name.
        outcome: What can be said of it.
        leaning: The side that an undecided one is on, where the rule has four outcomes.
        n: Pieces held against the limit.
        over: How many of them are beyond.
        stopped: How many were stopped by their own doing.
        letter: Of the piece that is told, where another is hotter; else empty.
        hottest: The hottest of the pieces that decide, as it is held against the limit; None without a value.
        kept: What alone kept pieces from being within.
        up_to: Of 100 pieces, how many could be beyond all the same; empty where it is not said.
        reached: Of an item with a piece beyond, the minutes after which the first reached the limit; empty
            where nothing says when.
        reached_by: Whether a run shows it, or only its curve past the last reading.
        why_not: Why it has no figure; empty with one.
        past: Whether what was read lies past what is told, which is where the meter's range ends.
    """

    name: str
    outcome: ItemOutcome
    leaning: Side | None
    n: int
    over: int
    stopped: int
    letter: str
    hottest: Plus | None
    kept: tuple[KeptRow, ...]
    up_to: str
    reached: str = ""
    reached_by: Literal["readings", "fit"] = "readings"
    why_not: str = ""
    past: bool = False


@dataclass(frozen=True)
class LimitView:
    """One limit of a report and what can be said against it.

    Attributes:
        limit: The limit.
        reference: The air that temperatures are told for; None for a limit on the rise.
        because: Why that air.
        standing: What the limit rests on.
        source: Where it stands.
        rule: How near the limit a statement is made.
        measure: Name of the measure, where figures of several are held against limits; else empty.
        rows: The items in the report's order.
        kind: Of the limit.
    """

    limit: Both
    reference: Both | None
    because: str
    standing: str
    source: str
    rule: Rule
    measure: str
    rows: tuple[LimitRow, ...]
    kind: LimitKind = "temperature"


@dataclass(frozen=True)
class MisfitRow:
    """Something that a limit is for and was measured otherwise; `measured` is None where nothing says."""

    what: Literal["place", "condition"]
    key: str
    asked: Both
    measured: Both | None


@dataclass(frozen=True)
class UnheldView:
    """A limit that nothing is said against.

    Attributes:
        limit: The limit.
        standing: What it rests on.
        source: Where it stands.
        misfits: What it is for and was not measured so.
        no_reference: Whether nothing says which air temperatures are told for.
        kind: Of the limit.
    """

    limit: Both
    standing: str
    source: str
    misfits: tuple[MisfitRow, ...]
    no_reference: bool
    kind: LimitKind = "temperature"


@dataclass(frozen=True)
class Heated:
    """A measure held against limits: what was found, its name, and the air that temperatures are told for."""

    measure: MeasureFinding
    title: str
    air: ReferenceAmbient | None


def limit_views(
    limits: Sequence[Limit], heated: Sequence[Heated], names: Mapping[str, Name]
) -> tuple[LimitView, ...]:
    """What a report says against its limits.

    Args:
        limits: Of the report.
        heated: Its measures that figures are held against limits by.
        names: Of its items.
    """
    views = []
    for number, limit in enumerate(limits):
        for each in heated:
            found = [
                (names[item.item].full, item.why_not or "", said)
                for item in each.measure.items
                for said in item.limits
                if said.number == number
            ]
            if found:
                views.append(_view(limit, each, found, several=_several(limit, heated)))
    return tuple(views)


def unheld_views(limits: Sequence[Limit], heated: Sequence[Heated]) -> tuple[UnheldView, ...]:
    """The limits that no measure's figures are held against, with what the first measure was made at."""
    if not heated:
        return ()
    views = []
    for number, limit in enumerate(limits):
        why = [said for each in heated for said in each.measure.not_held if said.number == number]
        if why and len(why) == sum(_is_for(limit, each.measure) for each in heated):
            misfits = tuple(
                MisfitRow(
                    each.what,
                    each.key,
                    condition(each.asked),
                    condition(each.measured) if each.measured else None,
                )
                for each in why[0].misfits
            )
            views.append(
                UnheldView(
                    quantity(limit.value),
                    limit.standing,
                    as_printed(limit.source),
                    misfits,
                    why[0].no_reference,
                    limit.kind,
                )
            )
    return tuple(views)


def _several(limit: Limit, held: Sequence[Heated]) -> bool:
    """Whether it must be said by which measure: of one of heating that stands alone it need not be."""
    return not limit.of_heating or sum(_is_for(limit, each.measure) for each in held) > 1


def _is_for(limit: Limit, measure: MeasureFinding) -> bool:
    return measure.kind == "heating" if limit.of_heating else limit.measure == measure.measure


def reference_ambient(method: Method | None, of_bench: ReferenceAmbient | None) -> ReferenceAmbient | None:
    """The reference ambient of a report: its method's, else the bench's."""
    return (method.reference_ambient if method is not None else None) or of_bench


def _view(
    limit: Limit, heated: Heated, found: Sequence[tuple[str, str, LimitFinding]], *, several: bool
) -> LimitView:
    air = heated.air if limit.kind == "temperature" else None
    return LimitView(
        quantity(limit.value),
        quantity(air.value) if air is not None else None,
        air.because if air is not None else "",
        limit.standing,
        as_printed(limit.source),
        found[0][2].rule,
        heated.title if several else "",
        tuple(replace(_row(name, said, shown(heated.measure)), why_not=why) for name, why, said in found),
        limit.kind,
    )


def _row(name: str, found: LimitFinding, unit: Shown) -> LimitRow:
    outcomes = [piece.outcome for piece in found.pieces]
    told = _told(found)
    first = _first_over(found)
    worst = _worst(found.kind)
    hotter = any(worst(each) > worst(told) for each in found.pieces) if told is not None else False
    return LimitRow(
        name,
        found.outcome,
        found.leaning,
        sum(outcome != "no-figure" for outcome in outcomes),
        outcomes.count("beyond"),
        outcomes.count("stopped"),
        told.specimen if told is not None and hotter else "",
        _held(told, found.kind, unit) if told is not None else None,
        _kept(found),
        f"{100 * found.share_beyond:.0f}" if found.share_beyond is not None else "",
        plain(round(first.time / 60)) if first is not None else "",
        first.by if first is not None else "readings",
        past=told is not None and told.probability is None,
    )


def _first_over(found: LimitFinding) -> TimeTo | None:
    """When the first of the pieces beyond reached the limit."""
    times = [each.reached for each in found.pieces if each.outcome == "beyond" and each.reached is not None]
    return min(times, key=lambda each: each.time, default=None)


def _told(found: LimitFinding) -> PieceAgainst | None:
    """The hottest of the pieces that decide; against the least of a quantity the lowest."""
    valued = [piece for piece in found.pieces if piece.value is not None]
    deciding = [piece for piece in valued if piece.outcome == found.outcome]
    return max(deciding or valued, key=_worst(found.kind), default=None)


def _kept(found: LimitFinding) -> tuple[KeptRow, ...]:
    by: dict[KeptBy, list[str]] = {}
    for piece in found.pieces:
        if piece.kept_by is not None:
            by.setdefault(piece.kept_by, []).append(piece.specimen)
    return tuple(KeptRow(what, tuple(letters)) for what, letters in by.items())


def _worst(kind: LimitKind) -> Callable[[PieceAgainst], float]:
    """What is the larger, the worse a piece stands against a limit; the least for one without a value."""
    sign = -1.0 if kind == "at least" else 1.0
    return lambda piece: sign * piece.value if piece.value is not None else float("-inf")


def _held(piece: PieceAgainst, kind: LimitKind, unit: Shown) -> Plus | None:
    if piece.value is None or piece.half_width is None:
        return None
    if kind == "temperature":
        return temperature_plus(piece.value, piece.half_width)
    return unit.plus(piece.value, piece.half_width)
