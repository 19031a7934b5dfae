"""`provebook results`: the figures of one report, for a person or for a program."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from generator.cli.bench import folder_of_bench, load_or_stop, report_or_stop
from generator.cli.streams import print_data

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from generator.analysis.counts import Share
    from generator.evaluation.counted import ItemEndurance
    from generator.evaluation.findings import ItemFinding, MeasureFinding, PairFinding, ReportFinding
    from generator.evaluation.older import OlderFinding
    from generator.records.bench import Bench, Report


@click.command(short_help="Print the figures of a report and every pair.")
@click.argument("report", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print as JSON (README: For other programs).")
def results(*, report: str | None, as_json: bool) -> None:
    """Print every main figure of REPORT with its uncertainty, and every pair."""
    bench = load_or_stop(folder_of_bench(), as_json=as_json)
    chosen = report_or_stop(bench, report, "results")
    from generator.evaluation.as_data import report_as_data  # noqa: PLC0415
    from generator.evaluation.report import evaluate  # noqa: PLC0415

    finding = evaluate(bench, chosen)
    if as_json:
        print_data({**report_as_data(finding), **_beside(bench, chosen, finding)})
        return
    for measure in finding.measures:
        for line in _lines(measure):
            click.echo(line)
    for line in _tallied(finding):
        click.echo(line)


def _beside(bench: Bench, report: Report, finding: ReportFinding) -> dict[str, object]:
    """Meters beside each other and controls over the dates; these from every report of its methods."""
    from generator.evaluation.beside_as_data import beside_as_data  # noqa: PLC0415
    from generator.evaluation.report import evaluate  # noqa: PLC0415

    methods = {run.method for run in report.runs.values()}
    findings = {
        key: finding if key == report.id else evaluate(bench, each)
        for key, each in bench.reports.items()
        if methods & {run.method for run in each.runs.values() if run.control} or key == report.id
    }
    return beside_as_data(bench, report, findings)


def _tallied(finding: ReportFinding) -> Iterator[str]:
    """Counts and questions, each share with its exact interval."""
    for count in finding.counts:
        yield f"{count.measure}: {count.what}; shares with their exact interval (95 %), not ranked"
        for each in count.items:
            yield f"  {each.item}  {_share(each.trials)} on n = {each.n}; pieces {_share(each.affected)}"
    for lasted in finding.endurances:
        yield f"{lasted.measure}: {lasted.cycles} until {lasted.failure} (95 %), not ranked"
        for whole in lasted.items:
            yield f"  {whole.item}  {_lives(whole)}"
    for check in finding.checks:
        unwanted = "no" if check.good == "yes" else "yes"
        yield f"{check.measure}: {check.question} {unwanted} on so many pieces (95 %), not ranked"
        for asked in check.items:
            yield f"  {asked.item}  {_share(asked.against)}"


def _lives(item: ItemEndurance) -> str:
    if item.failed is not None and item.until is not None:
        return f"broke within {item.until}: {_share(item.failed)}"
    told = (
        f"beyond {each.cycles:g}: {100 * each.surviving:.1f} %"
        f" ({100 * each.low:.1f} to {100 * each.high:.1f} %)"
        for each in item.steps
    )
    failed = sum(life.failed for _, life in item.lives)
    return f"{failed} of {len(item.lives)} broke; " + ", ".join(told)


def _share(found: Share | None) -> str:
    if found is None:
        return "none counted"
    return f"{found.k} of {found.n} ({100 * found.low:.1f} to {100 * found.high:.1f} %)"


def _lines(measure: MeasureFinding) -> Iterator[str]:
    mark = f" at {measure.at / 60:g} min" if measure.at is not None else ""
    way = f", {measure.better} is better" if measure.better else ""
    yield f"{measure.measure}{mark}, {measure.unit} (95 %){way}"
    everyone = (*measure.controls, *measure.items)
    width = max((len(each.item) for each in everyone), default=0)
    for each in everyone:
        yield f"  {each.item:<{width}}  {_figure(each)}"
    if measure.older:
        yield "older results, in no mean, place or verdict"
    for old in measure.older:
        yield f"  {old.item:<{width}}  {_older(old)}"
    counts = {each.item: each.n for each in measure.items}
    if measure.pairs:
        yield "pairs, all held together at 5 %"
    for pair in measure.pairs:
        yield f"  {pair.second} less {pair.first}: {_pair(pair, counts)}"


def _figure(item: ItemFinding) -> str:
    from generator.analysis.rounding import rounded  # noqa: PLC0415

    if item.figure is None:
        return f"no figure: {(item.why_not or '').replace('-', ' ')}"
    text = rounded(item.figure.value, item.figure.half_width)
    runs = f"{item.runs} {'run' if item.runs == 1 else 'runs'}"
    pieces = f"control ({runs})" if item.control else f"n = {item.n} ({runs})"
    alone = "" if item.control or item.n > 1 or item.spread.origin != "none" else ", spread not known"
    return f"{text.value_text} ± {text.uncertainty_text}  {pieces}{alone}"


def _older(found: OlderFinding) -> str:
    """As it was written, with its own unit."""
    width = found.result.uncertainty
    off = "not known" if isinstance(width, str) else f"{width.text}, as stated then"
    pieces = f"n = {found.result.pieces}" if found.result.pieces else "n not known"
    return f"{found.result.value.text}, ± {off}  {pieces}  from {found.result.date}, {found.batch}"


def _pair(pair: PairFinding, counts: Mapping[str, int]) -> str:
    from generator.analysis.rounding import rounded  # noqa: PLC0415

    text = rounded(pair.difference.value, pair.half_width)
    if not pair.known:
        found = "of these pieces only; whether the items differ is not known"
    else:
        found = "difference shown" if pair.shown else "no difference found"
    pieces = f"n = {counts[pair.second]} and {counts[pair.first]}"
    return f"{text.value_text} ± {text.uncertainty_text}  {pieces}  {found}"
