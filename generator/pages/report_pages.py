"""The pages of one report: its own address, and the address that its edition will have."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from markupsafe import Markup

from generator.evaluation.findings import ReportFinding
from generator.history.shelf import Shelf, Told
from generator.pages import addresses
from generator.pages.answer import Answer, short_enough
from generator.pages.chart import ChartView
from generator.pages.edition_slots import cited_as, edition_slots
from generator.pages.files import data_files
from generator.pages.how import how_links, how_pages
from generator.pages.method import VersionLink
from generator.pages.photos import Album, pictures
from generator.pages.priced import PricesView
from generator.pages.render import Renderer, words
from generator.pages.report import ReportView, methods_of
from generator.pages.site import Download, Page
from generator.records.bench import Report

DIGITS = 8
"""So many of its SHA-256 stand behind the address of a chart's data: no browser draws an older one."""


@dataclass(frozen=True)
class Named:
    """A file to take away, by its name."""

    name: str
    link: Markup


def report_pages(
    shelf: Shelf, told: Told, view: ReportView, finding: ReportFinding, renderer: Renderer, *, photos: Album
) -> Iterator[Page]:
    """The page of an edition or a draft; of the last one at the report's own address, too."""
    if view.standing.withdrawn:
        yield from _withdrawn(shelf, told, view, finding, renderer)
        return
    answer = short_enough(view.answers, partial(words_of, renderer))
    taken_back = any(each.withdrawn for each in shelf.reports[view.id])
    markdown = renderer.markdown(
        "pages/report.md.jinja", report=view, answer=answer, photos=photos, taken_back=taken_back
    )
    shared = _shared_slots(view, renderer)
    last = shelf.reports[view.id][-1] is told
    latest = (addresses.report(view.id),) if last else ()
    for here in (*latest, addresses.edition(view.id, view.edition)):
        yield Page(
            addresses.source(here),
            markdown,
            shared
            | _own_slots(shelf, told, view, finding, here, renderer=renderer)
            | edition_slots(shelf, told, view, finding, here=here, renderer=renderer)
            | _charts(view, here, renderer)
            | _ways(view, finding, here, renderer)
            | _photos(photos, view, here, renderer),
            updated=view.date.iso if view.date else "",
            record=told.report.record.place_of().file,
            listed=here == addresses.report(view.id) and told.edition is not None,
        )
    yield from how_pages(view, finding, renderer)


def _withdrawn(
    shelf: Shelf, told: Told, view: ReportView, finding: ReportFinding, renderer: Renderer
) -> Iterator[Page]:
    """The page of an edition that takes its report back: why, and no figure."""
    markdown = renderer.markdown("pages/withdrawn.md.jinja", report=view)
    caution = renderer.fragment(
        "fragments/caution.html.jinja", cautions=view.cautions, anchor=addresses.anchor("cautions")
    )
    last = shelf.reports[view.id][-1] is told
    for here in (*((addresses.report(view.id),) if last else ()), addresses.edition(view.id, view.edition)):
        slots = edition_slots(shelf, told, view, finding, here=here, renderer=renderer)
        address = addresses.edition(view.id, view.edition)
        cite = renderer.fragment(
            "fragments/cite.html.jinja",
            cited=cited_as(shelf, view),
            edition=VersionLink(view.edition, f"/{address}", addresses.link(here, address)),
        )
        yield Page(
            addresses.source(here),
            markdown,
            {"notice": slots["notice"], "editions": slots["editions"], "caution": caution, "cite": cite},
            updated=view.date.iso if view.date else "",
            record=told.report.record.place_of().file,
            listed=here == addresses.report(view.id),
        )


def words_of(renderer: Renderer, answer: Answer) -> int:
    """How many words an answer has, a number with its ± and unit counted as one."""
    return len(words(renderer.as_read("fragments/answer.md.jinja", answer=answer)))


def report_files(
    report: Report, view: ReportView, finding: ReportFinding, renderer: Renderer, *, photos: Album
) -> Iterator[Download]:
    """The files beside a report's pages: to take away, pictures, and what its live charts are drawn from."""
    if view.standing.withdrawn:
        return
    yield from photos.files()
    for each in data_files(report, finding):
        yield Download(addresses.data(view.id, view.edition, each.name), each.content())
    for part in view.parts:
        if part.chart:
            address = addresses.chart(view.id, view.edition, part.measure)
            yield Download(address, _live(part.chart, renderer).encode())


def _shared_slots(view: ReportView, renderer: Renderer) -> dict[str, str]:
    """Fragments that are the same wherever the report stands."""
    slots: dict[str, str] = {
        "caution": renderer.fragment(
            "fragments/caution.html.jinja", cautions=view.cautions, anchor="cautions"
        ),
        "contents": renderer.fragment("fragments/contents.html.jinja", report=view),
    }
    if view.main:
        slots["figures"] = renderer.fragment("fragments/figures.html.jinja", view=view.main.figures)
    if view.fit.where:
        slots["where"] = renderer.fragment("fragments/where.html.jinja", views=view.fit.where)
    if view.fit.limits or view.fit.unheld:
        slots["limits"] = renderer.fragment("fragments/limits.html.jinja", fit=view.fit)
    if view.prices:
        slots["prices"] = _prices(view.prices, renderer)
    for part in view.others:
        table = renderer.fragment("fragments/quantity.html.jinja", view=part.table)
        slots[f"table-{part.measure}"] = table
    for each in view.tallied:
        table = renderer.fragment(f"fragments/tallied-{each.kind}.html.jinja", view=each)
        slots[f"table-{each.measure}"] = table
    for number, part in enumerate(view.parts, 1):
        if part.sure.pairs:
            slots[f"pairs-{number}"] = renderer.fragment("fragments/pairs.html.jinja", sure=part.sure)
    return slots


