"""`provebook check`: read every record and tell every fault."""

from __future__ import annotations

import sys

import click

from generator.cli.bench import FAULTS, folder_of_bench, tell, without_report


@click.command(short_help="Read every record and tell every fault.")
@click.option("--json", "as_json", is_flag=True, help="Print faults and doubts as JSON.")
@click.option("--strict", is_flag=True, help="Take doubts for faults.")
def check(*, as_json: bool, strict: bool) -> None:
    """Read every record and tell every fault, with file, line and what would do."""
    from generator.evaluation.checks import checked  # noqa: PLC0415
    from generator.evaluation.pictured import with_photos  # noqa: PLC0415
    from generator.records.bench import load  # noqa: PLC0415

    bench = with_photos(checked(load(folder_of_bench())))
    tell(bench, as_json=as_json)
    if not (as_json or bench.faults or bench.reports):
        click.echo(without_report(bench.root))
    if bench.faults or (strict and bench.doubts):
        sys.exit(FAULTS)
