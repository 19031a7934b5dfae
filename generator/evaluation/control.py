"""The results of a method's controls over the dates: whether the rig is still the same."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.analysis.control import Limits, individuals
from generator.analysis.interval import Estimate
from generator.evaluation.findings import ItemFinding, MeasureFinding, ReportFinding
from generator.evaluation.work import versions_agreeing

if TYPE_CHECKING:
    from generator.records.bench import Bench


@dataclass(frozen=True)
class ControlResult:
    """One control run.

    Attributes:
        run: Its id.
        report: The report that it is first told in.
        date: ISO date.
        figure: Its figure.
        beyond: Whether it lies outside the limits.
    """

    run: str
    report: str
    date: str
    figure: Estimate
    beyond: bool


@dataclass(frozen=True)
class ControlChart:
    """The results of one control by one measure, in order of date and id.

    Attributes:
        control: Name of the control.
        measure: Id of the measure.
        finding: The newest finding of the measure, for its unit and its mark.
        results: The results.
        limits: Limits of three standard deviations; None below eight results.
    """

    control: str
    measure: str
    finding: MeasureFinding
    results: tuple[ControlResult, ...]
    limits: Limits | None


def control_charts(
    bench: Bench, findings: Mapping[str, ReportFinding], method: str
) -> tuple[ControlChart, ...]:
    """The controls of a method over all reports, by name and measure.

    Results stand on one chart where they are by the newest version that ran or by one that agrees with it,
    at the method's own mark, and in one unit. A run that several reports name is there once.

    Args:
        bench: The records.
        findings: By the report's id.
        method: Id of the method.
    """
    measures = [
        (report, measure)
        for report, finding in sorted(findings.items())
        for measure in finding.measures
        if measure.method == method and measure.controls and measure.at == measure.own_mark
    ]
    newest = max((version for _, each in measures for version in each.versions), default=0)
    agreeing = {f"{method}/{version}" for version in versions_agreeing(bench.methods[method], newest)}
    charts: dict[tuple[str, str, str], dict[str, tuple[str, ItemFinding]]] = {}
    finding_of: dict[tuple[str, str, str], MeasureFinding] = {}
    for report, measure in measures:
        for control in measure.controls:
            run = control.pieces[0].runs[0]
            if control.figure is not None and run.method in agreeing:
                key = (control.item, measure.measure, measure.unit)
                charts.setdefault(key, {}).setdefault(run.run, (report, control))
                finding_of[key] = measure
    return tuple(_chart(finding_of[key], key, found) for key, found in sorted(charts.items()))


def _chart(
    finding: MeasureFinding, key: tuple[str, str, str], found: Mapping[str, tuple[str, ItemFinding]]
) -> ControlChart:
    by_date = sorted(found.items(), key=lambda each: (each[1][1].pieces[0].runs[0].date, each[0]))
    known = [
        (run, report, control.pieces[0].runs[0].date, control.figure)
        for run, (report, control) in by_date
        if control.figure is not None
    ]
    limits = individuals([figure.value for *_, figure in known])
    return ControlChart(
        key[0],
        key[1],
        finding,
        tuple(
            ControlResult(run, report, date, figure, limits is not None and limits.beyond(figure.value))
            for run, report, date, figure in known
        ),
        limits,
    )
