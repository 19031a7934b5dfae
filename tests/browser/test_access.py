"""What a machine can tell of access, by axe-core (Deque Systems, MPL 2.0): every kind of page, no exceptions.

axe tells what is surely wrong under WCAG 2.2 A and AA and its own best practices; a person looks at the rest.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from generator.host.build import build
from tests.browser.conftest import Serve
from tests.browser.kinds import KINDS

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
AXE = (files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")

RUN = """async where => {
  const found = await axe.run(where, { resultTypes: ["violations"] });
  return found.violations.flatMap(each =>
    each.nodes.map(node => `${each.id}: ${node.target.join(" ")}: ${node.html.slice(0, 160)}`));
}"""


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory, serve_folder: Serve) -> str:
    """The demo with its drafts."""
    return serve_folder(build(ROOT, drafts=True, site_dir=tmp_path_factory.mktemp("access") / "site"))


def violations(page: Page, where: str = "html") -> list[str]:
    found: list[str] = page.evaluate(RUN, where)
    return found


def opened(page: Page, address: str) -> None:
    """Go to a page, open everything on it, and bring axe along."""
    page.goto(address)
    page.wait_for_load_state("networkidle")
    page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
    page.evaluate(AXE)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_axe_finds_nothing_on_any_kind_of_page(browser: Browser, base: str, width: int, scheme: str) -> None:
    # axe comes in from outside the page, which the page's own policy would refuse.
    context = browser.new_context(
        viewport={"width": width, "height": 800},
        color_scheme="dark" if scheme == "dark" else "light",
        bypass_csp=True,
    )
    page, found = context.new_page(), {}
    for kind, address in KINDS.items():
        opened(page, base + address)
        found[kind] = violations(page)
    context.close()
    assert found == {kind: [] for kind in KINDS}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_a_live_chart_nor_on_the_open_search(
    browser: Browser, base: str, scheme: str
) -> None:
    context = browser.new_context(
        viewport={"width": 1280, "height": 800},
        color_scheme="dark" if scheme == "dark" else "light",
        bypass_csp=True,
    )
    page = context.new_page()
    opened(page, base + KINDS["report"])
    page.locator(".live-open").first.click()
    page.locator("figure.chart[data-state=live]").first.wait_for(timeout=60_000)
    assert violations(page, "figure.chart[data-state=live]") == []
    page.locator("[data-opens-search]:visible").first.click()
    page.keyboard.type("okvarn")
    page.locator(".md-search-result__item").first.wait_for(timeout=30_000)
    assert violations(page) == []
    context.close()
