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
@click.option("--drafts", is_flag=True, help="Show what no edition has published, marked as a draft.")
def build(*, as_json: bool, strict: bool, drafts: bool) -> None:
    """Build the site into the folder site/ (or mkdocs.yml's site_dir).

    It shows what is published. Drafts are shown by `provebook serve`, or with --drafts.
    """
    from generator.host.build import BuildRefused  # noqa: PLC0415
    from generator.host.build import build as build_site  # noqa: PLC0415

    folder = folder_of_bench()
    bench = load_or_stop(folder, as_json=as_json)
    if strict and bench.doubts:
        tell(bench, as_json=as_json)
        sys.exit(FAULTS)
    try:
        site = build_site(folder, strict=strict, drafts=drafts)
    except BuildRefused as why:
        wrong_use(str(why))
    except OSError as error:
        if error.filename is None or Path(str(error.filename)).suffix == ".yml":
            raise
        wrong_use(f"the site could not be written: {refused(error)}\n{_WHERE_TO}")
    if not (site / "compare" / "index.html").is_file():
        wrong_use(_NOT_OURS)
    if as_json:
        print_data(_built(bench, site))
    else:
        tell_built(bench, site)


_WHERE_TO = (
    "It goes into site/, or the folder that site_dir in mkdocs.yml names: that one must be yours to write in."
)
_NOT_OURS = "the site was built without the reports: write `- provebook` under plugins in mkdocs.yml."


def _shown(bench: Bench, site: Path) -> list[str]:
    return [report for report in sorted(bench.reports) if _page(site, report).is_file()]


def _page(site: Path, report: str) -> Path:
    return site / "r" / report / "index.html"


def _drafts(bench: Bench, site: Path) -> tuple[list[str], list[str]]:
    """Reports of which something is unpublished: those that the site shows so, and those that it does not."""
    from generator.history.shelf import is_draft  # noqa: PLC0415

    shown, hidden = list[str](), list[str]()
    for name, report in sorted(bench.reports.items()):
        if is_draft(bench, report):
            next_one = site / "r" / name / str(max(report.editions, default=0) + 1) / "index.html"
            (shown if next_one.is_file() else hidden).append(name)
    return shown, hidden


def _first_page(bench: Bench, site: Path) -> Path:
    """The page to open first: the newest report's, or the front page where there is none."""
    newest = _newest(bench, _shown(bench, site))
    return _page(site, newest) if newest else site / "index.html"


def tell_built(bench: Bench, site: Path) -> None:
    """Say what was made, what was left out, and which page to open."""
    if bench.doubts:
        tell(bench, as_json=False)
    if not bench.reports:
        click.echo(f"Built the site into {near(site)}/. {without_report(bench.root)}")
    else:
        shown, hidden = _drafts(bench, site)
        click.echo(f"Built {_counted(len(_shown(bench, site)), len(shown))} into {near(site)}/.")
        if hidden:
            click.echo(f"Left out, since no edition has it: {', '.join(hidden)}.")
            click.echo(f"Look at drafts:  provebook serve\nPublish one:     provebook publish {hidden[0]}")
    click.echo(f"Open {near(_first_page(bench, site))} in a browser, or run: provebook serve")


def _counted(reports: int, drafts: int) -> str:
    told = {0: "no report", 1: "1 report"}.get(reports, f"{reports} reports")
    if not drafts:
        return told
    if drafts == reports:
        return f"{told}, a draft," if reports == 1 else f"{told}, all drafts,"
    return f"{told}, {drafts} of them with a draft,"


def _built(bench: Bench, site: Path) -> dict[str, object]:
    shown, hidden = _drafts(bench, site)
    return {
        **data_of(bench),
        "site": str(site),
        "reports": [
            {
                "id": report,
                "page": f"r/{report}/index.html",
                "editions": sorted(bench.reports[report].editions),
                "draft": report in shown,
            }
            for report in _shown(bench, site)
        ],
        "left-out": hidden,
    }


def _newest(bench: Bench, among: list[str]) -> str:
    """The report with the newest run; the first by name where dates agree."""

    def key(report: str) -> tuple[str, str]:
        return max((str(run.date) for run in bench.reports[report].runs.values()), default=""), report

    return max(among, key=key, default="")


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
