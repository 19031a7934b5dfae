"""What "How it was measured" is given: the air, the meters, and what was not as the method says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.charts.numerals import plain
from generator.evaluation.findings import MeasureFinding, RunFinding
from generator.evaluation.order import in_order, on_days_of_their_own
from generator.pages.corrected import ChangedKey, changed_keys
from generator.pages.format import Day, Span, as_printed, celsius_span, day
from generator.pages.meters import Meter, meters_of
from generator.pages.other_versions import OtherVersion, other_versions
from generator.pages.seen import SeenRow, seen_rows
from generator.pages.strayed import Drift, Strayed, UnlikeRow, drifts, strayed, unlike_rows
from generator.records.quantity import Quantity, Range
from generator.records.run import AmbientMode, Run
from generator.records.schema.instrument import Instrument
from generator.records.schema.method import Method


@dataclass(frozen=True)
class Of:
    """Which run something is told of: the item or control, the piece, the day."""

    name: str
    piece: str
    day: Day


@dataclass(frozen=True)
class Note:
    """Something told of one run or more in the same words; each with the minute, empty where it has none."""

    text: str
    runs: tuple[tuple[Of, str], ...]


@dataclass(frozen=True)
class Stopped:
    """A run that was stopped: when, and the record's word for why."""

    of: Of
    at: str
    because: str
    note: str


@dataclass(frozen=True)
class CorrectedRun:
    """A run that was corrected: what was wrong, and what is otherwise since."""

    of: Of
    because: str
    changed: tuple[ChangedKey, ...]


@dataclass(frozen=True)
class Air:
    """How the air was read.

    Attributes:
        where: What the records say of where it was measured, each once.
        modes: Ways of reading it and how many runs each.
        span: Lowest and highest air during all runs; None where not read.
    """

    where: tuple[str, ...]
    modes: tuple[tuple[AmbientMode, int], ...]
    span: Span | None


@dataclass(frozen=True)
class RanTogether:
    """Runs of one day, in the order of their ids, and whether they were made together, in one sitting."""

    day: Day
    together: bool
    runs: tuple[Of, ...]


@dataclass(frozen=True)
class MeasuredView:
    """Everything that `fragments/measured.html.jinja` is given beside the method's own facts.

    `order` is that of the runs; `alone` names items that were run on days of their own, `apart` the runs
    by versions that do not agree with the newest, `corrected` what was wrong with runs and is corrected.
    """

    air: Air
    meters: tuple[Meter, ...]
    places: tuple[str, ...]
    deviations: tuple[Note, ...]
    additions: tuple[Note, ...]
    by_others: tuple[Note, ...]
    exclusions: tuple[Note, ...]
    events: tuple[Note, ...]
    stopped: tuple[Stopped, ...]
    strayed: tuple[tuple[Of, Strayed], ...]
    drifts: tuple[tuple[Of, Drift], ...]
    unlike: tuple[UnlikeRow, ...]
    seen: tuple[SeenRow, ...]
    zero_checked: int
    heated: int
    runs: int
    days: tuple[Day, ...]
    order: tuple[RanTogether, ...] = ()
    alone: tuple[str, ...] = ()
    apart: tuple[tuple[OtherVersion, tuple[Of, ...]], ...] = ()
    corrected: tuple[CorrectedRun, ...] = ()


