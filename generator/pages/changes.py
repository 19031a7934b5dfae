"""The page of changes: every edition of every report, newest first; and the latest of them for the front."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages import addresses
from generator.pages.past import Told, newest_editions
from generator.pages.past_views import EditionView
from generator.pages.render import Renderer
from generator.pages.site import Page
from generator.records.bench import Bench

WORDING = "wording"
"""The reason of an edition that changes words alone: told on its pages, and nowhere that announces."""

LATELY = 3
"""So many editions stand on the front page."""


@dataclass(frozen=True)
class Listed:
    """An edition in a list: with links to its page and to the report's history, and an id of its own."""

    edition: EditionView
    anchor: Markup
    link: Markup
    history: Markup


def changes_page(bench: Bench, told: Sequence[Told], renderer: Renderer) -> Page:
    """The page of changes, of the date of the newest edition."""
    here = addresses.CHANGES
    editions = listed(newest_editions(told), here)
    markdown = renderer.markdown(
        "pages/changes.md.jinja",
        editions=editions,
        demonstration=bench.settings.demonstration,
        corrections=addresses.markdown_link(here, addresses.CORRECTIONS),
        glossary=addresses.markdown_link(here, addresses.GLOSSARY),
    )
    slots: dict[str, str] = {}
    if editions:
        slots["editions"] = renderer.fragment("fragments/editions.html.jinja", editions=editions)
    updated = editions[0].edition.day.iso if editions else ""
    return Page(addresses.source(here), markdown, slots, updated=updated)


def listed(editions: Iterable[EditionView], here: str) -> tuple[Listed, ...]:
    """Editions as a page lists them."""
    return tuple(
        Listed(
            each,
            addresses.anchor(f"{each.report}-{each.number}"),
            addresses.link(here, addresses.edition(each.report, each.number)),
            addresses.link(here, addresses.history(each.report)),
        )
        for each in editions
    )


def announced(told: Iterable[Told]) -> tuple[EditionView, ...]:
    """Every edition that is announced, newest first: all but those that change words alone."""
    return tuple(each for each in newest_editions(told) if each.reason != WORDING)


def lately(told: Iterable[Told], here: str) -> tuple[Listed, ...]:
    """The latest of them, for the front page."""
    return listed(announced(told)[:LATELY], here)
