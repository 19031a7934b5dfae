"""The feed of changes: an Atom document (RFC 4287) of every announced edition, newest first.

Ids are made of what an edition is and never of where the site stands, so that a site may move and no reader
is told anything twice. An edition has a day and no time: it counts from midnight, UTC.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages import addresses
from generator.pages.changes import announced
from generator.pages.past import Told
from generator.pages.past_views import EditionView, MovedView
from generator.pages.render import Renderer
from generator.records.bench import Bench

NAMESPACE = bytes.fromhex("1de5d5c33ec34823be1d0849451be206")
"""The namespace of our ids, drawn once; it never changes."""

MOST = 3
"""So many figures are told in an entry."""


@dataclass(frozen=True)
class Entry:
    """An edition in the feed: its id, when it was published, and where it stands under the site."""

    id: str
    updated: str
    edition: EditionView
    address: Markup

    @property
    def told(self) -> tuple[MovedView, ...]:
        """The changed figures that are told one by one, those of the main measure first."""
        moved = self.edition.change.moved if self.edition.change is not None else ()
        return tuple(sorted(moved, key=lambda each: not each.main)[:MOST])

    @property
    def more(self) -> int:
        """How many are not."""
        moved = self.edition.change.moved if self.edition.change is not None else ()
        return max(len(moved) - MOST, 0)


@dataclass(frozen=True)
class Feed:
    """What the feed tells, of addresses under the site; one entry at least."""

    id: str
    reviewer: str
    demonstration: bool
    entries: tuple[Entry, ...]

    @property
    def updated(self) -> str:
        """When the newest entry was published."""
        return self.entries[0].updated


def feed_of(bench: Bench, told: Iterable[Told]) -> Feed | None:
    """The feed of a bench; None where it has published nothing.

    Its own id is made of its oldest edition: a reviewer may take another name, and the site another address.
    """
    editions = announced(told)
    if not editions:
        return None
    oldest = min(editions, key=lambda each: (each.day.iso, each.report, each.number))
    entries = tuple(_entry(each) for each in editions)
    settings = bench.settings
    return Feed(urn(f"feed/{_name(oldest)}"), settings.reviewer, settings.demonstration, entries)


def _entry(edition: EditionView) -> Entry:
    address = addresses.edition(edition.report, edition.number)
    return Entry(urn(_name(edition)), f"{edition.day.iso}T00:00:00Z", edition, Markup(address))  # noqa: S704


def _name(edition: EditionView) -> str:
    """What an edition is: its report, its number and its fingerprint, which no other bench's has."""
    return f"{edition.report}/{edition.number}/{edition.hash}"


def urn(name: str) -> str:
    """The id of a name in our namespace: a UUID of version 5 (RFC 9562, 5.5)."""
    made = bytearray(hashlib.sha1(NAMESPACE + name.encode(), usedforsecurity=False).digest()[:16])
    made[6] = made[6] & 0x0F | 0x50
    made[8] = made[8] & 0x3F | 0x80
    text = made.hex()
    parts = (text[:8], text[8:12], text[12:16], text[16:20], text[20:])
    return f"urn:uuid:{'-'.join(parts)}"


def written(feed: Feed, base: str, renderer: Renderer) -> str:
    """The feed's document.

    Args:
        feed: What it tells.
        base: The address that the site stands at, with a slash at its end.
        renderer: Where its template is.
    """
    return renderer.fragment(
        "fragments/changes.xml.jinja", feed=feed, base=base, here=addresses.FEED, page=addresses.CHANGES
    )