def measured_view(
    runs: Iterable[Run],
    measures: Iterable[MeasureFinding],
    instruments: Mapping[str, Instrument],
    names: Mapping[str, str],
    methods: Iterable[Method] = (),
) -> MeasuredView:
    """Gather what the runs of a report say of how they were made, and by versions of which methods."""
    made, told = tuple(runs), tuple(measures)
    found = _runs_of(told)
    owners = {run.id: names[run.item or run.control] for run in made}
    of = {run.id: Of(names[run.item or run.control], run.specimen, day(run.date)) for run in made}
    heated = {run.run: run for run in _runs_of(each for each in told if each.kind == "heating")}
    warm = tuple(run for run in made if run.id in heated)
    return MeasuredView(
        _air(warm, tuple(heated[run.id] for run in warm)),
        meters_of(made, instruments),
        _once(run.place for run in made if run.place),
        _notes((text, of[run.id], "") for run in made for text in run.deviations),
        _notes((text, of[run.id], "") for run in made for text in run.additions),
        _notes((run.made_by, of[run.id], "") for run in made if run.made_by),
        _notes(
            (why, of[run.id], _time(run, row)) for run in made for row, why in sorted(run.excluded.items())
        ),
        _notes((event.what, of[run.id], _minute(event.at.si)) for run in made for event in run.events),
        tuple(_stopped(of[run.id], run) for run in made if run.stopped),
        tuple((of[each.run], each) for each in strayed(found)),
        tuple((of[each.run], each) for each in drifts(found)),
        unlike_rows(told, owners),
        seen_rows(made, names),
        sum(run.zero_check is not None for run in warm),
        len(warm),
        len(made),
        _days(made),
        _order(made, of),
        tuple(names[item] for item in on_days_of_their_own(made)),
        tuple((each, tuple(of[run] for run in each.runs)) for each in other_versions(told, methods)),
        tuple(_corrected(made, of)),
    )


def _corrected(runs: tuple[Run, ...], of: Mapping[str, Of]) -> Iterator[CorrectedRun]:
    for run in runs:
        for each in run.corrections:
            yield CorrectedRun(of[run.id], each.because, changed_keys(each.changed))


def _order(runs: tuple[Run, ...], of: Mapping[str, Of]) -> tuple[RanTogether, ...]:
    return tuple(
        RanTogether(day(each.day), bool(each.sitting), tuple(of[run] for run in each.runs))
        for each in in_order(runs)
    )


def _time(run: Run, row: int) -> str:
    """At how many minutes a row of a run was read; empty where it has no time."""
    times = run.readings.column("time") if run.readings is not None else None
    cell = times.cells[row] if times is not None else None
    return "" if cell is None else _minute(cell.value)


def _days(runs: tuple[Run, ...]) -> tuple[Day, ...]:
    """The first day and the last, where that is another."""
    days = sorted({run.date for run in runs})
    return tuple(day(each) for each in dict.fromkeys((*days[:1], *days[-1:])))


def _notes(told: Iterable[tuple[str, Of, str]]) -> tuple[Note, ...]:
    by_text: dict[str, list[tuple[Of, str]]] = {}
    for text, of, at in told:
        by_text.setdefault(text, []).append((of, at))
    return tuple(Note(text, tuple(runs)) for text, runs in by_text.items())


def _stopped(of: Of, run: Run) -> Stopped:
    assert run.stopped is not None  # noqa: S101
    stop = run.stopped
    return Stopped(of, _minute(stop.at.si), stop.because, stop.note or "")


def _runs_of(measures: Iterable[MeasureFinding]) -> list[RunFinding]:
    """Every run once, in order of date; of several measures by the one that shows its series."""
    found: dict[str, RunFinding] = {}
    for measure in measures:
        for item in (*measure.items, *measure.controls):
            for piece in item.pieces:
                for run in piece.runs:
                    if run.readings or run.run not in found:
                        found[run.run] = run
    return [found[key] for key in sorted(found, key=lambda key: (found[key].date, key))]


def _air(runs: tuple[Run, ...], found: tuple[RunFinding, ...]) -> Air:
    modes = [run.ambient_mode for run in runs]
    read = [each.ambient for run in found for each in run.readings if each.ambient is not None]
    return Air(
        _once(_said(run.conditions["air-measured"]) for run in runs if "air-measured" in run.conditions),
        tuple((mode, modes.count(mode)) for mode in dict.fromkeys(modes)),
        celsius_span(min(read), max(read)) if read else None,
    )


def _said(value: Quantity | Range | str) -> str:
    return as_printed(value if isinstance(value, str) else value.text)


def _minute(seconds: float) -> str:
    return plain(round(seconds / 60, 1))


def _once(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))
