"""What may stand on a page as a figure: what the evaluation found, what the records give, what a template has typed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from generator.analysis.interval import Estimate
from generator.charts.numerals import plain as without_zeros
from generator.evaluation.findings import ItemFinding, MeasureFinding, PieceFinding, ReportFinding
from generator.evaluation.report import evaluate
from generator.history.frozen import as_published
from generator.history.past import past
from generator.pages import alone
from generator.pages import format as written
from generator.evaluation.spreads import Ahead
from generator.pages.conductance import per_kelvin
from generator.pages.older import older_view
from generator.pages.past_words import units_of_measures
from generator.pages.shown import Shown, shown
from generator.pages.where import STEP
from generator.records.bench import Bench, load
from generator.records.quantity import QuantityError, parse_quantity, parse_range
from tests.site.given import in_both, records, texts, typed
from tests.site.lines import plain
from tests.site.shown import scalars

ROOT = Path(__file__).parents[2]
TIMES = r"\d+ times in 100"
Scales = tuple[tuple[float, str], ...]


@dataclass(frozen=True)
class Known:
    """A figure of the evaluation, as text.

    Attributes:
        value: Its number.
        half_width: Its ±; empty where it has none.
        unit: Its unit.
        counted: What says on how many pieces it rests.
        reason: What says why it has no ±; empty where it has one.
    """

    value: str
    half_width: str
    unit: str
    counted: re.Pattern[str]
    reason: re.Pattern[str] | None = None


@dataclass(frozen=True)
class Ground:
    """All that may stand on the pages of a bench.

    Attributes:
        units: In which its measures are told.
        known: What the evaluation found.
        given: Numbers with units that stand in the records, what was read left out, or in a template.
        read: Numbers as read and what the air was taken for.
        said: Texts of the records in which units stand among words, the longest first.
    """

    units: frozenset[str]
    known: tuple[Known, ...]
    given: frozenset[str]
    read: frozenset[str]
    said: tuple[str, ...]


@cache
def ground(root: Path) -> Ground:
    """Of the bench in a folder."""
    bench = load(root)
    found = list(_findings(bench))
    known = [each for finding in found for measure in finding.measures for each in _known(measure)]
    known += _gaps(bench)
    written_down = list(records(root))
    given = {plain(text) for each in written_down for text in texts(each)} | set(typed(root))
    said = {plain(written.as_printed(each)) for each in written_down if any(map(str.isdigit, each))}
    said -= given
    scales = (scale for finding in found for measure in finding.measures for scale in _scales(measure))
    units = {unit for _, scale in scales for unit in units_of(scale)}
    return Ground(
        frozenset(units),
        tuple(dict.fromkeys(known)),
        frozenset(
            given
            | set(in_both(written.difference(STEP, 0)))
            | {text for finding in found for text in _chosen(finding)}
            | set(_emissivities(bench))
        ),
        frozenset(plain(text) for finding in found for text in _as_read(finding)),
        tuple(sorted((each for each in said if " " in each), key=len, reverse=True)),
    )


def _findings(bench: Bench) -> Iterator[ReportFinding]:
    """Of every report as it is, and as each of its editions has it."""
    for report in bench.reports.values():
        yield evaluate(bench, report)
        for edition in report.editions.values():
            yield evaluate(*as_published(bench, report, edition))


def _emissivities(bench: Bench) -> Iterator[str]:
    """Of the surfaces that infra-red meters looked at, as the records have them."""
    for settings in (run.infrared for run in bench.runs.values() if run.infrared is not None):
        if settings.emissivity_within is not None:
            yield f"{settings.emissivity:g} ± {settings.emissivity_within:g}"


def _gaps(bench: Bench) -> Iterator[Known]:
    """What a retest moved: by the half-widths of both editions joined as of independent errors."""
    for report in bench.reports.values():
        units = units_of_measures(report)
        for each in past(bench, report):
            for moved in each.change.moved if each.change is not None and each.reason == "retest" else ():
                if moved.gap is None or moved.was is None or moved.now is None:
                    continue
                both = re.compile(rf"\b{moved.was.pieces} and {moved.now.pieces} pieces?\b")
                told = units[moved.measure, moved.now.unit]
                yield from _figures(*moved.gap, ((told.factor, told.unit),), both)


def units_of(unit: str) -> tuple[str, ...]:
    """A unit as printed, the one of the other system, and as data have it."""
    told = written.plus(1.0, 0.1, unit)
    return tuple(dict.fromkeys(each for each in (told.unit, told.unit_us, unit) if each))


def _scales(measure: MeasureFinding) -> tuple[tuple[float, str], ...]:
    """The units that a measure's figures stand in: its own and the one that suits their size, with its factor."""
    suits = shown(measure)
    return tuple(dict.fromkeys(((1.0, measure.unit), (suits.factor, suits.unit))))


