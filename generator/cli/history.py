"""`provebook history` and `provebook verify`: what was published, and whether it still holds."""

from __future__ import annotations

import sys

import click

from generator.cli.bench import FAULTS, folder_of_bench, load_or_stop, report_or_stop
from generator.cli.parcel import is_parcel, verify_parcel


@click.command(short_help="Tell the editions of a report and what each changed.")
@click.argument("report", required=False)
def history(*, report: str | None) -> None:
    """Tell every edition of REPORT with its reason and what it changed, and what its draft would change."""
    bench = load_or_stop(folder_of_bench(), as_json=False)
    chosen = report_or_stop(bench, report, "history")
    from generator.history.past import change_now, past  # noqa: PLC0415
    from generator.pages.render import Renderer  # noqa: PLC0415

    told = Renderer(bench.root).text(
        "text/history.txt.jinja",
        report=chosen.id,
        question=chosen.record.question,
        past=past(bench, chosen),
        now=change_now(bench, chosen),
    )
    click.echo(told, nl=False)


@click.command(short_help="Compute every published figure anew.")
@click.argument("report", required=False, metavar="[REPORT | FILE.zip]")
def verify(*, report: str | None) -> None:
    """Compute every figure of every edition anew, of REPORT alone where it is given.

    What editions rest on is held against their fingerprints first. A figure that moved is named with how far;
    it ends with 1 where one would be printed otherwise. FILE.zip is an edition that was downloaded: it is
    verified by itself, and no bench is needed.
    """
    if report is not None and is_parcel(report):
        verify_parcel(report)
        return
    bench = load_or_stop(folder_of_bench(), as_json=False)
    chosen = (
        [report_or_stop(bench, report, "verify")]
        if report
        else [bench.reports[each] for each in sorted(bench.reports)]
    )
    from generator import __version__  # noqa: PLC0415
    from generator.cli.versions import deciding  # noqa: PLC0415
    from generator.history.past import told_program, verified  # noqa: PLC0415
    from generator.pages.render import Renderer  # noqa: PLC0415

    checked = [each for one in chosen for each in verified(bench, one)]
    here = told_program(__version__, deciding())
    click.echo(Renderer(bench.root).text("text/verify.txt.jinja", checked=checked, here=here), nl=False)
    if not all(each.holds for each in checked):
        sys.exit(FAULTS)
