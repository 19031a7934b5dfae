"""What was not as the method asks, found from the readings and the conditions of runs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.evaluation.conditions import STEADY, Departure
from generator.evaluation.findings import MeasureFinding, RunFinding
from generator.pages.format import Both, Span, as_printed, celsius_span, difference


@dataclass(frozen=True)
class Strayed:
    """A condition out of tolerance: the run is shown and not compared.

    Attributes:
        run: Id of the run.
        condition: Its key.
        found: What the run says; empty where it was the air.
        air: Lowest and highest air, where it was the air.
    """

    run: str
    condition: str
    found: str
    air: Span | None


@dataclass(frozen=True)
class Drift:
    """Air that went up or down faster than it may: by how much an hour."""

    run: str
    ramp: Both


@dataclass(frozen=True)
class UnlikeRow:
    """What runs that are compared do not share: its key, and each value with the items that had it."""

    what: str
    values: tuple[tuple[str, tuple[str, ...]], ...]


def strayed(runs: Iterable[RunFinding]) -> tuple[Strayed, ...]:
    """Every condition of a run that was out of its method's tolerance."""
    return tuple(_strayed(run.run, each) for run in runs for each in run.departures)


def drifts(runs: Iterable[RunFinding]) -> tuple[Drift, ...]:
    """Runs whose air drifted by more than it may."""
    return tuple(
        Drift(run.run, difference(run.ramp))
        for run in runs
        if run.ramp is not None and abs(run.ramp) > STEADY
    )


def unlike_rows(measures: Iterable[MeasureFinding], owners: Mapping[str, str]) -> tuple[UnlikeRow, ...]:
    """What runs that are compared do not share, each condition once however many measures it is of.

    Args:
        measures: Of the report.
        owners: Name of the item of a run, by its id.
    """
    found: dict[str, dict[str, dict[str, None]]] = {}
    for each in (unlike for measure in measures for unlike in measure.unlike):
        values = found.setdefault(each.what, {})
        for text, runs in each.values:
            values.setdefault(as_printed(text), {}).update(dict.fromkeys(owners[run] for run in runs))
    return tuple(
        UnlikeRow(what, tuple((text, tuple(names)) for text, names in values.items()))
        for what, values in found.items()
    )


def _strayed(run: str, found: Departure) -> Strayed:
    air = celsius_span(*found.air) if found.air is not None else None
    return Strayed(run, found.condition, as_printed(found.found), air)
