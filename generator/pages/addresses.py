"""Addresses of pages under the site, and links between them; stable for ever, so this is their one home."""

from __future__ import annotations

import posixpath
import re

from markupsafe import Markup

_SAFE = re.compile(r"[A-Za-z0-9._/#-]*")

FRONT = ""
METHODS = "m/"
COMPARE = "compare/"
GLOSSARY = "glossary/"
CORRECTIONS = "corrections/"
CHANGES = "changes/"
FEED = "changes.xml"


def report(report_id: str) -> str:
    """The report's own address: always its latest edition."""
    return f"r/{report_id}/"


def edition(report_id: str, number: int) -> str:
    """One edition of a report."""
    return f"r/{report_id}/{number}/"


def history(report_id: str) -> str:
    """The editions of a report."""
    return f"r/{report_id}/history/"


def data(report_id: str, number: int, name: str) -> str:
    """A file to take away from an edition."""
    return f"r/{report_id}/{number}/data/{name}.csv"


def parcel(report_id: str, number: int) -> str:
    """An edition with all that it rests on, in one file."""
    return f"r/{report_id}/{number}/data/{report_id}-edition-{number}.zip"


def chart(report_id: str, number: int, measure: str) -> str:
    """What the live chart of a measure is drawn from."""
    return f"r/{report_id}/{number}/charts/{measure}.js"


def photo(report_id: str, name: str) -> str:
    """A picture of a report; its name holds what the original's bytes come to, so editions share it."""
    return f"r/{report_id}/photos/{name}"


def how(report_id: str, number: int, item_id: str) -> str:
    """How the figures of an item were worked out; the measure is an anchor on it."""
    return f"r/{report_id}/{number}/how/{item_id}/"


def method(method_id: str) -> str:
    """A method, all its versions."""
    return f"m/{method_id}/"


def version(method_id: str, number: int) -> str:
    """One version of a method."""
    return f"m/{method_id}/{number}/"


def item(item_id: str) -> str:
    """An item, every result of it."""
    return f"i/{item_id}/"


def source(address: str) -> str:
    """Where MkDocs finds the Markdown of a page."""
    return f"{address}index.md"


def link(here: str, there: str, anchor: str = "") -> Markup:
    """The link from one page to another place of the site, for a fragment.

    Args:
        here: Address of the page that holds the link.
        there: Address of a page (ends in a slash, or empty for the front) or of a file.
        anchor: An id on it.

    Raises:
        ValueError: A part holds what no address of ours holds.
    """
    path = posixpath.relpath(there or ".", here or ".")
    slash = "/" if there.endswith("/") or not there else ""
    return _checked(f"{path}{slash}{_anchor(anchor)}")


def markdown_link(here: str, there: str, anchor: str = "") -> Markup:
    """The same for Markdown: from source to source, so that MkDocs checks it."""
    page = there.endswith("/") or not there
    path = posixpath.relpath(source(there) if page else there, here or ".")
    return _checked(f"{path}{_anchor(anchor)}")


def _anchor(anchor: str) -> str:
    return f"#{anchor}" if anchor else ""


def _checked(path: str) -> Markup:
    if not _SAFE.fullmatch(path):
        raise ValueError(f"{path!r} is no address of this site")
    return Markup(path)  # noqa: S704  # letters, digits and five signs, as checked


def anchor(name: str) -> Markup:
    """An id as an anchor of a page."""
    return _checked(name)
