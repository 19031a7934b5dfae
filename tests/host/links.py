"""Reads a built site as a reader's links do: what leads nowhere, and what nothing leads to."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit


@dataclass
class _Read(HTMLParser):
    """The links and ids of one page."""

    links: list[str] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name == "id" and value:
                self.ids.append(value)
            elif name in {"href", "src", "data-live"} and value is not None and tag != "use":
                self.links.append(value)


def read(site: Path) -> dict[str, _Read]:
    """Every page of a site by its address; `404.html`, which no link leads to, left out."""
    pages = {}
    for path in site.rglob("*.html"):
        address = path.relative_to(site).as_posix().removesuffix("index.html")
        pages[address] = page = _Read()
        page.feed(path.read_text(encoding="utf-8"))
        page.close()
    pages.pop("404.html", None)
    return dict(sorted(pages.items()))


def inside(address: str, page: _Read) -> Iterator[tuple[str, str]]:
    """The links of a page within the site: address of the target and anchor."""
    for link in page.links:
        parts = urlsplit(link)
        if parts.scheme or parts.netloc:
            continue
        path = unquote(parts.path)
        target = posixpath.normpath(posixpath.join(posixpath.dirname(address), path)) if path else address
        if path.endswith(("/", ".")) or path == "":
            target = "" if target in {".", ""} else target.rstrip("/") + "/"
        yield target, unquote(parts.fragment)


def faults(site: Path) -> list[str]:
    """Dead links, dead anchors, ids given twice, and pages that no way from the front page reaches."""
    pages = read(site)
    found = []
    for address, page in pages.items():
        found += [
            f"/{address}: id {each!r} twice"
            for each in sorted({i for i in page.ids if page.ids.count(i) > 1})
        ]
        for target, anchor in inside(address, page):
            if target not in pages and not (site / target).is_file():
                found.append(f"/{address}: no {target or '/'}")
            elif anchor and target in pages and anchor not in pages[target].ids:
                found.append(f"/{address}: no #{anchor} on /{target}")
    reached, next_ = set[str](), [""]
    while next_:
        address = next_.pop()
        if address in pages and address not in reached:
            reached.add(address)
            next_ += [target for target, _ in inside(address, pages[address])]
    return found + [f"/{address}: no link leads here" for address in pages if address not in reached]
