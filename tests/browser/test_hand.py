"""Every kind of page by keyboard alone, at 400 %, with wider text, in a reader's colours, without motion."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from generator.host.build import build
from tests.browser.conftest import Serve
from tests.browser.kinds import KINDS
from tests.pages.factory import ROOT

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory, serve_folder: Serve) -> str:
    """The demo with its drafts."""
    return serve_folder(build(ROOT, drafts=True, site_dir=tmp_path_factory.mktemp("hand") / "site"))


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    """One page for all of them; a test style sheet may come in, which the pages' own policy would refuse."""
    context = browser.new_context(bypass_csp=True)
    yield context.new_page()
    context.close()


def at(page: Page, address: str, width: int, height: int = 800) -> None:
    page.set_viewport_size({"width": width, "height": height})
    page.goto(address)


Shape = tuple[int, int, str]
"""Width and height of the window, and a style sheet that comes in from outside."""
PHONE: Shape = (360, 800, "")


def found(page: Page, base: str, script: str, shape: Shape) -> Any:
    """What a script says of each kind of page, its folds open; kinds of which it says nothing left out."""
    told = {}
    width, height, style = shape
    for kind, address in KINDS.items():
        at(page, base + address, width, height)
        if style:
            page.add_style_tag(content=style)
        page.evaluate("for (const each of document.querySelectorAll('article details')) each.open = true")
        told[kind] = page.evaluate(script)
    assert len(told) == len(KINDS)
    return {kind: said for kind, said in told.items() if said}


SIDEWAYS = """() => {
  const room = document.documentElement.clientWidth;
  return document.documentElement.scrollWidth <= room ? [] : [...document.querySelectorAll("body *")]
    .filter(each => each.getBoundingClientRect().right > room + 0.5)
    .filter(each => !each.closest(".unseen")).slice(0, 3).map(each => each.outerHTML.slice(0, 120));
}"""


@pytest.mark.parametrize("width", [320, 360])
def test_no_kind_of_page_scrolls_sideways(page: Page, base: str, width: int) -> None:
    assert found(page, base, SIDEWAYS, (width, 800, "")) == {}


CUT = """() => [...document.querySelectorAll("body *")].filter(each => {
  if (each.closest(".unseen, svg, .md-search, .dot, thead")) return false;
  if (!each.checkVisibility() || !each.innerText) return false;
  const style = getComputedStyle(each);
  const hides = [style.overflowX, style.overflowY].some(said => said === "hidden" || said === "clip");
  return hides && (each.scrollWidth > each.clientWidth + 1 || each.scrollHeight > each.clientHeight + 1);
}).slice(0, 3).map(each => each.outerHTML.slice(0, 120))"""
"""Elements that cut text off."""

COVERED = """() => {
  const lines = [...document.querySelectorAll("article :is(p, li, dt, dd, td, th, h1, h2, h3, summary)")]
    .filter(each => each.checkVisibility() && !each.closest(".unseen, svg, thead"));
  return lines.filter(each => each.scrollWidth > each.clientWidth + 1
    && getComputedStyle(each).display !== "inline" && getComputedStyle(each).overflowX === "visible"
    && !each.querySelector("svg, .unseen")).slice(0, 3)
    .map(each => `${each.clientWidth} ${each.scrollWidth} ${each.outerHTML.slice(0, 160)}`);
}"""
"""Lines whose text runs out of their box, over what stands beside it."""

SPACED = """* { line-height: 1.5 !important; letter-spacing: 0.12em !important;
word-spacing: 0.16em !important }
p { margin-bottom: 2em !important }"""
"""WCAG 2.2, 1.4.12: what a reader may set."""


