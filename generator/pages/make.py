"""A bench's whole site: its records, evaluated, as pages and files."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from generator.evaluation.checks import checked
from generator.evaluation.findings import ReportFinding
from generator.evaluation.report import evaluate
from generator.fault import Doubt, RecordsRefused
from generator.history.shelf import Shelf, Told, published
from generator.pages.changes import changes_page
from generator.pages.edition_slots import drifted
from generator.pages.feed import feed_of
from generator.pages.front import front_page
from generator.pages.history import history_pages
from generator.pages.method_pages import method_pages
from generator.pages.other_pages import compare_page, item_pages, word_pages
from generator.pages.parcel import parcels
from generator.pages.past import told_editions
from generator.pages.photos import album
from generator.pages.render import Renderer
from generator.pages.report import edition_view
from generator.pages.report_pages import report_files, report_pages
from generator.pages.results import Reported
from generator.pages.site import Download, Page, Site
from generator.pages.standing import standing
from generator.records.bench import Bench, load


def site_of(folder: Path, shelf: Callable[[Bench], Shelf] = published) -> Site:
    """Make the site of a bench.

    Args:
        folder: The bench's folder, which holds `reports/`.
        shelf: What of it is shown: what is published, or drafts too.

    Returns:
        Every page and file, sorted by address.

    Raises:
        RecordsRefused: The records hold faults.
    """
    bench = checked(load(folder))
    if bench.faults:
        raise RecordsRefused(bench.faults, bench.root, bench.left_out)
    return made(shelf(bench))


def made(shelf: Shelf) -> Site:
    """The site of what is shown of a bench."""
    bench = shelf.bench
    renderer = Renderer(bench.root)
    pages: list[Page] = []
    files: list[Download] = []
    reported: list[Reported] = []
    drifts: list[Doubt] = []
    for _, several in sorted(shelf.reports.items()):
        for told in several:
            finding = evaluate(told.bench, told.report)
            view = edition_view(told.bench, told.report, finding, standing(told))
            photos = album(told.bench, told.report)
            pages += report_pages(shelf, told, view, finding, renderer, photos=photos)
            files += report_files(told.report, view, finding, renderer, photos=photos)
            files += parcels(told, finding, renderer, bench.settings)
            drifts += _drifts(told, finding)
        reported.append(Reported(told.report, finding, view, told.bench))
    standing_ones = [each for each in reported if not each.view.standing.withdrawn]
    pages += method_pages(bench, standing_ones, renderer)
    pages += item_pages(bench, reported, renderer)
    pages += word_pages(bench, renderer)
    newest = max((page.updated for page in pages), default="")
    pages.append(compare_page(bench, reported, renderer, newest))
    editions = told_editions(shelf.records)
    pages.append(changes_page(bench, editions, renderer))
    pages += history_pages(shelf.records, editions, reported, renderer)
    pages.append(front_page(bench, reported, editions, renderer, newest))
    return Site(
        bench.settings.reviewer,
        tuple(sorted(pages, key=lambda page: page.uri)),
        tuple(file for _, file in sorted({file.uri: file for file in files}.items())),
        bench.settings.demonstration,
        bench.settings.units,
        newest,
        bench.doubts,
        feed_of(bench, editions),
        shelf.left_out,
        tuple(drifts),
    )


def _drifts(told: Told, finding: ReportFinding) -> Iterator[Doubt]:
    """Figures that this program would print otherwise than they were published: never in silence."""
    for each in drifted(told, finding):
        place = told.edition.place_of() if told.edition else told.report.record.place_of()
        now = each.now.printed if each.now else None
        what = "computed anew, this published figure would be printed otherwise; see: provebook verify"
        yield Doubt(place, f"figures.{each.was.item}.{each.was.measure}", what, now)
