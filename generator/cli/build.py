"""`provebook build` and `provebook serve`: the site, once or while records are edited."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.cli.bench import FAULTS, data_of, folder_of_bench, load_or_stop, tell, wrong_use

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
    except BuildRefused as refused:
        wrong_use(str(refused))
    if as_json:
        click.echo(json.dumps(_built(bench, site), ensure_ascii=False, indent=2))
    else:
        tell_built(bench, site)


def tell_built(bench: Bench, site: Path) -> None:
    """Say what was made and which page to open."""
    if bench.doubts:
        tell(bench, as_json=False)
    newest = _newest(bench)
    page = site / "r" / newest / "index.html" if newest else site / "index.html"
    count = len(bench.reports)
    drafts = "1 report, a draft" if count == 1 else f"{count} reports, all drafts"
    click.echo(f"Built {drafts} until an edition is published, into {_near(site)}/.")
    click.echo(f"Open {_near(page)} in a browser, or run: provebook serve")


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


def _near(path: Path) -> str:
    here = Path.cwd()
    return path.relative_to(here).as_posix() if path.is_relative_to(here) else str(path)


@click.command(short_help="Show the site while you work.")
@click.option("--address", default=ADDRESS, show_default=True, metavar="HOST:PORT", help="Where to listen.")
def serve(*, address: str) -> None:
    """Show the site while you work; a saved record is seen at once, a broken one is told and waited for."""
    from generator.host.build import BuildRefused  # noqa: PLC0415
    from generator.host.build import serve as serve_site  # noqa: PLC0415

    folder = folder_of_bench()
    try:
        serve_site(folder, address)
    except BuildRefused as refused:
        wrong_use(str(refused))