@pytest.mark.parametrize("script", [SIDEWAYS, CUT, COVERED], ids=["sideways", "cut", "over"])
@pytest.mark.parametrize(
    "shape",
    [(320, 256, ""), (360, 800, SPACED), (1280, 800, SPACED)],
    ids=["400 %", "spaced, phone", "spaced, desk"],
)
def test_nothing_is_lost(page: Page, base: str, shape: Shape, script: str) -> None:
    # 1280 by 1024 px at 400 % is 320 by 256 px of a style sheet (WCAG 2.2, 1.4.10).
    assert found(page, base, script, shape) == {}


FAINT = """() => {
  const probe = document.body.appendChild(document.createElement("i"));
  const told = name => { probe.style.color = name; return getComputedStyle(probe).color };
  const allowed = new Set(["CanvasText", "LinkText", "GrayText", "ButtonText", "ButtonFace"].map(told));
  const ground = told("Canvas");
  probe.remove();
  const shapes = [...document.querySelectorAll("svg :is(path, line, circle, rect, polygon, use)")]
    .filter(each => each.checkVisibility() && !each.closest("defs, clipPath, .md-search"));
  return shapes.filter(each => {
    const { stroke, fill } = getComputedStyle(each);
    const paints = [stroke, fill].filter(said => said !== "none");
    return !paints.some(said => said !== ground && allowed.has(said));
  }).slice(0, 3).map(each => `${getComputedStyle(each).stroke} ${each.outerHTML.slice(0, 120)}`);
}"""
"""Shapes that a reader's own colours would leave unseen."""


def test_in_a_reader_s_own_colours_every_shape_is_seen(page: Page, base: str) -> None:
    page.emulate_media(forced_colors="active")
    said = found(page, base, FAINT, PHONE)
    page.emulate_media(forced_colors="none")
    assert said == {}


def test_nothing_moves(page: Page, base: str) -> None:
    moving = """() => [...document.querySelectorAll("*")].filter(each => {
      const style = getComputedStyle(each);
      return parseFloat(style.transitionDuration) > 0 || style.animationName !== "none"
        || style.scrollBehavior === "smooth";
    }).slice(0, 3).map(each => each.outerHTML.slice(0, 120))"""
    page.emulate_media(reduced_motion="reduce")
    said = found(page, base, moving, PHONE)
    page.emulate_media(reduced_motion="no-preference")
    assert said == {}


SMALL = """() => {
  const inSentence = each => {
    const block = each.closest("p, li, dd, dt, td, th, figcaption, caption");
    return block && block.textContent.trim().length > each.textContent.trim().length + 1;
  };
  return [...document.querySelectorAll("a[href], button, summary, select, input, label")].filter(each => {
    if (!each.checkVisibility()) return false;
    if (each.closest(".md-search, .md-skip, .headerlink, .unseen")) return false;
    if (each.matches(".md-option, .md-toggle")) return false;
    const box = each.getBoundingClientRect();
    if (!box.height) return false;
    if (each.matches("a") && inSentence(each)) return false;
    return Math.max(...[...each.getClientRects()].map(each => each.height)) < (each.matches("a") ? 24 : 43.5);
  }).slice(0, 4).map(each => `${each.getBoundingClientRect().height} ${each.outerHTML.slice(0, 140)}`);
}"""
"""Controls of less than 44 px, and links that stand alone of less than the 24 px of WCAG 2.2, 2.5.8."""


@pytest.mark.parametrize("width", [360, 1280])
def test_controls_are_large_enough(page: Page, base: str, width: int) -> None:
    assert found(page, base, SMALL, (width, 800, "")) == {}


