"""The front page: search, the latest reports, how to read these pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages import addresses
from generator.pages.changes import lately
from generator.pages.format import Day
from generator.pages.past import Told
from generator.pages.render import Renderer
from generator.pages.results import Reported, newest_first
from generator.pages.site import Page
from generator.records.bench import Bench


@dataclass(frozen=True)
class FrontReport:
    """A report in the list of the front page; `edition` is 0 of a draft."""

    anchor: Markup
    question: str
    link: Markup
    items: tuple[str, ...]
    pieces: int
    date: Day | None
    edition: int
    withdrawn: bool


@dataclass(frozen=True)
class FrontView:
    """Everything that `pages/front.md.jinja` is given; newest report first."""

    reviewer: str
    demonstration: bool
    reports: tuple[FrontReport, ...]
    methods: Markup
    compare: Markup
    glossary: Markup
    corrections: Markup
    changes: Markup
    changed: bool


def front_page(
    bench: Bench, reported: Sequence[Reported], told: Sequence[Told], renderer: Renderer, newest: str
) -> Page:
    """The front page, of the date of the newest record."""
    here = addresses.FRONT
    changed = lately(told, here)
    front = FrontView(
        bench.settings.reviewer,
        bench.settings.demonstration,
        tuple(_listed(each, here) for each in newest_first(reported)),
        addresses.markdown_link(here, addresses.METHODS),
        addresses.markdown_link(here, addresses.COMPARE),
        addresses.markdown_link(here, addresses.GLOSSARY),
        addresses.markdown_link(here, addresses.CORRECTIONS),
        addresses.markdown_link(here, addresses.CHANGES),
        bool(changed),
    )
    markdown = renderer.markdown("pages/front.md.jinja", front=front)
    listed = renderer.fragment("fragments/editions.html.jinja", editions=changed)
    slots: dict[str, str] = {"lately": listed} if changed else {}
    return Page(addresses.source(here), markdown, slots, updated=newest)


def _listed(each: Reported, here: str) -> FrontReport:
    view = each.view
    return FrontReport(
        addresses.anchor(f"report-{view.id}"),
        view.question,
        addresses.markdown_link(here, addresses.report(view.id)),
        tuple(card.name for card in view.cards),
        view.disclosure.pieces,
        view.date,
        view.edition if view.standing.day else 0,
        view.standing.withdrawn,
    )
