"""What a reader's browser meets: requests, policy, weight, search, colours, menu, width."""

from __future__ import annotations

import gzip
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect

from generator.host import plugin
from generator.host.build import build
from generator.host.chrome import POLICY
from generator.host.lean import lean
from generator.pages.locate import templates
from generator.pages.site import Site
from tests.browser.conftest import Open, Serve, Visit
from tests.host import samples

pytestmark = pytest.mark.browser

PAGES = ["", "r/holders-0001/", "m/closed-box-heating/", "about/", "404.html"]
BUDGET = 100 * 1024
"""Bytes of a first view over the wire, gzip."""

PALETTE = "form[data-md-component=palette]"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(plugin, "generated", lambda *_, **__: samples.site(3))
        folder = samples.bench(tmp_path_factory.mktemp("browser") / "bench")
        # The page for missing addresses links from the root that site_url names.
        text = samples.MKDOCS.replace("slipway-bench.example/", "slipway-bench.example/bench/")
        (folder / "mkdocs.yml").write_text(text, encoding="utf-8")
        yield build(folder, strict=True)


@pytest.fixture(scope="module")
def base(site: Path, serve_folder: Serve) -> str:
    """The site under a sub-path, with the policy as a server's header too."""
    return serve_folder(site, mount="/bench/", headers={"Content-Security-Policy": POLICY})


def search_for(page: Page, words: str) -> None:
    page.locator("[data-opens-search]:visible").first.click()
    page.keyboard.type(words)


# --- requests, policy, weight --------------------------------------------------------------------------


@pytest.mark.parametrize("address", PAGES)
@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_page_asks_nobody_else_and_breaks_no_rule(
    open_page: Open, base: str, address: str, *, scripts: bool
) -> None:
    visit = open_page(base + address, scripts=scripts)
    assert visit.hosts() == {urlsplit(base).netloc}
    assert visit.troubles == []
    if scripts:
        assert visit.violations() == []
        assert visit.page.evaluate("typeof component$") == "object"


def test_a_script_in_a_page_would_be_stopped_and_seen(open_page: Open, base: str) -> None:
    visit = open_page(base)
    visit.page.evaluate(
        "document.body.append(Object.assign(document.createElement('script'), {text: 'window.ran = 1'}))"
    )
    visit.page.wait_for_function("window.__violations.length > 0")
    assert visit.page.evaluate("window.ran") is None
    assert "script-src" in visit.violations()[0]


def wire_bytes(site: Path, visit: Visit, mount: str) -> dict[str, int]:
    sizes = {}
    for path in dict.fromkeys(visit.paths()):
        file = site / path.removeprefix(mount)
        content = (file / "index.html" if path.endswith("/") else file).read_bytes()
        sizes[path] = len(gzip.compress(content, 6))
    return sizes


def test_the_first_view_leaves_most_of_the_budget_to_the_page(open_page: Open, site: Path, base: str) -> None:
    visit = open_page(base + "r/holders-0001/")
    sizes = wire_bytes(site, visit, "/bench/")
    joined = (site / "assets/site.css").read_text(encoding="utf-8")
    of_pages = lean((templates() / "theme/assets/pages.css").read_text(encoding="utf-8"))
    assert of_pages in joined
    styles = len(gzip.compress(joined.replace(of_pages, "").encode(), 6))
    frame = styles + sum(size for path, size in sizes.items() if not path.endswith("site.css"))
    assert frame <= BUDGET / 2, sizes
    assert sum(sizes.values()) <= BUDGET, sizes


# --- search --------------------------------------------------------------------------------------------


def test_search_costs_nothing_before_the_first_letter_and_finds_after_it(open_page: Open, base: str) -> None:
    visit = open_page(base + "r/holders-0001/", width=1280)
    page = visit.page
    late = ("documents.json", "/workers/search.")

    def fetched() -> list[str]:
        return [path for path in visit.paths() if any(each in path for each in late)]

    search_for(page, "")
    page.wait_for_selector(".md-search-result__meta:has-text('Type to start')")
    page.keyboard.type("  ")
    page.wait_for_timeout(300)
    assert fetched() == []

    page.keyboard.type("coolest")
    page.wait_for_selector(".md-search-result__item")
    assert sorted(re.sub(r"\.[0-9a-f]{8}\.", ".", path) for path in set(fetched())) == [
        "/bench/assets/javascripts/workers/search.min.js",
        "/bench/search/documents.json",
    ]
    assert page.locator(".md-search-result__item").count() == 3
    first = page.locator(".md-search-result__link").first
    assert urlsplit(str(first.get_attribute("href"))).path.startswith("/bench/r/holders-000")
    first.click()
    page.wait_for_load_state("networkidle")
    assert "/r/holders-000" in page.url
    assert visit.troubles == []
    assert visit.violations() == []


def test_search_tries_again_after_a_failure(open_page: Open, base: str) -> None:
    visit = open_page(base, width=1280)
    visit.page.context.route("**/documents.json", lambda route: route.abort())
    search_for(visit.page, "coo")
    visit.page.wait_for_selector(".md-search-result__meta:has-text('No matching')")
    visit.page.context.unroute("**/documents.json")
    visit.page.keyboard.type("lest")
    visit.page.wait_for_selector(".md-search-result__item")


def test_search_opens_by_key_and_gives_the_focus_back(open_page: Open, base: str) -> None:
    page = open_page(base, width=1280).page
    button = page.locator("[data-opens-search]:visible")
    button.focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.name") == "query"
    page.keyboard.press("Escape")
    assert button.evaluate("each => each === document.activeElement")
    assert not page.locator(".md-search").is_visible()


