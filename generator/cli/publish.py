"""`provebook publish`: the next edition of a report, written once and whole."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

import click

from generator.cli.bench import (
    FAULTS,
    folder_of_bench,
    load_or_stop,
    near,
    refused,
    report_or_stop,
    tell,
    wrong_use,
)

if TYPE_CHECKING:
    from generator.history.amend import Next, Wish
    from generator.records.bench import Bench, Report


REASONS = ("retest", "correction", "addition", "wording", "withdrawal")
"""Those of an edition's record, which is not loaded to print the help."""


def _day(_: click.Context, __: click.Parameter, value: str) -> date:
    from generator.records.dates import parse_date  # noqa: PLC0415
    from generator.records.grammar import QuantityError  # noqa: PLC0415

    if value == "today":
        return date.today()  # noqa: DTZ011
    try:
        return parse_date(value)
    except QuantityError as error:
        raise click.BadParameter(f"{value!r}: {error.what}") from None


@click.command(short_help="Publish the next edition of a report.")
@click.argument("report", required=False)
@click.option(
    "--reason",
    default="",
    type=click.Choice(["", *REASONS]),
    metavar="WHY",
    help="Why there is a new edition: retest, correction, addition, wording or withdrawal.",
)
@click.option("--summary", default="", metavar="TEXT", help="What changed, in a sentence.")
@click.option(
    "--date",
    "day",
    default="today",
    show_default=True,
    metavar="DAY",
    callback=_day,
    help="The day of publishing.",
)
@click.option("--dry-run", is_flag=True, help="Tell what would be published, and write nothing.")
def publish(*, report: str | None, reason: str, summary: str, day: date, dry_run: bool) -> None:
    """Publish the next edition of REPORT, and tell what it changes.

    What it rests on may not be edited from then on. The first edition needs no reason.
    """
    bench = load_or_stop(folder_of_bench(), as_json=False)
    chosen = report_or_stop(bench, report, "publish")
    _photos_or_stop(bench, chosen)
    from generator import __version__  # noqa: PLC0415
    from generator.cli.versions import deciding  # noqa: PLC0415
    from generator.history.amend import Wish, next_edition  # noqa: PLC0415

    wish = Wish(day, reason, summary.strip(), __version__, deciding())
    edition = next_edition(bench, chosen, wish)
    click.echo(_told(bench, edition, wish), nl=False)
    if edition.refused:
        wrong_use("nothing was written.")
    if dry_run:
        click.echo("\nNothing was written. Without --dry-run it is published.")
        return
    _write(bench, edition)


def _photos_or_stop(bench: Bench, report: Report) -> None:
    """Tell what the report's photos want mended, and stop where one can't be published."""
    from generator.evaluation.pictured import with_photos  # noqa: PLC0415

    alone = replace(bench, reports={report.id: report}, doubts=())
    looked = with_photos(alone)
    if looked.faults or looked.doubts:
        tell(looked, as_json=False)
    if looked.faults:
        sys.exit(FAULTS)


def _told(bench: Bench, edition: Next, wish: Wish) -> str:
    from generator.pages import addresses  # noqa: PLC0415
    from generator.pages.render import Renderer  # noqa: PLC0415

    address = (bench.settings.site_address or "").rstrip("/")
    return Renderer(bench.root).text(
        "text/publish.txt.jinja",
        edition=edition,
        wish=wish,
        address=f"{address}/" if address else "",
        here=addresses.edition(edition.report, edition.number),
        latest=addresses.report(edition.report),
    )


def _write(bench: Bench, edition: Next) -> None:
    from generator import __version__  # noqa: PLC0415
    from generator.pages.render import Renderer  # noqa: PLC0415
    from generator.records.schemas import FOLDER, line_for  # noqa: PLC0415
    from generator.records.store import Occupied, write_new  # noqa: PLC0415

    place = PurePosixPath(edition.path.relative_to(bench.root).as_posix())
    schema = line_for(place) if (bench.root / FOLDER).is_dir() else ""
    head = Renderer(bench.root).text(
        "text/edition.yml.jinja", schema=schema, version=__version__, report=edition.report
    )
    try:
        write_new({edition.path: f"{head.strip()}\n{edition.text}".encode()})
    except Occupied:
        wrong_use(
            f"edition {edition.number} was published meanwhile; nothing was written.\n"
            f"See what it is:  provebook history {edition.report}"
        )
    except OSError as error:
        wrong_use(f"nothing was written: {refused(error)}")
    click.echo(f"\nwrote {near(edition.path)}")
