"""What the templates around the content are given, under the name `provebook`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from generator import __version__
from generator.pages.site import Site

POLICY = "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:"
"""Printed on every page; works as a server's header too."""

PREVIEW_POLICY = f"{POLICY}; script-src 'self' 'unsafe-inline'"
"""While serving, MkDocs writes a script into each page that reloads it."""

UNDATED = "1970-01-01"
"""The date of a page where no record has one; never printed."""

MENU = (
    "index.md",
    "compare/index.md",
    "m/index.md",
    "glossary/index.md",
    "changes/index.md",
    "corrections/index.md",
    "about.md",
)
"""Pages of the menu, those that exist; it never grows with the reports. Their words are in header.html."""


@dataclass(frozen=True)
class Chrome:
    """Facts for the parts of a page around its content.

    Attributes:
        title: The reviewer's name.
        demonstration: Whether the data are invented.
        units: Which units stand first where nobody has chosen: `metric` or `us`.
        version: This program's version.
        policy: The content security policy.
        search_worker: Address of the theme's search worker under the site.
        plotly: Address of the script that draws live charts, under the site.
        feed: Address of the feed of changes, under the site; empty without one.
        undated: The date that stands for none.
        unlisted: Source addresses of pages that the site map leaves out.
        own_menu: Whether the menu is ours; a bench may write its own as `nav`.
    """

    title: str
    demonstration: bool
    units: str
    version: str
    policy: str
    search_worker: str
    plotly: str
    feed: str
    undated: str
    unlisted: frozenset[str]
    own_menu: bool


_TOGGLE = re.compile(r'(class="md-toggle"[^>]*?) autocomplete="off"')


_INDENT = re.compile(r"\n[ \t]+(?=<)")
_BLANK = re.compile(r"\n\s*\n")


def tidied(page: str) -> str:
    """A page without the theme's one slip against HTML, and without what only its source's readers see.

    A check box has no words to be completed. Indentation and empty lines weigh something on every page; where
    lines stand as they were typed, they are left.
    """
    page = _TOGGLE.sub(r"\1", page)
    return page if "</pre" in page else _BLANK.sub("\n", _INDENT.sub("\n", page))


def chrome(
    site: Site, theme_folders: Iterable[str], *, policy: str, own_menu: bool, plotly: str, feed: str
) -> Chrome:
    """Gather what the templates are given."""
    return Chrome(
        title=site.title,
        demonstration=site.demonstration,
        units=site.units,
        version=__version__,
        policy=policy,
        search_worker=theme_file(theme_folders, "assets/javascripts/workers/search.*.min.js"),
        plotly=plotly,
        feed=feed,
        undated=UNDATED,
        unlisted=frozenset(page.uri for page in site.pages if not page.listed),
        own_menu=own_menu,
    )


def theme_file(folders: Iterable[str], pattern: str) -> str:
    """The address of a file whose name carries a hash that changes with the theme's version.

    Raises:
        FileNotFoundError: The theme has no such file any more.
    """
    for each in map(Path, folders):
        for found in sorted(each.glob(pattern)):
            return found.relative_to(each).as_posix()
    raise FileNotFoundError(f"the theme holds no {pattern}")
