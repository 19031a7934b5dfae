"""The switch of units: what it shows and leaves out, how it is worked, what is remembered, and paper."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page

from generator.host.build import build
from tests.browser.conftest import Open, Serve

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
REPORT = "r/fuse-holders-30a/"
METHOD = "m/closed-box-heating/2/"
HEARD = """
window.heard = [];
document.addEventListener("provebook:units", event => window.heard.push(event.detail));
"""


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory, serve_folder: Serve) -> str:
    return serve_folder(build(ROOT, strict=True, site_dir=tmp_path_factory.mktemp("units") / "site"))


@pytest.fixture(scope="module")
def us_first(tmp_path_factory: pytest.TempPathFactory, serve_folder: Serve) -> str:
    """The demo of a bench whose own units are the US ones."""
    folder = tmp_path_factory.mktemp("us")
    shutil.copytree(ROOT / "reports", folder / "reports")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    settings = folder / "reports" / "bench.yml"
    settings.write_text(settings.read_text("utf-8").replace("units: metric", "units: us"), encoding="utf-8")
    return serve_folder(build(folder))


def units(page: Page) -> str | None:
    found: str | None = page.evaluate("document.documentElement.dataset.units ?? null")
    return found


def choose(page: Page, which: str) -> None:
    page.click(f"[data-shows-units={which}]")


def pressed(page: Page) -> list[str | None]:
    return [each.get_attribute("aria-pressed") for each in page.locator("[data-shows-units]").all()]


SEEN = """selector => {
  for (const each of document.querySelectorAll("details:not(.budget)")) each.open = true;
  const texts = document.createTreeWalker(document.querySelector(selector), NodeFilter.SHOW_TEXT);
  const seen = [];
  while (texts.nextNode())
    if (texts.currentNode.parentElement.getClientRects().length) seen.push(texts.currentNode.data);
  return seen.join("");
}"""
"""The text that is drawn; `innerText` holds that of hidden drawings too."""


def shown(page: Page, selector: str = "article") -> str:
    """What is seen of an element, on one line with plain spaces."""
    return re.sub(r"\s+", " ", page.evaluate(SEEN, selector))


def test_one_system_at_a_time_is_shown_and_a_click_shows_the_other(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    assert (units(page), pressed(page)) == ("metric", ["true", "false"])
    metric = shown(page, ".bars") + shown(page, ".chart") + shown(page, ".pairs")
    assert "°C" in metric
    assert "°F" not in metric
    choose(page, "us")
    assert (units(page), pressed(page)) == ("us", ["false", "true"])
    us = shown(page, ".bars") + shown(page, ".chart") + shown(page, ".pairs")
    assert "°F" in us
    assert "°C" not in us
    assert "()" not in us.replace(" ", "")


def test_the_switch_is_worked_by_keys_and_named_for_those_who_do_not_see_it(
    open_page: Open, base: str
) -> None:
    page = open_page(base + REPORT, width=1280).page
    group = page.get_by_role("group", name="Units")
    button = group.get_by_role("button", name="°F and other US units")
    button.focus()
    page.keyboard.press("Enter")
    assert units(page) == "us"
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Space")
    assert units(page) == "metric"
    for each in page.locator("[data-shows-units]").all():
        box = each.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 43.5


def test_the_choice_is_remembered_on_a_new_visit_and_on_other_pages(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    choose(page, "us")
    page.reload()
    assert (units(page), pressed(page)) == ("us", ["false", "true"])
    for address in ("", METHOD, "about/", "404.html"):
        page.goto(base + address)
        assert (units(page), pressed(page)) == ("us", ["false", "true"])


def test_two_open_tabs_show_the_same(open_page: Open, base: str) -> None:
    first = open_page(base + REPORT).page
    second = first.context.new_page()
    second.goto(base + METHOD)
    second.evaluate(HEARD)
    choose(first, "us")
    second.wait_for_function("document.documentElement.dataset.units === 'us'")
    assert pressed(second) == ["false", "true"]
    assert second.evaluate("window.heard") == ["us"]


def test_a_change_is_told_once_and_to_choose_what_is_shown_changes_nothing(
    open_page: Open, base: str
) -> None:
    page = open_page(base + REPORT).page
    page.evaluate(HEARD)
    choose(page, "metric")
    choose(page, "us")
    choose(page, "us")
    choose(page, "metric")
    assert page.evaluate("window.heard") == ["us", "metric"]


def test_storage_that_is_refused_or_holds_something_else_leaves_the_bench_s_own_units(
    open_page: Open, base: str
) -> None:
    visit = open_page(base + REPORT)
    visit.page.evaluate("localStorage.setItem('/.__units', '\"furlongs\"')")
    visit.page.reload()
    assert units(visit.page) == "metric"
    refused = "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no'); }})"
    visit.page.context.add_init_script(refused)
    visit.page.reload()
    assert units(visit.page) == "metric"
    choose(visit.page, "us")
    assert units(visit.page) == "us"


@pytest.mark.parametrize("address", [REPORT, METHOD])
def test_without_scripts_both_are_told_and_there_is_no_switch(
    open_page: Open, base: str, address: str
) -> None:
    page = open_page(base + address, scripts=False).page
    assert units(page) is None
    assert not page.locator(".units").is_visible()
    text = re.sub(r"\s+", " ", page.inner_text("article"))
    assert re.search(r"\d °C \(\d[\d.,± to]* °F\)", text)


def test_without_scripts_the_bench_s_own_units_stand_first(open_page: Open, us_first: str) -> None:
    page = open_page(us_first + REPORT, scripts=False).page
    ticks = [each for each in page.locator(".axis svg").all() if each.is_visible()]
    assert [each.get_attribute("class") for each in ticks] == ["scale in-us"]
    first = page.locator(".pairs .both").first
    us, metric = (first.locator(each).bounding_box() for each in (".us", ".metric"))
    assert us is not None
    assert metric is not None
    assert us["x"] + us["width"] <= metric["x"] + 1 or us["y"] + us["height"] <= metric["y"] + 1
    before = first.locator(".metric").evaluate("each => getComputedStyle(each, '::before').content")
    assert before == '"("'
    assert not first.locator(".paren").first.is_visible()


def test_with_scripts_the_bench_s_own_units_are_the_ones_shown_at_first(
    open_page: Open, us_first: str
) -> None:
    page = open_page(us_first + REPORT).page
    assert (units(page), pressed(page)) == ("us", ["false", "true"])
    assert "°C" not in shown(page, ".bars")


def test_a_still_s_ticks_and_its_curves_names_follow(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    ticks = "svg.still .grid text:visible"
    metric = page.locator(ticks).all_text_contents()
    choose(page, "us")
    us = page.locator(ticks).all_text_contents()
    assert metric[-1].strip() == "°C above the air"
    assert us[-1].strip() == "°F above the air"
    assert set(metric[:-1]) != set(us[:-1])
    # The same height is 1.8 times as many °F: the highest tick of each is within one step of the other's.
    assert float(us[-2]) / float(metric[-2]) == pytest.approx(1.8, rel=0.35)


def test_who_does_not_see_the_drawing_hears_the_units_shown(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    for which, sign, other in (("metric", "°C", "°F"), ("us", "°F", "°C")):
        choose(page, which)
        told = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")
        (drawing,) = [
            each
            for each in told["nodes"]
            if each.get("name", {}).get("value", "").startswith("How hot they got")
            and each.get("description", {}).get("value")
        ][:1]
        said = drawing["description"]["value"]
        assert sign in said
        assert other not in said


def test_nothing_of_the_head_moves_when_the_units_change(open_page: Open, base: str) -> None:
    for width in (320, 360, 1280):
        page = open_page(base + REPORT, width=width).page
        place = "[...document.querySelectorAll('.head *')].map(each => each.getBoundingClientRect().toJSON())"
        before = page.evaluate(place)
        choose(page, "us")
        assert page.evaluate(place) == before


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_no_page_scrolls_sideways_in_us_units(open_page: Open, base: str, width: int) -> None:
    page = open_page(base + REPORT, width=width).page
    choose(page, "us")
    for address in ("", REPORT, METHOD):
        page.goto(base + address)
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_on_paper_both_are_told_the_chosen_ones_first(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=680).page
    for which, signs in (("metric", ("°C", "°F")), ("us", ("°F", "°C"))):
        choose(page, which)
        page.emulate_media(media="print")
        told = page.inner_text(".bars .caption")
        assert signs[0] in told
        assert signs[1] not in told
        assert signs[1] in page.locator(".bar .second.other").first.inner_text()
        pair = page.locator(".pairs .both").first
        assert pair.locator(".metric").is_visible()
        assert pair.locator(".us").is_visible()
        assert pair.locator(".paren").first.is_visible() == (which == "metric")
        assert not page.locator(".units").is_visible()
        page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
        # An A4 sheet less its margins is 680 px wide.
        assert page.evaluate("document.documentElement.scrollWidth") <= 680
        page.emulate_media(media="screen")


def test_the_chosen_one_is_known_without_colour(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    page.emulate_media(forced_colors="active")
    line = "each => getComputedStyle(each).textDecorationLine"
    lines = [page.locator(f"[data-shows-units={each}]").evaluate(line) for each in ("metric", "us")]
    assert lines == ["underline", "none"]