STOP = """() => {
  const each = document.activeElement;
  if (each === document.body) return null;
  window.__stops ??= new Map();
  const seen = window.__stops.has(each);
  window.__stops.set(each, true);
  const box = [...each.getClientRects()][0] ?? each.getBoundingClientRect();
  const option = each.matches(".md-option");
  const shown = option ? document.querySelector(".colours label:not([hidden])") : each;
  const style = getComputedStyle(shown);
  const x = Math.min(Math.max(box.left + box.width / 2, 0), innerWidth - 1), y = box.top + box.height / 2;
  const top = document.elementFromPoint(x, y);
  const covered = top && !(each.contains(top) || top.contains(each));
  const back = Boolean(window.__last?.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_PRECEDING);
  window.__last = each;
  return {
    name: each.outerHTML.slice(0, 100), seen, back,
    outline: style.outlineStyle === "solid" && parseFloat(style.outlineWidth) >= 2,
    out: !option && (box.bottom <= 0 || box.top >= innerHeight || box.right <= 0 || box.left >= innerWidth),
    covered: !option && Boolean(covered),
  };
}"""
"""Where the Tab key is: shown, in sight, uncovered (WCAG 2.2, 2.4.7, 2.4.11), in the page's order."""


@pytest.mark.parametrize("kind", KINDS)
def test_the_tab_key_walks_through_a_page_and_out_of_it(page: Page, base: str, kind: str) -> None:
    at(page, base + KINDS[kind], 1280)
    page.wait_for_load_state("networkidle")
    faults, stops = [], 0
    while stops < 400:
        page.keyboard.press("Tab")
        stop = page.evaluate(STOP)
        if stop is None or stop["seen"]:
            break
        stops += 1
        if stop["back"] or stop["out"] or stop["covered"] or not stop["outline"]:
            faults.append(stop)
    assert faults == []
    assert 5 < stops < 400
    reach = "[...document.querySelectorAll('a[href], button, summary')].filter(each => each.checkVisibility()"
    reach += " && !each.closest('.md-search') && each.tabIndex >= 0 && !window.__stops.has(each)).length"
    assert page.evaluate(reach) == 0


def test_menu_units_folds_and_search_work_by_keyboard(page: Page, base: str) -> None:
    at(page, base + KINDS["report"], 360)
    page.wait_for_load_state("networkidle")
    active = "document.activeElement"
    page.locator("[data-shows-units=us]").focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.documentElement.dataset.units") == "us"
    assert page.evaluate(f"{active}.getAttribute('aria-pressed')") == "true"
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.locator(".menu-narrow").get_attribute("open") is not None
    page.keyboard.press("Tab")
    assert page.evaluate(f"{active}.closest('.menu-narrow ul') !== null")
    page.keyboard.press("Escape")
    assert page.locator(".menu-narrow").get_attribute("open") is None
    assert page.evaluate(f"{active}.matches('.menu-narrow summary')")
    page.keyboard.press("Enter")
    page.locator(".menu-narrow [data-opens-search]").focus()
    page.keyboard.press("Enter")
    assert page.evaluate(f"{active}.name") == "query"
    page.keyboard.press("Escape")
    page.wait_for_function("!document.querySelector('.md-container').inert")
    assert page.evaluate(f"{active} !== document.body")
    fold = page.locator("article summary").first
    fold.focus()
    page.keyboard.press("Enter")
    assert fold.evaluate("each => each.parentElement.open")


WRITTEN = """() => {
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), found = [];
  const unit = /\\d (?:°C|°F|mV|mA|min|mm|kg|V|A|W|K|N|lbf|Ω|mΩ)(?![A-Za-z])/;
  while (walk.nextNode()) {
    const { data, parentElement: parent } = walk.currentNode;
    if (parent.closest("script, style, code, pre, svg, .md-search, .cite, .hash")) continue;
    if (/\\d+\\/\\d+\\/\\d+/.test(data)) found.push(data);
    if (parent.closest(".figure, .nobreak, .both") && unit.test(data)) found.push(data.slice(0, 80));
  }
  for (const each of document.querySelectorAll("time"))
    if (!/^\\d{4}(-\\d\\d){0,2}$/.test(each.dateTime)) found.push(each.outerHTML);
  if (document.documentElement.lang !== "en") found.push("lang");
  return found.slice(0, 6);
}"""


def test_dates_and_units_are_written_for_any_reader(page: Page, base: str) -> None:
    assert found(page, base, WRITTEN, PHONE) == {}
