"""What a test report must contain stands where the project's documentation says, on the built demo."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.pages.rendered import VOID

ROOT = Path(__file__).parents[2]
TITLE = "## What a test report must contain"
REPORT = "r/fuse-holders-30a/"
PAGES = {
    "report": f"{REPORT}index.html",
    "method": "m/closed-box-heating/2/index.html",
    "style": "",
}
# ISO/IEC 17025:2017, 7.8.2.1 a to p, 7.8.2.2, 7.8.3.1 a to e, 7.8.5, 7.8.6, 7.8.7, 7.8.8 (from memory of the text).
CLAUSES = {
    *(f"7.8.2.1 {letter}" for letter in "abcdefghijklmnop"),
    "7.8.2.2",
    *(f"7.8.3.1 {letter}" for letter in "abcde"),
    "7.8.5 a, b, c",
    "7.8.5 d, e",
    "7.8.5 f",
    "7.8.6.1",
    "7.8.6.2 a",
    "7.8.6.2 b",
    "7.8.6.2 c",
    "7.8.7.1",
    "7.8.7.2",
    "7.8.8.1",
    "7.8.8.2, 7.8.8.3",
}


@dataclass(frozen=True)
class Row:
    """A row of the table: a clause, what it asks for, where it stands, words that are there."""

    clause: str
    asks: str
    page: str
    where: str
    there: str


def rows() -> Iterator[Row]:
    """The rows of the table in DEVELOPERS.md."""
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8").partition(TITLE)[2].partition("\n## ")[0]
    for line in text.splitlines():
        cells = [cell.strip().strip("`") for cell in line.strip("|").split("|")]
        if line.startswith("| ") and cells[0].startswith("7.8"):
            yield Row(*cells)


ROWS = list(rows())


class _Found(HTMLParser):
    """The text of what a selector names: `#id`, `tag.class` or `tag`; of a heading all up to the next like it."""

    def __init__(self, selector: str, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.selector = selector
        self.parts: list[str] = []
        self._depth = 0
        self._until = ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag in ("script", "style"):
            return
        if self._until and re.fullmatch("h[1-6]", tag) and tag <= self._until:
            self._until = ""
        if self._depth and tag not in VOID:
            self._depth += 1
        elif not self._depth and self._names(tag, given):
            if re.fullmatch("h[1-6]", tag) and self.selector.startswith("#"):
                self._until = tag
            else:
                self._depth = 1

    def handle_endtag(self, tag: str) -> None:
        if tag == "article":
            self._until = ""
        if self._depth and tag not in VOID:
            self._depth -= 1

    def handle_data(self, data: str) -> None:
        if self._depth or self._until:
            self.parts.append(data)

    def _names(self, tag: str, given: dict[str, str]) -> bool:
        if self.selector.startswith("#"):
            return given.get("id") == self.selector[1:]
        name, _, kind = self.selector.partition(".")
        return tag == name and (not kind or kind in given.get("class", "").split())

    @property
    def text(self) -> str:
        """The text on one line."""
        return " ".join("".join(self.parts).split())


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.clause}: {row.asks}")
def test_each_content_stands_where_the_table_says(demo: Path, row: Row) -> None:
    assert row.there
    if row.page == "style":
        (style,) = demo.glob(f"{row.where.rpartition('.')[0]}*.css")
        held = "".join(style.read_text("utf-8").split())
        assert "".join(row.there.split()) in held
        return
    found = _Found(row.where, (demo / PAGES[row.page]).read_text("utf-8")).text
    assert row.there.replace("\u00a0", " ") in found.replace("\u00a0", " "), found[:400]


def test_the_table_leaves_no_clause_out() -> None:
    assert {row.clause for row in ROWS} == CLAUSES


def test_an_anchor_is_read_up_to_the_next_heading_like_it() -> None:
    html = '<article><h2 id="a">A</h2><p>one</p><h3>x</h3><p class="b c">two</p><h2 id="d">D</h2><p>three</p></article>'
    assert _Found("#a", html).text == "Aonextwo"
    assert _Found("p.c", html).text == "two"
    assert _Found("#none", html).text == ""
