"""How the figure of a run was worked out, as text for a terminal."""

from __future__ import annotations

from dataclasses import replace

from generator.charts.numerals import NO_BREAK
from generator.evaluation.findings import MeasureFinding, ReportFinding
from generator.pages.derivation import run_way
from generator.pages.names import names_of
from generator.pages.render import Renderer
from generator.pages.tallied_ways import tally_way_of_run
from generator.records.bench import Bench, Report


def explained_count(bench: Bench, finding: ReportFinding, measure: str, run: str) -> str:
    """The way to the share that a run's count or answer is part of, a line a step.

    Args:
        bench: The records.
        finding: Of the report that the run is in.
        measure: Id of a count or a question of it.
        run: Id of the run.

    Raises:
        KeyError: The measure has no such run.
    """
    found = tally_way_of_run(finding, measure, run)
    if found is None:
        raise KeyError(run)
    item, way = found
    named = replace(way, name=bench.items[item].title)
    told = Renderer(bench.root).text("text/explain_tallied.txt.jinja", way=named, run=run)
    return told.replace(NO_BREAK, " ")


def explained(bench: Bench, report: Report, measure: MeasureFinding, run: str) -> str:
    """The way to the figure of a run, a line a step.

    Args:
        bench: The records.
        report: The report that the run is in.
        measure: A measure of it that has the run.
        run: Id of the run.

    Raises:
        KeyError: The measure has no such run.
    """
    items = {key: bench.items[key] for key in report.record.items}
    controls = tuple(dict.fromkeys(each.control for each in report.runs.values() if each.control))
    names = {key: name.full for key, name in names_of(items, controls).items()}
    way = run_way(measure, run, names)
    if way is None:
        raise KeyError(run)
    told = Renderer(bench.root).text("text/explain.txt.jinja", way=way, measure=measure.measure)
    return told.replace(NO_BREAK, " ")