def test_text_that_looks_like_markup_is_text_in_the_results(
    open_page: Open, serve_folder: Serve, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    nasty = "Aluminium <img src=x onerror=alert(1)> & <b>bold</b>"
    front = samples.page("index.md", nasty, "Nothing but words.\n", template="front.html")
    monkeypatch.setattr(plugin, "generated", lambda *_, **__: Site("A <b>", (front,)))
    visit = open_page(serve_folder(build(samples.bench(tmp_path / "bench"))), width=1280)
    search_for(visit.page, "aluminium")
    visit.page.wait_for_selector(".md-search-result__item")
    assert "<img src=x onerror=alert(1)> & <b>bold</b>" in visit.page.inner_text(".md-search-result__item")
    assert visit.page.locator(".md-search-result img, .md-search-result b, header img").count() == 0
    assert visit.troubles == []


# --- light and dark ------------------------------------------------------------------------------------

LIGHT, DARK = "rgb(255, 255, 255)", "rgb(18, 25, 30)"


def ground(page: Page) -> str:
    found: str = page.evaluate("getComputedStyle(document.body).backgroundColor")
    return found


def expect_ground(page: Page, colour: str) -> None:
    """The theme's script follows the device a moment later than style sheets do."""
    expect(page.locator("body")).to_have_css("background-color", colour)


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_the_device_decides_first(open_page: Open, base: str, *, scripts: bool) -> None:
    page = open_page(base, scripts=scripts).page
    assert ground(page) == LIGHT
    page.emulate_media(color_scheme="dark")
    expect_ground(page, DARK)
    page.emulate_media(media="print")
    expect_ground(page, LIGHT)


def test_the_reader_may_choose_and_is_remembered_on_every_page(open_page: Open, base: str) -> None:
    visit = open_page(base, dark=True)
    page = visit.page
    assert ground(page) == DARK
    page.locator(f"{PALETTE} label:visible").click()
    page.wait_for_selector(f"{PALETTE} label:visible:has-text('light')")
    assert ground(page) == LIGHT
    page.goto(base + "about/")
    assert ground(page) == LIGHT
    page.emulate_media(color_scheme="light")
    page.locator(f"{PALETTE} label:visible").click()
    page.wait_for_selector(f"{PALETTE} label:visible:has-text('dark')")
    assert ground(page) == DARK
    page.emulate_media(media="print")
    assert ground(page) == LIGHT
    assert visit.troubles == []
    assert visit.violations() == []


def test_a_choice_is_there_before_the_first_paint(open_page: Open, base: str) -> None:
    visit = open_page(base)
    visit.page.locator(f"{PALETTE} label:visible").click()
    visit.page.locator(f"{PALETTE} label:visible").click()
    visit.page.context.route("**/bundle.*.js", lambda route: route.abort())
    visit.page.goto(base)
    assert ground(visit.page) == DARK


def test_a_browser_that_refuses_storage_still_shows_the_page(open_page: Open, base: str) -> None:
    visit = open_page("about:blank")
    visit.page.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no') }})"
    )
    visit.page.goto(base)
    visit.page.locator(f"{PALETTE} label:visible").click()
    visit.page.wait_for_selector(f"{PALETTE} label:visible:has-text('light')")
    assert visit.troubles == []


# --- menu and width ------------------------------------------------------------------------------------


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_the_menu_works_on_a_phone_without_scripts(open_page: Open, base: str, *, scripts: bool) -> None:
    page = open_page(base + "r/holders-0001/", scripts=scripts).page
    about = page.get_by_role("link", name="About")
    assert about.count() == 0
    page.get_by_text("Menu", exact=True).click()
    assert about.count() == 1
    about.click()
    page.wait_for_url("**/bench/about/")
    assert page.locator("[data-opens-search]:visible").count() == 0


def test_the_menu_lies_open_on_a_desk(open_page: Open, base: str) -> None:
    page = open_page(base + "about/", width=1280).page
    names = page.locator("header li:visible").all_inner_texts()
    assert names == ["Reports", "Methods", "About", "Search"]
    assert page.locator("header [aria-current=page]:visible").inner_text() == "About"
    assert not page.get_by_text("Menu", exact=True).is_visible()


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_scrolls_sideways(open_page: Open, base: str, width: int) -> None:
    visit = open_page(base, width=width)
    for address in PAGES:
        visit.page.goto(base + address)
        wide, inner = visit.page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
        assert wide <= inner, address


def test_targets_are_large_enough_for_a_thumb(open_page: Open, base: str) -> None:
    page = open_page(base).page
    page.get_by_text("Menu", exact=True).click()
    for target in page.locator(
        "header a:visible, header summary:visible, header button:visible, footer label:visible"
    ).all():
        box = target.bounding_box()
        assert box is not None
        assert box["height"] >= 44, target.inner_text()


def test_the_page_stands_in_sight_under_its_ruled_edge(open_page: Open, base: str) -> None:
    page = open_page(base + "r/holders-0001/", width=1280).page
    head, title, article = (page.locator(each).bounding_box() for each in (".head", "h1", "article"))
    assert head is not None
    assert title is not None
    assert article is not None
    assert head["width"] == 1280
    assert head["y"] + head["height"] <= title["y"]
    assert article["width"] == 1016
    assert title["width"] == 720