def _known(measure: MeasureFinding) -> Iterator[Known]:
    counts = {each.item: each.n for each in measure.items}
    for item in measure.items:
        yield from _of_item(item, measure, counted(item))
    for control in measure.controls:
        yield from _of_item(control, measure, re.compile(r"\b(?:[Oo]ne|\d+) runs?\b|\brun by run\b"))
    runs = (run for item in measure.items for piece in item.pieces for run in piece.runs)
    emfs = [
        abs(run.electrical.emf)
        for run in runs
        if run.electrical is not None and run.electrical.emf is not None
    ]
    if emfs:
        most, of = (
            written.significant(max(emfs) * 1000),
            re.compile(r"\bin (?:the one run|(?:all )?\d+ (?:of \d+ )?runs)\b"),
        )
        yield Known(most, "", "mV", of, re.compile(r"thermal EMF out \(up to .* as read\)"))
    for old in measure.older:
        pieces = f"{old.result.pieces} pieces?" if old.result.pieces else "how many pieces is not known"
        reason = r"± not known|± [\d.]+ .*as stated then"
        yield from _told(older_view(old, "").value, re.compile(rf"\b{pieces}"), reason)
    if measure.loosest is not None:
        for size in (measure.loosest.deviation, measure.loosest.others):
            yield from _sizes(size, _scales(measure), re.compile(r"its \d+ pieces"), "Cochran’s test")
    for pair in measure.pairs:
        first, second = counts[pair.first], counts[pair.second]
        both = re.compile(rf"\b{first} and {second} pieces\b|\b{second} and {first} pieces\b")
        yield from _figures(pair.difference.value, pair.half_width, _scales(measure), both)
        if pair.gap is not None:
            yield from _sizes(pair.gap, _scales(measure), both, r"gaps of about")


def counted(item: ItemFinding) -> re.Pattern[str]:
    """What says how many pieces an item's figure rests on, and how many runs where there are more of them."""
    runs = item.repeats.runs if item.repeats is not None else item.runs
    more = rf" \({runs} runs?" if runs > item.n else r"\b"
    pieces = r"(?:\b1|\b[Oo]ne|\bthe one) piece(?: only)?" if item.n == 1 else rf"\b{item.n} pieces"
    return re.compile(f"{pieces}{more}")


def _span(value: str, low: str, high: str, unit: str, of: re.Pattern[str]) -> Known:
    """A figure with ends of unlike width."""
    return Known(value, f"{low} to {high}", unit, of)


def _of_item(item: ItemFinding, measure: MeasureFinding, of: re.Pattern[str]) -> Iterator[Known]:
    unit = _scales(measure)
    if item.figure is not None:
        yield from _figures(item.figure.value, item.figure.half_width, unit, of)
        yield from _sizes(item.spread.deviation, unit, of, r"degrees? of freedom")
    if item.figure is None:
        yield from _of_the_others(item, measure)
    yield from _of_before(item, measure)
    if item.excess is not None:
        yield from _figures(item.excess.value, item.excess.half_width, unit, of)
    for point in item.curve:
        yield from _figures(point.rise, point.half_width, unit, of)
    for piece in item.pieces:
        yield from _of_piece(piece, item, unit, of)
    single = re.compile(rf"\b(?:[Hh]ott|[Hh]igh|[Ll]ow)est of {len(item.pieces)} pieces\b")
    for limit in item.limits:
        held = [each for each in limit.pieces if each.value is not None and each.half_width is not None]
        for each in held:
            told = ((1.0, "°C"),) if limit.kind == "temperature" else unit
            any_of = re.compile(
                rf"{single.pattern}|\b[Oo]f {len(limit.pieces)} pieces|(?<!\w){each.specimen}(?!\w)|one piece"
            )
            yield from _figures(each.value or 0.0, each.half_width or 0.0, told, any_of)
    for air in item.airs:
        if air.warmest is not None:
            any_of = re.compile(rf"[Hh]ottest of \d+ pieces|[Oo]ne piece|(?<!\w){air.warmest.specimen}(?!\w)")
            yield from _figures(air.warmest.value, air.warmest.half_width, ((1.0, "°C"),), any_of)
    if item.ahead is not None and item.figure is not None:
        yield from _to_come(item.ahead, item.figure, shown(measure), of)


def _to_come(ahead: Ahead, figure: Estimate, suits: Shown, of: re.Pattern[str]) -> Iterator[Known]:
    """Where other pieces lie: from one end to another, or on one side of a limit."""
    span = suits.span(ahead.next.low, ahead.next.high)
    for low, high in ((span.low, span.high), (span.low_us, span.high_us)):
        if high:
            number, _, of_unit = plain(high).rpartition(" ")
            yield Known(f"{plain(low)} to {number}", "", of_unit, of, re.compile(TIMES))
    if ahead.most is not None:
        limit = suits.limit(ahead.most.limit, figure.value)
        yield from _told(limit, of, rf"9 in 10 .*{TIMES}")


