"""What a finished page says on paper alone: on each sheet what it is of, and where its links lead.

A style sheet can print an attribute, but neither read another element's from a sheet's margin nor make an
address whole; so both are put where it reads them, in pages that need no script for it.
"""

from __future__ import annotations

import re
from html import escape, unescape
from urllib.parse import urljoin, urlsplit

_SHEET = re.compile(r'[ \t]*<meta(?=\s) name="sheet" content="([^"]*)">\n?')
_ROOT = re.compile(r"<html(?=[\s>])")
_ARTICLE = re.compile(r"<article(?=[\s>]).*<[/]article>", re.DOTALL)
_LINK = re.compile(r'<a(?=\s)(?![^<>]*\sdata-at=)(?=[^<>]*\shref="([^"#][^"]*)")(?=[^<>]*>)')


def named(html: str) -> str:
    """Move what each sheet says of itself from the page's head to its root, whose properties sheets inherit.

    Args:
        html: The page; a `meta` named "sheet" holds the text, one line a line of the sheet's margin.

    Returns:
        The page with the text as `data-sheet` of its root; unchanged where it has none.
    """
    found = _SHEET.search(html)
    if not found:
        return html
    rest = html[: found.start()] + html[found.end() :]
    return _ROOT.sub(lambda root: f'{root[0]} data-sheet="{found[1]}"', rest, count=1)


def spelled(html: str, here: str) -> str:
    """Say beside links to other pages of the site where they lead, each address once a page.

    Args:
        html: The page with its fragments.
        here: The page's own absolute address; empty where the bench doesn't say where its site stands.

    Returns:
        The page with `data-at`, an address without its scheme, at the first link to each. Unchanged is what
        lies outside of the article, what has a `data-at` already (an empty one where paper leaves the link
        out), and links within the page and to other sites.
    """
    if not here:
        return html
    own = urlsplit(here)
    seen = {own.path}

    def told(link: re.Match[str]) -> str:
        to = urlsplit(urljoin(here, unescape(link[1])))
        if to.netloc != own.netloc or to.scheme != own.scheme or to.path in seen or urlsplit(link[1]).scheme:
            return link[0]
        seen.add(to.path)
        return f'{link[0]} data-at="{escape(to.netloc + to.path)}"'

    return _ARTICLE.sub(lambda article: _LINK.sub(told, article[0]), html, count=1)
