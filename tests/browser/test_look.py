"""The look that was agreed, measured in a browser: type, space, rows, print, names for who can't see."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from generator.host.build import build
from generator.pages.figures import figures_view
from generator.pages.render import Renderer
from tests.browser.conftest import Open, Serve
from tests.pages.states import ABOUT, EVERY, every

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
REPORT = "r/fuse-holders-30a/"
HOW = REPORT + "1/how/okvarn-ih30/"
OTHERS = [HOW, "compare/", "i/okvarn-ih30/", "glossary/", "corrections/"]
OTHER_REPORTS = ["r/panel-sockets-12v/", "r/ring-terminals-m6/", "i/dorvekk-r6/"]
PAGES = [
    "",
    REPORT,
    *OTHER_REPORTS,
    *OTHERS,
    "m/",
    "m/closed-box-heating/",
    "m/closed-box-heating/2/",
    "about/",
    "404.html",
]

Variant = Callable[[str, str, str], str]


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory, serve_folder: Serve) -> str:
    return serve_folder(build(ROOT, strict=True, site_dir=tmp_path_factory.mktemp("look") / "site"))


@pytest.fixture
def variant(tmp_path: Path, serve_folder: Serve) -> Variant:
    """The demo with one text in one record changed, built and served: `variant("bench.yml", "a", "b")`."""

    def made(record: str, old: str, new: str) -> str:
        shutil.copytree(ROOT / "reports", tmp_path / "reports")
        shutil.copy(ROOT / "mkdocs.yml", tmp_path)
        path = tmp_path / "reports" / record
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")
        return serve_folder(build(tmp_path))

    return made


def type_of(page: Page, selector: str) -> str:
    """Size and line height in px."""
    said: str = page.eval_on_selector(
        selector,
        "each => ['fontSize', 'lineHeight'].map(name => parseFloat(getComputedStyle(each)[name])).join('/')",
    )
    return said


def boxes(page: Page, selector: str) -> list[dict[str, float]]:
    found: list[dict[str, float]] = page.eval_on_selector_all(
        selector, "all => all.map(each => each.getBoundingClientRect().toJSON())"
    )
    return found


def gap(page: Page, above: str, below: str) -> float:
    return round(boxes(page, below)[0]["top"] - boxes(page, above)[0]["bottom"], 1)


TYPE = {
    ".kicker": ("14/20", "14/20"),
    ".disclosure": ("16/24", "16/24"),
    "h1": ("24/30", "38/46"),
    ".caution": ("16/22", "16/22"),
    ".answer": ("17/26", "20/31"),
    ".group-head b": ("16/22", "16/22"),
    ".bars .value": ("16/24", "16/24"),
    ".bars .notes": ("14/20", "14/20"),
    "h2": ("20/28", "24/32"),
    ".card h3": ("18/24", "18/24"),
    ".note": ("14/20", "14/20"),
}
"""Size and line height in px on a phone and on a desk."""


@pytest.mark.parametrize(("width", "place"), [(360, 0), (1280, 1)])
def test_type_has_its_sizes(open_page: Open, base: str, width: int, place: int) -> None:
    page = open_page(base + REPORT, width=width).page
    assert {each: type_of(page, each) for each in TYPE} == {each: said[place] for each, said in TYPE.items()}


@pytest.mark.parametrize(("width", "before", "after"), [(360, 12, 12), (1280, 16, 16)])
def test_the_first_screen_has_its_space(
    open_page: Open, base: str, width: int, before: int, after: int
) -> None:
    page = open_page(base + REPORT, width=width).page
    assert gap(page, ".disclosure", "h1") == before
    assert gap(page, "h1", ".caution") == after
    assert gap(page, ".caution", ".answer") == 12
    assert gap(page, ".answer", ".choice") == 8


@pytest.mark.parametrize(("width", "height"), [(360, 80), (1280, 44)])
def test_a_row_has_its_height(open_page: Open, base: str, width: int, height: int) -> None:
    page = open_page(base + REPORT, width=width).page
    plain = boxes(page, ".bar:not(:has(.alike))")
    assert {round(each["height"], 1) for each in plain} == {height}
    assert {each["height"] for each in boxes(page, ".bar .track svg")} == {22}
    # Rows of one group stand under each other without a gap; a rule parts the groups.
    (first, second) = boxes(page, ".group:first-of-type .bar, .unseen + .group .bar")[:2]
    assert second["top"] - first["bottom"] == pytest.approx(0, abs=0.5)


@pytest.mark.parametrize("width", [360, 1280])
def test_every_plus_minus_stands_under_the_one_above(open_page: Open, base: str, width: int) -> None:
    page = open_page(base + REPORT, width=width).page
    page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
    assert len({round(each["left"], 1) for each in boxes(page, ".bar .value .in-metric .pm")}) == 1
    for column in range(2, 7):
        marks = boxes(page, f".readings td:nth-child({column}) .in-metric .pm")
        assert len(marks) >= 12
        assert len({round(each["left"], 1) for each in marks}) == 1


def test_the_axis_stands_over_every_row_s_rail(open_page: Open, base: str) -> None:
    for width in (360, 1000, 1280):
        page = open_page(base + REPORT, width=width).page
        spans = {(round(each["left"]), round(each["right"])) for each in boxes(page, ".track, .axis")}
        assert len(spans) == 1


def test_no_name_in_a_chart_is_cut(open_page: Open, base: str) -> None:
    for width in (320, 360, 768, 1280):
        page = open_page(base + REPORT, width=width).page
        texts = [each for each in boxes(page, ".chart text") if each["width"]]
        assert len(texts) > 15
        assert min(each["left"] for each in texts) >= 0
        assert max(each["right"] for each in texts) <= width


def test_what_stands_alone_to_be_touched_is_44_px_high(open_page: Open, base: str) -> None:
    alone = (
        ".head a, .head button, .head summary, .search-open, article summary,"
        " .bar .name a, .own-page a, .take a"
    )
    for address in ("", REPORT):
        for width in (360, 1280):
            page = open_page(base + address, width=width).page
            found = [each["height"] for each in boxes(page, alone) if each["height"]]
            assert found
            assert min(found) >= 43.5


def test_every_stop_of_the_tab_key_shows_where_it_is(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    stops: list[tuple[str, str]] = []
    while len(stops) < 200:
        page.keyboard.press("Tab")
        name, outline = page.evaluate(
            "[document.activeElement.tagName, getComputedStyle(document.activeElement).outline]"
        )
        if name == "BODY":
            break
        stops.append((name, outline))
    assert len(stops) > 30
    assert all("solid 2px" in outline for _, outline in stops), stops


def test_an_open_search_keeps_what_it_covers_out_of_reach(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    page.locator("[data-opens-search]:visible").click()
    covered = "[...document.querySelectorAll('.head-inner, .md-container')].map(each => each.inert)"
    assert page.evaluate(covered) == [True, True]
    page.keyboard.press("Escape")
    page.wait_for_function(f"!{covered}.includes(true)")
    assert page.evaluate("document.activeElement.matches('[data-opens-search]')")


RULES = """() => {
  const all = selector => [...document.querySelectorAll(selector)];
  const named = each => each.hasAttribute("aria-label") || each.hasAttribute("aria-labelledby");
  const told = each => (each.getAttribute("aria-label") || each.textContent).trim();
  const levels = all("h1, h2, h3, h4").filter(each => each.checkVisibility()).map(each => +each.tagName[1]);
  return {
    language: document.documentElement.lang !== "en",
    title: !document.title,
    landmarks: ["main", "header", "footer"].filter(each => all(each).length !== 1),
    navigation: all("nav, [role=dialog], [role=region]").filter(each => !named(each)).length,
    headings: levels.filter((each, at) => each > (levels[at - 1] ?? 0) + 1).length,
    first: levels.filter(each => each === 1).length - 1,
    tables: all("table").filter(each => !each.caption || !each.querySelector("th[scope=col]")).length,
    heads: all("th").filter(each => !each.scope).length,
    nameless: all("a, button, summary").filter(each => !told(each)).length,
    drawings: all("svg").filter(each => !each.parentElement.closest("svg")).filter(each =>
      !each.closest("[aria-hidden=true], label, button") && !each.getAttribute("aria-labelledby")).length,
    pictures: all("img").filter(each => !each.hasAttribute("alt")).length,
    ids: all("[id]").length - new Set(all("[id]").map(each => each.id)).size,
    references: all("[aria-labelledby]").flatMap(each => each.getAttribute("aria-labelledby").split(" "))
      .filter(each => !document.getElementById(each)).length,
    fields: all("input, select")
      .filter(each => each.checkVisibility() && !named(each) && !each.labels.length).length,
  };
}"""
"""Each counts what makes a page hard to use unseen (WCAG 2.2: 1.1.1, 1.3.1, 2.4.2, 2.4.6, 3.1.1, 4.1.2)."""


@pytest.mark.parametrize("address", PAGES)
def test_a_page_can_be_used_without_eyes(open_page: Open, base: str, address: str) -> None:
    found: dict[str, Any] = open_page(base + address, width=1280).page.evaluate(RULES)
    assert {name: value for name, value in found.items() if value} == {}


def test_on_paper_the_cautions_stand_before_the_answer_and_no_table_is_cut(
    open_page: Open, base: str
) -> None:
    # An A4 sheet less its margins is 680 px wide.
    page = open_page(base + REPORT, width=680).page
    page.emulate_media(media="print")
    page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
    order = [".disclosure", "h1", ".caution", ".cautions", ".answer", ".choice", ".bars", ".cards"]
    tops = [boxes(page, each)[0]["top"] for each in order]
    assert tops == sorted(tops)
    assert max(each["right"] for each in boxes(page, "table, .bars, .chart")) <= 680
    assert page.evaluate("document.documentElement.scrollWidth") <= 680
    assert boxes(page, ".menu-wide, .menu-narrow, .headerlink, .colours")[0]["height"] == 0


FOLDED = """() => {
  const texts = document.createTreeWalker(document.querySelector("article"), NodeFilter.SHOW_TEXT);
  const lost = [];
  while (texts.nextNode()) {
    const parent = texts.currentNode.parentElement;
    const laid = texts.currentNode.data.trim() && parent.closest("details") && parent.getClientRects().length;
    if (laid && !parent.checkVisibility()) lost.push(texts.currentNode.data);
  }
  return lost;
}"""
"""Texts of folds that would be missing on a sheet."""

OUTSIDE = """width => [...document.querySelectorAll("article *")]
  .filter(each => !each.closest(".unseen, .defs") && each.getClientRects().length)
  .map(each => ({ each, box: each.getBoundingClientRect() }))
  .filter(({ box }) => box.left < -0.5 || box.right > width + 0.5)
  .map(({ each }) => each.outerHTML.slice(0, 80))"""


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
@pytest.mark.parametrize("address", [REPORT, HOW])
def test_on_paper_nothing_is_folded_away_and_nothing_leaves_the_sheet(
    open_page: Open, base: str, address: str, *, scripts: bool
) -> None:
    page = open_page(base + address, scripts=scripts).page
    folds = page.locator("article details:not([open])")
    before = folds.count()
    assert before > 3
    assert len(page.evaluate(FOLDED)) > 100
    page.emulate_media(media="print")
    # A4 and Letter, less margins of 15 mm.
    for width in (680, 702):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate(OUTSIDE, width) == []
        assert page.evaluate(FOLDED) == []
    page.emulate_media(media="screen")
    if scripts:
        page.evaluate(
            "addEventListener('beforeprint', () => window.folded ="
            " document.querySelectorAll('article details:not([open])').length)"
        )
    for sheet in ("A4", "Letter"):
        assert page.pdf(format=sheet, prefer_css_page_size=True).startswith(b"%PDF")
    if scripts:
        assert page.evaluate("window.folded") == 0
    assert folds.count() == before


def test_on_paper_colours_are_the_light_ones(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, dark=True).page
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(18, 25, 30)"
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert page.evaluate("getComputedStyle(document.body).color") == "rgb(22, 34, 43)"


def test_very_long_names_push_nothing_aside(open_page: Open, variant: Variant) -> None:
    long = "model: T30-ULTRA-HEAVY-DUTY-MARINE-GRADE-0815-Universalsteckverbinderklemme"
    base = variant("items/tessvik-t30.yml", "model: T30", long)
    for width in (320, 360, 768, 1280):
        page = open_page(base + REPORT, width=width).page
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert len({round(each["left"], 1) for each in boxes(page, ".bar .value .in-metric .pm")}) == 1


def test_where_us_units_stand_first_they_are_the_ones_that_show(open_page: Open, variant: Variant) -> None:
    page = open_page(variant("bench.yml", "units: metric", "units: us") + REPORT, scripts=False).page
    shown = page.locator(".bar .value").first.inner_text()
    other = page.locator(".bar .notes").first.inner_text()
    assert "°C" in other
    assert "°F" not in other
    assert float(shown.split("±")[0]) > float(other.split("·")[-1].split("±")[0])


def test_every_mark_of_an_interval_is_in_the_colour_of_ink(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    strokes = page.eval_on_selector_all(
        ".track :is(.whisker, .meter) line", "all => all.map(each => getComputedStyle(each).stroke)"
    )
    assert set(strokes) == {"rgb(22, 34, 43)"}
    assert len(strokes) >= 12


def states(page: Page) -> None:
    """Put bars that hold every state in place of the demo's."""
    made = Renderer(ROOT).fragment("fragments/figures.html.jinja", view=figures_view(every(), ABOUT))
    page.evaluate(
        "made => { for (const each of document.querySelectorAll('.defs')) each.remove();"
        " document.querySelector('.bars').outerHTML = made }",
        made,
    )


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_bars_of_every_state_fit_and_stand_in_line(open_page: Open, base: str, width: int) -> None:
    page = open_page(base + REPORT, width=width).page
    states(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert len({round(each["left"], 1) for each in boxes(page, ".bar .value .in-metric .pm")}) == 1
    posts = boxes(page, ".track .post")
    assert len({round(each["left"], 1) for each in posts}) == 1
    assert len(posts) == len(EVERY)
    # The name and the figure stand on one line.
    names, values = boxes(page, ".bar .name a, .bar .name:not(:has(a))"), boxes(page, ".bar .value")
    centres = [
        abs(name["top"] + name["height"] / 2 - value["top"] - value["height"] / 2)
        for name, value in zip(names, values, strict=True)
    ]
    assert sorted(centres)[len(centres) // 2] < 4
    # No text of the scale covers another, nor leaves the page.
    texts = sorted(
        (each for each in boxes(page, ".scale text") if each["width"]), key=lambda each: each["left"]
    )
    assert all(one["right"] <= other["left"] for one, other in pairwise(texts))
    assert texts[-1]["right"] <= width


def test_what_could_not_be_told_apart_is_joined_by_brackets(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=360).page
    states(page)
    sides = page.eval_on_selector_all(
        ".group:has(.hold-first) .bar",
        "all => all.map(each => ['::before', '::after'].map(part => {"
        " const style = getComputedStyle(each, part);"
        " const widths = [style.borderTopWidth, style.borderBottomWidth];"
        " return style.content === 'none' ? '' : widths.join('/') }))",
    )
    assert sides == [["2px/0px", ""], ["0px/2px", "2px/0px"], ["", "0px/2px"]]


def test_with_a_reader_s_own_colours_every_mark_is_drawn_in_the_colour_of_text(
    open_page: Open, base: str
) -> None:
    page = open_page(base + REPORT).page
    states(page)
    page.emulate_media(forced_colors="active")
    ink = page.evaluate("getComputedStyle(document.body).color")
    strokes = page.eval_on_selector_all(
        ".track :is(.post, .whisker line, .stop, .dotted, .ring), .group-head .state path",
        "all => all.map(each => getComputedStyle(each).stroke)",
    )
    assert set(strokes) == {ink}
    assert len(strokes) > 40