def _of_the_others(item: ItemFinding, measure: MeasureFinding) -> Iterator[Known]:
    """Of an item without a mean the figures of those pieces that have one, told from the least to the most."""
    suits = shown(measure)
    told = sorted(piece.figure.value * suits.factor for piece in item.pieces if piece.figure is not None)
    if len(told) == 1:
        yield from _told(
            alone.amount(told[0], suits.unit),
            re.compile("the other piece"),
            "how far off it may be is on the card",
        )
    elif told:
        span = alone.amounts(told[0], told[-1], suits.unit)
        for low, high in ((span.low, span.high), (span.low_us, span.high_us)):
            if high:
                number, _, unit = plain(high).rpartition(" ")
                others = re.compile(rf"the other {len(told)}\b")
                yield Known(
                    f"{low} to {number}",
                    "",
                    unit,
                    others,
                    re.compile("how far off each may be is on the card"),
                )


def _of_before(item: ItemFinding, measure: MeasureFinding) -> Iterator[Known]:
    """The mean over the pieces of an earlier stock."""
    suits = shown(measure)
    pieces = [
        piece.figure.value for piece in item.pieces if piece.stock != item.stock and piece.figure is not None
    ]
    if pieces:
        mean = alone.amount(sum(pieces) / len(pieces) * suits.factor, suits.unit)
        of = re.compile(rf"earlier stock, mean of {len(pieces)} pieces?")
        yield from _told(mean, of, "how far off each may be is on the card")


def _of_piece(piece: PieceFinding, item: ItemFinding, unit: Scales, of: re.Pattern[str]) -> Iterator[Known]:
    letter = rf"(?<!\w){piece.specimen}(?!\w)" if piece.specimen else of.pattern
    own = re.compile(
        letter if len(item.pieces) > 1 or not piece.specimen else rf"{letter}|\b(?:one|1) piece\b"
    )
    for estimate in (piece.figure, *(run.figure for run in piece.runs)):
        if estimate is not None:
            yield from _figures(estimate.value, estimate.half_width, unit, own)
    for run in piece.runs:
        ends = (run.end.settled, run.end.remaining, run.end.change) if run.end is not None else ()
        for each in ends:
            if each is not None and each.low <= each.value <= each.high:
                told = written.around(each.value, each.low, each.high)
                yield _span(told.value, told.low, told.high, "°C", own)
                yield _span(told.value_us, told.low_us, told.high_us, "°F", own)
        if run.conductance is not None and run.conductance.why_not is None:
            told = per_kelvin(run.conductance.value, run.conductance.low, run.conductance.high)
            yield _span(told.value, told.low, told.high, "W for each °C", own)
            yield _span(told.value_us, told.low_us, told.high_us, "W for each °F", own)
        for reading in run.readings:
            if reading.rise is not None and reading.half_width is not None:
                yield from _figures(reading.rise, reading.half_width, unit, own)
            if reading.surface is not None:
                in_the_rise = re.compile(r"its ± is in that of the rise")
                yield Known(f"{reading.surface:.2f}", "", "°C", own, in_the_rise)
        for value in run.values:
            if value.value is not None and value.half_width is not None:
                yield from _figures(value.value, value.half_width, unit, own)


def _figures(value: float, half_width: float, scales: Scales, of: re.Pattern[str]) -> Iterator[Known]:
    for factor, unit in scales if half_width > 0 else ():
        told = written.plus(value * factor, half_width * factor, unit)
        yield Known(told.value, told.half_width, told.unit, of)
        if told.unit_us:
            yield Known(told.value_us, told.half_width_us, told.unit_us, of)
        if unit not in (told.unit, told.unit_us):
            yield Known(told.value, told.half_width, unit, of)


def _sizes(value: float, scales: Scales, of: re.Pattern[str], reason: str) -> Iterator[Known]:
    for factor, unit in scales if value > 0 else ():
        yield from _told(written.narrow(value * factor, "K" if unit == "°C" else unit), of, reason)


def _told(size: written.Both, of: re.Pattern[str], reason: str) -> Iterator[Known]:
    for text in in_both(size):
        number, _, unit = text.rpartition(" ")
        yield Known(number, "", unit, of, re.compile(reason))


def _chosen(finding: ReportFinding) -> Iterator[str]:
    """What the report sets: limits, and the air that temperatures are told for."""
    for measure in finding.measures:
        for old in (older_view(each, "") for each in measure.older):
            yield from (text for size in (old.air, old.half_width) if size for text in in_both(size))
        for item in measure.items:
            airs = {each.air for each in item.airs} | {each.reference for each in item.limits}
            for air in airs - {None}:
                for places in (0, 1):
                    yield from in_both(written.celsius(air or 0.0, places))


def _as_read(finding: ReportFinding) -> Iterator[str]:
    for measure in finding.measures:
        for item in (*measure.items, *measure.controls):
            for run in (run for piece in item.pieces for run in piece.runs):
                for reading in run.readings:
                    for number in (reading.temperature, reading.ambient):
                        if number is not None:
                            yield from (without_zeros(round(number, places)) for places in (2, 3))
                            span = written.celsius_span(number, number)
                            yield from (span.high, span.high_us, f"{span.low} °C", f"{span.low_us} °F")