def _prices(view: PricesView, renderer: Renderer) -> str:
    chart = view.chart
    facts = {"id": chart.id, "still": chart.still, "facts": chart.facts} if chart else {}
    svg = renderer.fragment("charts/prices.svg.jinja", **facts) if chart else ""
    return renderer.fragment("fragments/prices.html.jinja", view=view, svg=svg)


def _ways(view: ReportView, finding: ReportFinding, here: str, renderer: Renderer) -> dict[str, str]:
    """Cards and the list of links, both to how the figures were worked out."""
    links = how_links(view, finding, here)
    of = {each.id: each.link for each in links}
    slots: dict[str, str] = {
        f"card-{number}": renderer.fragment(
            "fragments/card.html.jinja",
            card=card,
            bars=view.main.figures if view.main else None,
            how=of.get(card.id),
            page=addresses.link(here, addresses.item(card.id)),
        )
        for number, card in enumerate(view.cards, 1)
    }
    for number, part in enumerate(view.parts, 1):
        # Of other measures the rows stand on the page of each figure alone, since a first view has a weight.
        slots[f"budgets-{number}"] = Markup().join(
            renderer.fragment(
                "fragments/budget.html.jinja",
                budget=each,
                measure=part.measure,
                how=of.get(each.id),
                whole=part is view.main,
            )
            for each in part.sure.budgets
        )
    if view.parts or view.tallied:
        slots["ways"] = renderer.fragment("fragments/ways.html.jinja", ways=links)
    return slots


def _photos(album: Album, view: ReportView, here: str, renderer: Renderer) -> dict[str, str]:
    """Photos: an item's on its card, the others with how it was measured."""
    places = {f"photos-{number}": album.items.get(card.id, ()) for number, card in enumerate(view.cards, 1)}
    return {
        slot: renderer.fragment("fragments/photos.html.jinja", photos=pictures(view.id, shots, here))
        for slot, shots in (places | {"photos-rig": album.rig}).items()
        if shots
    }


def _charts(view: ReportView, here: str, renderer: Renderer) -> dict[str, str]:
    """The stills, each with the address of what it is drawn from where a reader wants it live."""
    slots: dict[str, str] = {}
    for number, part in enumerate(view.parts, 1):
        if not part.chart:
            continue
        chart = part.chart
        there = addresses.chart(view.id, view.edition, part.measure)
        digest = hashlib.sha256(_live(chart, renderer).encode()).hexdigest()
        svg = renderer.fragment("charts/heating.svg.jinja", id=chart.id, still=chart.still, facts=chart.facts)
        slots[f"chart-{number}"] = renderer.fragment(
            "fragments/heating.html.jinja",
            view=chart,
            svg=svg,
            data=f"{addresses.link(here, there)}?{digest[:DIGITS]}",
        )
    return slots


def _live(chart: ChartView, renderer: Renderer) -> str:
    """A script, since a page that is read from a disk may load no other file of data."""
    return renderer.fragment("charts/live.js.jinja", live=chart.live)


def _own_slots(
    shelf: Shelf, told: Told, view: ReportView, finding: ReportFinding, here: str, *, renderer: Renderer
) -> dict[str, str]:
    """Fragments whose links depend on where the page stands."""
    bench, report = told.bench, told.report
    methods = [
        VersionLink(each.version, each.title, addresses.link(here, addresses.version(each.id, each.version)))
        for each in methods_of(bench, report)
    ]
    files = [
        Named(each.name, addresses.link(here, addresses.data(view.id, view.edition, each.name)))
        for each in data_files(report, finding)
    ]
    address = addresses.edition(view.id, view.edition)
    edition = VersionLink(view.edition, f"/{address}", addresses.link(here, address))
    whole = addresses.parcel(view.id, view.edition) if told.edition is not None else ""
    parcel = Named(whole.rpartition("/")[2], addresses.link(here, whole)) if whole else None
    return {
        "facts": renderer.fragment("fragments/facts.html.jinja", facts=view, methods=methods),
        "measured": renderer.fragment(
            "fragments/measured.html.jinja",
            measured=view.measured,
            methods=methods,
            conditions=view.conditions,
            fit=view.fit,
        ),
        "take": renderer.fragment(
            "fragments/take.html.jinja",
            columns=addresses.link(here, addresses.GLOSSARY, "files"),
            files=files,
            edition=edition,
            cited=cited_as(shelf, view),
            parcel=parcel,
            licence=shelf.records.settings.licence,
        ),
    }
