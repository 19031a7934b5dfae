"""`provebook explain`: how the figure of one run was worked out."""

from __future__ import annotations

import click

from generator.cli.bench import folder_of_bench, load_or_stop, wrong_use


@click.command(short_help="Tell how the figure of a run was worked out.")
@click.argument("run")
@click.argument("measure")
def explain(*, run: str, measure: str) -> None:
    """Print the way to the figure of RUN by MEASURE, from its readings to its rounding.

    RUN is the id of a run (`fuse-holders-30a/okvarn-a`, or its last part where that is one run only), MEASURE
    a measure of its method.
    """
    bench = load_or_stop(folder_of_bench(), as_json=False)
    found = [key for key in bench.runs if key == run] or [
        key for key in bench.runs if key.rpartition("/")[2] == run
    ]
    if not found:
        from difflib import get_close_matches  # noqa: PLC0415

        near = get_close_matches(run, [*bench.runs, *(key.rpartition("/")[2] for key in bench.runs)], 3)
        wrong_use(f"no run {run!r} here" + (f"; near it: {', '.join(near)}" if near else ""))
    if len(found) > 1:
        wrong_use(f"{run!r} is more than one run: {', '.join(sorted(found))}")
    report = next((each for each in bench.reports.values() if found[0] in each.runs), None)
    if report is None:
        wrong_use(f"{found[0]} is in no report, so nothing is worked out from it")
    from generator.evaluation.report import evaluate  # noqa: PLC0415
    from generator.pages.explain import explained, explained_count  # noqa: PLC0415
    from generator.pages.tallied_ways import tallied_by  # noqa: PLC0415

    finding = evaluate(bench, report)
    known = [each.measure for each in finding.measures if each.has_run(found[0])]
    tallied = tallied_by(finding, found[0])
    if measure in tallied:
        click.echo(explained_count(bench, finding, measure, found[0]), nl=False)
        return
    if measure not in known:
        known += tallied
        wrong_use(f"{found[0]} has no measure {measure!r}; it has: {', '.join(known) or 'none evaluated'}")
    click.echo(explained(bench, report, finding.measure(measure), found[0]), nl=False)
