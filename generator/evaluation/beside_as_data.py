"""What stands beside a report's figures, as plain data: meters beside each other, controls over the dates."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from generator.evaluation.agreements import COVERAGE, side_by_side
from generator.evaluation.control import ControlChart, control_charts
from generator.evaluation.findings import ReportFinding

if TYPE_CHECKING:
    from generator.records.bench import Bench, Report


def beside_as_data(bench: Bench, report: Report, findings: Mapping[str, ReportFinding]) -> dict[str, object]:
    """Checks of a report's meters beside others, and the control charts of its methods.

    Args:
        bench: The records.
        report: One of its reports.
        findings: Of every report with a run by one of its methods, by the report's id.
    """
    used = {use.instrument for run in report.runs.values() for use in run.uses.values()}
    methods = sorted({run.method for run in report.runs.values()})
    return {
        "agreements": [each for key in sorted(used) for each in _agreements(bench, key)],
        "control_charts": [
            _chart(each) for method in methods for each in control_charts(bench, findings, method)
        ],
    }


def _agreements(bench: Bench, key: str) -> list[dict[str, object]]:
    checks = bench.instruments[key].checks
    return [
        {
            "instrument": key,
            "beside": each.other,
            "date": checks[each.number].date.isoformat(),
            "e_n": abs(each.found.number),
            "agree": each.found.agree,
            "expanded_uncertainties": [each.first_within, each.second_within],
            "coverage_factor": COVERAGE,
            "without_probe": list(each.bare),
        }
        for each in side_by_side(bench.instruments, key)
    ]


def _chart(chart: ControlChart) -> dict[str, object]:
    limits = chart.limits
    return {
        "control": chart.control,
        "measure": chart.measure,
        "method": chart.finding.method,
        "unit": chart.finding.unit,
        "limits": None
        if limits is None
        else {"centre": limits.centre, "low": limits.low, "high": limits.high},
        "results": [
            {
                "run": each.run,
                "report": each.report,
                "date": each.date,
                "value": each.figure.value,
                "interval": [each.figure.low, each.figure.high],
                "beyond": each.beyond if limits is not None else None,
            }
            for each in chart.results
        ],
    }
