"""`provebook build` and `provebook serve`: the site, once or while records are edited."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.cli.address import checked, listen_or_stop
from generator.cli.bench import (
    FAULTS,
    NO_REPORT,
    data_of,
    folder_of_bench,
    load_or_stop,
    near,
    refused,
    tell,
    without_report,
    wrong_use,
)
from generator.cli.streams import print_data

if TYPE_CHECKING:
    from generator.records.bench import Bench

ADDRESS = "127.0.0.1:8000"


@click.command(short_help="Build the site.")
@click.option("--json", "as_json", is_flag=True, help="Print what was built as JSON, and nothing else.")
@click.option("--strict", is_flag=True, help="Take doubts for faults, and MkDocs' warnings too.")
def build(*, as_json: bool, strict: bool) -> None:
    """Build the site into the folder site/ (or mkdocs.yml's site_dir)."""
    from generator.host.build import BuildRefused  # noqa: PLC0415
    from generator.host.build import build as build_site  # noqa: PLC0415

    folder = folder_of_bench()
    bench = load_or_stop(folder, as_json=as_json)
    if strict and bench.doubts:
        tell(bench, as_json=as_json)
        sys.exit(FAULTS)
    try:
        site = build_site(folder, strict=strict)
    except BuildRefused as why:
        wrong_use(str(why))
    except OSError as error:
        if error.filename is None or Path(str(error.filename)).suffix == ".yml":
            raise
        wrong_use(f"the site could not be written: {refused(error)}\n{_WHERE_TO}")
    if not _first_page(bench, site).is_file():
        wrong_use(_NOT_OURS)
    if as_json:
        print_data(_built(bench, site))
    else:
        tell_built(bench, site)


_WHERE_TO = (
    "It goes into site/, or the folder that site_dir in mkdocs.yml names: that one must be yours to write in."
)
_NOT_OURS = "the site was built without the reports: write `- provebook` under plugins in mkdocs.yml."


def _first_page(bench: Bench, site: Path) -> Path:
    """The page to open first: the newest report's, or the front page where there is none."""
    newest = _newest(bench)
    return site / "r" / newest / "index.html" if newest else site / "index.html"


def tell_built(bench: Bench, site: Path) -> None:
    """Say what was made and which page to open."""
    if bench.doubts:
        tell(bench, as_json=False)
    count = len(bench.reports)
    drafts = "1 report, a draft" if count == 1 else f"{count} reports, all drafts"
    if count:
        click.echo(f"Built {drafts} until an edition is published, into {near(site)}/.")
    else:
        click.echo(f"Built the site into {near(site)}/. {without_report(bench.root)}")
    click.echo(f"Open {near(_first_page(bench, site))} in a browser, or run: provebook serve")


def _built(bench: Bench, site: Path) -> dict[str, object]:
    return {
        **data_of(bench),
        "site": str(site),
        "reports": [
            {"id": report, "page": f"r/{report}/index.html", "draft": True}
            for report in sorted(bench.reports)
        ],
    }


def _newest(bench: Bench) -> str:
    """The report with the newest run; the first by name where dates agree."""

    def key(report: str) -> tuple[str, str]:
        return max((str(run.date) for run in bench.reports[report].runs.values()), default=""), report

    return max(sorted(bench.reports), key=key, default="")


@click.command(short_help="Show the site while you work.")
@click.option(
    "--address",
    default=ADDRESS,
    show_default=True,
    metavar="HOST:PORT",
    callback=checked,
    help="Where to listen.",
)
def serve(*, address: str) -> None:
    """Show the site while you work; a saved record is seen at once, a broken one is told and waited for."""
    folder = folder_of_bench()
    listen_or_stop(address)
    from generator.host.build import BuildRefused  # noqa: PLC0415
    from generator.host.build import serve as serve_site  # noqa: PLC0415

    if not any((folder / "reports").glob("*/report.yml")):
        click.echo(NO_REPORT, err=True)
    try:
        serve_site(folder, address)
    except BuildRefused as why:
        wrong_use(str(why))
