"""What a first view costs, and whom it asks: every page of the demo with its drafts, as a phone meets it."""

from __future__ import annotations

import gzip
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page

from generator.host.build import build
from generator.host.chrome import POLICY
from tests.browser.conftest import LISTENER, Serve
from tests.browser.kinds import KINDS
from tests.browser.test_host import BUDGET

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
MOST_REQUESTS = 10
"""Page, styles, five scripts, site map, the stub of the index, the mark in the tab: what a report has."""

MOST_SHIFT = 0.01
"""Sum of layout shifts (Layout Instability, W3C community group); 0.1 is called good, this is a tenth."""

SHIFTS = """new Promise(done => {
  let sum = 0;
  new PerformanceObserver(list => {
    for (const each of list.getEntries()) sum += each.value;
  }).observe({ type: "layout-shift", buffered: true });
  setTimeout(() => done(sum), 300);
})"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(ROOT, drafts=True, site_dir=tmp_path_factory.mktemp("first") / "site")


@pytest.fixture(scope="module")
def base(site: Path, serve_folder: Serve) -> str:
    return serve_folder(site, headers={"Content-Security-Policy": POLICY})


def phone(browser: Browser) -> tuple[Page, list[str], list[str]]:
    """A page of its own profile, what it asks for, and what goes wrong on it."""
    context = browser.new_context(viewport={"width": 360, "height": 800}, device_scale_factor=2)
    context.add_init_script(LISTENER)
    asked: list[str] = []
    troubles: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    context.on("response", lambda answer: troubles.append(answer.url) if answer.status >= 400 else None)
    page = context.new_page()
    page.on("pageerror", lambda error: troubles.append(str(error)))
    page.on("console", lambda said: troubles.append(said.text) if said.type in {"error", "warning"} else None)
    return page, asked, troubles


def _file(site: Path, path: str) -> Path:
    return site / path / "index.html" if not path or path.endswith("/") else site / path


def test_each_kind_of_page_is_light_and_stands_still(browser: Browser, site: Path, base: str) -> None:
    heavy, many, moved = {}, {}, {}
    for kind, address in KINDS.items():
        page, asked, _ = phone(browser)
        page.goto(base + address)
        page.wait_for_load_state("networkidle")
        moved[kind] = page.evaluate(SHIFTS)
        paths = [urlsplit(each).path.lstrip("/") for each in asked]
        many[kind] = len(paths)
        files = [
            site / path / "index.html" if path.endswith("/") or not path else site / path for path in paths
        ]
        heavy[kind] = sum(len(gzip.compress(each.read_bytes(), 6)) for each in files)
        page.context.close()
    assert {kind: size for kind, size in heavy.items() if size > BUDGET} == {}
    assert {kind: count for kind, count in many.items() if count > MOST_REQUESTS} == {}
    assert {kind: shift for kind, shift in moved.items() if shift > MOST_SHIFT} == {}


def test_no_page_asks_another_site_or_breaks_its_own_policy(browser: Browser, site: Path, base: str) -> None:
    page, asked, troubles = phone(browser)
    broken: dict[str, list[str]] = {}
    pages = sorted(each.relative_to(site).as_posix() for each in site.rglob("*.html"))
    assert len(pages) > 60
    for address in pages:
        page.goto(base + address.removesuffix("index.html"), wait_until="load")
        broken[address] = page.evaluate("window.__violations")
    page.wait_for_load_state("networkidle")
    page.context.close()
    assert {address: each for address, each in broken.items() if each} == {}
    assert {urlsplit(each).netloc for each in asked if not each.startswith("data:")} == {
        urlsplit(base).netloc
    }
    assert troubles == []
