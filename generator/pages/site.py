"""What a site consists of, told without any site builder: pages, fragments and files."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from generator.fault import Doubt, Fault

if TYPE_CHECKING:
    from generator.pages.feed import Feed


@dataclass(frozen=True)
class Page:
    """One generated page.

    Attributes:
        uri: Source address under the docs folder, `r/<id>/index.md`; decides the page's address.
        markdown: The page's Markdown with front matter that names the theme's page kind.
        slots: Fragments (HTML, SVG, JSON blocks) by name; each goes, byte for byte, into the one
            empty `<div data-slot="name">` of the page.
        updated: ISO date for the site map, from the records; empty where none is known.
        record: The record it was made from, for messages.
        listed: Whether the site map and the site's own search list it.
    """

    uri: str
    markdown: str
    slots: dict[str, str] = field(default_factory=dict)
    updated: str = ""
    record: Path | None = None
    listed: bool = True


@dataclass(frozen=True)
class Download:
    """One generated file beside the pages: to take away, or for a live chart.

    Attributes:
        uri: Address under the site.
        content: Its bytes.
    """

    uri: str
    content: bytes


@dataclass(frozen=True)
class Site:
    """Everything generated from one bench.

    Attributes:
        title: The reviewer's name, at the top of each page.
        pages: Generated pages, sorted by address.
        downloads: Generated files, sorted by address.
        demonstration: Whether the data are invented, said on every page.
        units: Which units stand first where nobody has chosen: `metric` or `us`.
        newest: ISO date of the newest record, for hand-written pages in the site map.
        doubts: What may stay in the records, but that a careful person would look at.
        feed: What the feed of changes tells, of addresses under the site; None where nothing was published.
        drafts: Ids of reports of which something is not published and not shown.
        drifts: Published figures that would be printed otherwise now: never to be passed over in silence.
    """

    title: str
    pages: tuple[Page, ...]
    downloads: tuple[Download, ...] = ()
    demonstration: bool = False
    units: str = "metric"
    newest: str = ""
    doubts: tuple[Fault, ...] = ()
    feed: Feed | None = None
    drafts: tuple[str, ...] = ()
    drifts: tuple[Doubt, ...] = ()
