"""A bench's whole site: its records, evaluated, as pages and files."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from generator.evaluation.checks import checked
from generator.evaluation.report import evaluate
from generator.fault import RecordsRefused
from generator.pages import addresses
from generator.pages.format import Day
from generator.pages.method import method_view, version_view
from generator.pages.render import Renderer
from generator.pages.report import ReportView, report_view
from generator.pages.report_pages import report_files, report_pages
from generator.pages.site import Download, Page, Site
from generator.records.bench import Bench, load
from generator.records.schema.method import Method


@dataclass(frozen=True)
class FrontReport:
    """A report in the list of the front page."""

    anchor: Markup
    question: str
    link: Markup
    items: tuple[str, ...]
    pieces: int
    date: Day | None


@dataclass(frozen=True)
class FrontView:
    """Everything that `pages/front.md.jinja` is given; newest report first."""

    reviewer: str
    demonstration: bool
    reports: tuple[FrontReport, ...]
    methods: Markup


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
    views: list[ReportView] = []
    for _, report in sorted(bench.reports.items()):
        finding = evaluate(bench, report)
        view = report_view(bench, report, finding)
        views.append(view)
        pages += report_pages(bench, report, view, finding, renderer)
        files += report_files(view, finding)
    pages += _method_pages(bench, renderer)
    newest = max((page.updated for page in pages), default="")
    pages.append(_front_page(bench, views, renderer, newest))
    return Site(
        bench.settings.reviewer,
        tuple(sorted(pages, key=lambda page: page.uri)),
        tuple(sorted(files, key=lambda file: file.uri)),
        bench.settings.demonstration,
        bench.settings.units,
        newest,
        bench.doubts,
    )


def _front_page(bench: Bench, views: Sequence[ReportView], renderer: Renderer, newest: str) -> Page:
    here = addresses.FRONT
    listed = [
        FrontReport(
            addresses.anchor(f"report-{view.id}"),
            view.question,
            addresses.markdown_link(here, addresses.report(view.id)),
            tuple(each.name for each in view.cards),
            view.disclosure.pieces,
            view.date,
        )
        for view in sorted(views, key=_date, reverse=True)
    ]
    front = FrontView(
        bench.settings.reviewer,
        bench.settings.demonstration,
        tuple(listed),
        addresses.markdown_link(here, addresses.METHODS),
    )
    return Page(
        addresses.source(here), renderer.markdown("pages/front.md.jinja", front=front), updated=newest
    )


def _date(view: ReportView) -> str:
    return view.date.iso if view.date else ""


def _method_pages(bench: Bench, renderer: Renderer) -> Iterator[Page]:
    dates = _dates_of_use(bench)
    index = addresses.METHODS
    views = tuple(method_view(bench, key, index) for key in sorted(bench.methods))
    markdown = renderer.markdown("pages/methods.md.jinja", methods=views)
    yield Page(addresses.source(index), markdown, updated=max(dates.values(), default=""))
    for key, versions in sorted(bench.methods.items()):
        here = addresses.method(key)
        view = method_view(bench, key, here)
        newest = max((dates.get((key, number), "") for number in versions), default="")
        yield Page(
            addresses.source(here), renderer.markdown("pages/method.md.jinja", method=view), updated=newest
        )
        for number in sorted(versions):
            yield _version_page(bench, versions[number], renderer, dates.get((key, number), ""))


def _version_page(bench: Bench, method: Method, renderer: Renderer, updated: str) -> Page:
    view = version_view(bench, method)
    here = addresses.version(method.id, method.version)
    caution = renderer.fragment(
        "fragments/caution.html.jinja", cautions=view.cautions, anchor=addresses.anchor("_cautions")
    )
    markdown = renderer.markdown(
        "pages/method-version.md.jinja", v=view, demonstration=bench.settings.demonstration
    )
    return Page(
        addresses.source(here),
        markdown,
        {"caution": caution},
        updated=updated,
        record=method.place_of().file,
    )


def _dates_of_use(bench: Bench) -> dict[tuple[str, int], str]:
    """The day of the newest run by each version of each method."""
    dates: dict[tuple[str, int], str] = {}
    for run in bench.runs.values():
        key = (run.method, run.version)
        dates[key] = max(dates.get(key, ""), run.date.isoformat())
    return dates
