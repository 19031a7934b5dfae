"""A bench's whole site: its records, evaluated, as pages and files."""

from __future__ import annotations

from pathlib import Path

from generator.evaluation.checks import checked
from generator.evaluation.report import evaluate
from generator.fault import RecordsRefused
from generator.pages.changes import changes_page
from generator.pages.feed import feed_of
from generator.pages.front import front_page
from generator.pages.history import history_pages
from generator.pages.method_pages import method_pages
from generator.pages.other_pages import compare_page, item_pages, word_pages
from generator.pages.parcel import parcels
from generator.pages.past import told_editions
from generator.pages.render import Renderer
from generator.pages.report import report_view
from generator.pages.report_pages import report_files, report_pages
from generator.pages.results import Reported
from generator.pages.site import Download, Page, Site
from generator.records.bench import Bench, load


def site_of(folder: Path) -> Site:
    """Make the site of a bench.

    Args:
        folder: The bench's folder, which holds `reports/`.

    Returns:
        Every page and file, sorted by address.

    Raises:
        RecordsRefused: The records hold faults.
    """
    bench = checked(load(folder))
    if bench.faults:
        raise RecordsRefused(bench.faults, bench.root, bench.left_out)
    return made(bench)


def made(bench: Bench) -> Site:
    """The site of a bench whose records hold no faults."""
    renderer = Renderer(bench.root)
    pages: list[Page] = []
    files: list[Download] = []
    reported: list[Reported] = []
    for _, report in sorted(bench.reports.items()):
        finding = evaluate(bench, report)
        view = report_view(bench, report, finding)
        reported.append(Reported(report, finding, view))
        pages += report_pages(bench, report, view, finding, renderer)
        files += report_files(report, view, finding, renderer)
        files += parcels((bench, report), view.edition, finding, renderer, bench.settings.site_address or "")
    pages += method_pages(bench, reported, renderer)
    pages += item_pages(bench, reported, renderer)
    pages += word_pages(bench, renderer)
    newest = max((page.updated for page in pages), default="")
    pages.append(compare_page(bench, reported, renderer, newest))
    told = told_editions(bench)
    pages.append(changes_page(bench, told, renderer))
    pages += history_pages(bench, told, reported, renderer)
    pages.append(front_page(bench, reported, told, renderer, newest))
    return Site(
        bench.settings.reviewer,
        tuple(sorted(pages, key=lambda page: page.uri)),
        tuple(sorted(files, key=lambda file: file.uri)),
        bench.settings.demonstration,
        bench.settings.units,
        newest,
        bench.doubts,
        feed_of(bench, told),
    )
