"""Each kind of page as Chromium prints it on A4 and Letter: their text, and nothing beyond them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest
from playwright.sync_api import Page

from generator.host.build import build
from tests.browser.conftest import Open, Serve

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
REPORT = "r/fuse-holders-30a/"
WITHDRAWN = "r/ring-terminals-m6/"
DRAFT = "r/sockets-worn/"
EDITION = re.compile(r"edition \d+ · \d+ \w+ \d{4} · [0-9a-f]{12}")
KINDS = {
    "report": REPORT,
    "older": REPORT + "1/",
    "withdrawn": WITHDRAWN,
    "older of withdrawn": WITHDRAWN + "1/",
    "draft": DRAFT,
    "history": REPORT + "history/",
    "how": REPORT + "1/how/okvarn-ih30/",
    "method": "m/closed-box-heating/",
    "version": "m/closed-box-heating/2/",
    "item": "i/okvarn-ih30/",
    "comparison": "compare/",
    "changes": "changes/",
    "glossary": "glossary/",
    "front": "",
}
MARGIN = 14 / 25.4 * 72
"""Left free at the top and, with a millimetre more, at the sides, in points."""

SIGNS = {0x02: "-", ord("\r"): None}
"""PDFium's own sign for a hyphen at a line's end, and the ends of its lines."""

FOOT = 20 / 25.4 * 72


@dataclass(frozen=True)
class Sheets:
    """A printed page.

    Attributes:
        content: The PDF.
    """

    content: bytes

    @cached_property
    def texts(self) -> list[str]:
        """The text of each sheet."""
        with pdfium.PdfDocument(self.content) as document:
            return [sheet.get_textpage().get_text_bounded().translate(SIGNS) for sheet in document]

    @cached_property
    def bodies(self) -> list[str]:
        """What stands between the margins of each sheet."""
        with pdfium.PdfDocument(self.content) as document:
            return [sheet.get_textpage().get_text_bounded(bottom=FOOT).translate(SIGNS) for sheet in document]

    @cached_property
    def pictures(self) -> list[np.ndarray]:
        """Each sheet in grey, a point a pixel."""
        with pdfium.PdfDocument(self.content) as document:
            return [sheet.render(scale=1, grayscale=True).to_numpy().squeeze() for sheet in document]


Print = Callable[..., tuple[Page, Sheets]]


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory, serve_folder: Serve) -> str:
    return serve_folder(build(ROOT, site_dir=tmp_path_factory.mktemp("paper") / "site", drafts=True))


@pytest.fixture
def printed(open_page: Open, base: str) -> Print:
    """Prints a page: `printed("compare/", paper="Letter", scripts=False)` → the open page and its sheets."""

    def print_(address: str, paper: str = "A4", **how: bool) -> tuple[Page, Sheets]:
        page = open_page(base + address, **how).page
        return page, Sheets(page.pdf(format=paper, prefer_css_page_size=True))

    return print_


def squeezed(text: str) -> str:
    """Without white space, of which a PDF keeps none; and with one sign for each kind of hyphen."""
    return re.sub(r"[\s\u00ad\u200b]", "", text).replace("\u2011", "-")


TOLD = """() => {
  const texts = document.createTreeWalker(document.querySelector("article"), NodeFilter.SHOW_TEXT);
  const found = [];
  while (texts.nextNode()) {
    const parent = texts.currentNode.parentElement;
    if (!texts.currentNode.data.trim() || parent.closest(".unseen, .dot, svg, script, .headerlink")) continue;
    if (parent.checkVisibility()) found.push(texts.currentNode.data);
  }
  return found;
}"""
"""Every text that is laid out; those of drawings are told beside them."""

HEADINGS = "all => all.map(each => each.innerText.trim().replace(/#$/, ''))"


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("kind", KINDS)
def test_every_sheet_is_whole_and_says_what_it_is_of(printed: Print, kind: str, paper: str) -> None:
    page, sheets = printed(KINDS[kind], paper)
    count = len(sheets.texts)
    title = page.title().rpartition(" · ")[0]
    name = f"The Slipway Bench: {title[:50]}" if title else "The Slipway Bench\n"
    for number, (text, body, picture) in enumerate(
        zip(sheets.texts, sheets.bodies, sheets.pictures, strict=True), 1
    ):
        assert f"page {number} of {count}" in text
        foot = squeezed(text).replace(squeezed(body), "")
        assert squeezed(name) in foot
        assert f"slipway-bench.example/{KINDS[kind]}·Provebook" in foot
        assert len(squeezed(body)) > 60, f"sheet {number} is all but empty"
        margin = int(MARGIN)
        for side in (picture[:, :margin], picture[:, -margin:], picture[:margin]):
            assert side.min() > 250, f"sheet {number} has ink in its margin"


@pytest.mark.parametrize("kind", KINDS)
def test_all_that_a_page_tells_stands_on_its_sheets(printed: Print, kind: str) -> None:
    page, sheets = printed(KINDS[kind])
    page.emulate_media(media="print")
    told = page.evaluate(TOLD)
    text = squeezed("".join(sheets.bodies))
    assert [each for each in told if squeezed(each) not in text] == []
    for address in page.eval_on_selector_all("[data-at]", "all => all.map(each => each.dataset.at)"):
        assert f"({address})" in text or not address


@pytest.mark.parametrize("kind", KINDS)
def test_no_heading_stands_alone_at_a_sheet_s_foot(printed: Print, kind: str) -> None:
    page, sheets = printed(KINDS[kind])
    headings = page.eval_on_selector_all("article :is(h1, h2, h3, h4, th[scope=col])", HEADINGS)
    last = [body.strip().rpartition("\n")[2] for body in sheets.bodies]
    assert [each for each in last if each in headings] == []


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(
    "kind", ["report", "older", "withdrawn", "draft", "history", "how", "item", "comparison"]
)
def test_all_cautions_stand_on_the_first_sheet_before_the_answer(
    printed: Print, kind: str, paper: str
) -> None:
    page, sheets = printed(KINDS[kind], paper)
    first = squeezed(sheets.bodies[0])
    cautions = page.eval_on_selector_all(".cautions li", "all => all.map(each => each.textContent)")
    assert len(cautions) >= 5
    places = [first.find(squeezed(each)) for each in cautions]
    assert min(places) > 0
    assert "±" not in first[: max(places)]
    for answer in page.locator(".answer").all():
        assert max(places) < first.index(squeezed(answer.inner_text())[:30])


@pytest.mark.parametrize(
    ("kind", "word"),
    [
        ("report", EDITION),
        ("older", EDITION),
        ("how", EDITION),
        ("withdrawn", re.compile(EDITION.pattern + " · this report is withdrawn")),
        ("older of withdrawn", re.compile(EDITION.pattern + " · this report is withdrawn")),
        ("draft", re.compile(r"draft: not a published edition( · \d+ \w+ \d{4})?")),
    ],
)
def test_each_sheet_of_a_report_names_its_edition_and_fingerprint(
    printed: Print, kind: str, word: re.Pattern[str]
) -> None:
    page, sheets = printed(KINDS[kind], scripts=kind != "older")
    said = page.get_attribute("html", "data-sheet")
    assert said is not None
    line = said.split("\n")[1]
    assert word.fullmatch(line.replace("\xa0", " ").removeprefix("Demonstration data · "))
    assert all(squeezed(line) in squeezed(text) for text in sheets.texts)


@pytest.mark.parametrize("kind", ["report", "older", "withdrawn", "draft"])
def test_a_report_has_a_clear_end(printed: Print, kind: str) -> None:
    page, sheets = printed(KINDS[kind])
    end = page.inner_text(".end")
    assert end.startswith("End of report" + (", edition " if kind != "draft" else "."))
    assert sheets.bodies[-1].strip().endswith(end)
    assert not any(end in body for body in sheets.bodies[:-1])


def test_tables_have_their_heads_on_each_sheet(printed: Print) -> None:
    _, sheets = printed(KINDS["how"])
    parts = [body for body in sheets.bodies if "rectangular" in body]
    assert len(parts) > 5
    assert all("Sensitivity" in body.partition("rectangular")[0] for body in parts)
    readings = [body for body in sheets.bodies if re.search(r"^\d+ \d\d\.?\d? \d\d\.?\d? \d\d", body, re.M)]
    assert len(readings) > 5
    assert all("Rise as corrected, K" in body for body in readings)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_drawing_is_cut(printed: Print, paper: str) -> None:
    _, sheets = printed(REPORT, paper)
    for first, last in [
        ("Hotter than the air around it after 60 min at 30 A, °C", "can’t be told apart."),
        ("How they heated", "minutes at 30 A"),
        ("towards the left is cheaper.", "price of a piece, €"),
    ]:
        ends = squeezed(first), squeezed(last)
        assert [all(end in squeezed(body) for end in ends) for body in sheets.bodies].count(True) == 1


def test_nothing_is_too_small_to_read(printed: Print) -> None:
    page, _ = printed(REPORT)
    page.emulate_media(media="print")
    sizes = page.eval_on_selector_all(
        "article :is(p, li, td, th, dd, dt, small, caption)",
        "all => all.filter(each => each.checkVisibility())"
        ".map(each => parseFloat(getComputedStyle(each).fontSize))",
    )
    # 10.5 px are 7.9 pt; the figures of eleven columns are the smallest.
    assert min(sizes) >= 10.5


def test_paper_is_the_same_without_scripts_and_in_the_dark(printed: Print) -> None:
    _, sheets = printed(REPORT)
    _, plain = printed(REPORT, scripts=False)
    _, dark = printed(REPORT, dark=True)
    assert plain.bodies == sheets.bodies == dark.bodies
    assert all(picture.mean() > 200 for picture in dark.pictures)
    assert all((one == other).all() for one, other in zip(sheets.pictures, dark.pictures, strict=True))


def test_two_prints_are_alike_and_a_live_chart_prints_as_its_still(printed: Print) -> None:
    page, sheets = printed(REPORT)
    page.locator(".live-open").first.click()
    page.wait_for_selector(".chart[data-state=live]")
    again = Sheets(page.pdf(format="A4", prefer_css_page_size=True))
    assert again.bodies == sheets.bodies
    assert all((one == other).all() for one, other in zip(sheets.pictures, again.pictures, strict=True))


def test_a_long_address_breaks_within_the_sheet(open_page: Open, base: str) -> None:
    long = "https://elsewhere.example/" + "a-very-long-name/" * 30 + "x" * 200
    page = open_page(base + REPORT).page
    page.evaluate(
        "long => document.querySelector('.take li')"
        ".insertAdjacentHTML('beforeend', `<a class=nobreak href=${long}>x</a>`)",
        long,
    )
    sheets = Sheets(page.pdf(format="A4", prefer_css_page_size=True))
    assert squeezed(long) in squeezed("".join(sheets.bodies))
    margin = int(MARGIN)
    assert min(picture[:, -margin:].min() for picture in sheets.pictures) > 250
