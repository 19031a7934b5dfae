"""The comparison and the items in a reader's browser: filter, order, cards on a phone, paper, a sub-path."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from generator.host.build import build
from generator.host.chrome import POLICY
from tests.browser.conftest import Open, Serve
from tests.host import links
from tests.pages import shelf

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(ROOT, strict=True, site_dir=tmp_path_factory.mktemp("compare") / "site")


@pytest.fixture(scope="module", params=["/", "/bench/"])
def base(request: pytest.FixtureRequest, site: Path, serve_folder: Serve) -> str:
    return serve_folder(site, mount=request.param, headers={"Content-Security-Policy": POLICY})


def names(page: Page) -> list[str]:
    """The items that are seen, in their order."""
    return page.locator("table.compare tbody tr:visible th a").all_inner_texts()


HOLDERS = ["Grenlo 30", "Okvarn IH30", "Pallsto F-30", "Tessvik T30", "Veldrun V30"]
SOCKETS = ["Brundivar B10", "Okvarn PS15", "Skavrint P12", "Tessvik S12", "Ulmspar U-20"]
TERMINALS = ["Dorvekk R6", "Skavrint M6", "Ulmspar 4-6"]
BY_NAME = [*HOLDERS, *SOCKETS, *TERMINALS]


def test_a_word_keeps_the_items_that_have_it(open_page: Open, base: str) -> None:
    visit = open_page(base + "compare/")
    page = visit.page
    assert names(page) == BY_NAME
    page.get_by_label("Show names with").fill("SCREW TERM")
    assert names(page) == ["Tessvik T30"]
    assert page.get_by_role("status").inner_text() == "1 of 13 items are shown"
    page.get_by_label("Show names with").fill("pierced 30")
    assert names(page) == ["Grenlo 30", "Pallsto F-30"]
    page.get_by_label("Show names with").fill("")
    assert names(page) == BY_NAME
    assert visit.violations() == []
    assert visit.troubles == []


def test_figures_give_the_order_and_what_has_none_comes_last_either_way(open_page: Open, base: str) -> None:
    page = open_page(base + "compare/", width=1280).page
    sort = page.get_by_label("Sort by")
    title = "Hotter than the air after 60 min at 30 A"
    sort.select_option(label=f"{title}: low to high")
    untold = ["Grenlo 30", *SOCKETS, *TERMINALS]
    assert names(page) == ["Tessvik T30", "Veldrun V30", "Pallsto F-30", "Okvarn IH30", *untold]
    assert page.locator("th[aria-sort=ascending]").inner_text().startswith(title)
    sort.select_option(label=f"{title}: high to low")
    assert names(page) == ["Okvarn IH30", "Pallsto F-30", "Veldrun V30", "Tessvik T30", *untold]
    assert page.locator("th[aria-sort]").get_attribute("aria-sort") == "descending"
    sort.select_option(label="name")
    assert names(page) == BY_NAME
    assert page.locator("th[aria-sort]").count() == 0


def test_heads_sort_too_and_are_large_enough_for_a_finger(open_page: Open, base: str) -> None:
    page = open_page(base + "compare/", width=1280).page
    button = page.get_by_role("button", name="Hotter than the air after 60 min at 30 A")
    box = button.bounding_box()
    assert box is not None
    assert box["height"] >= 44
    button.focus()
    page.keyboard.press("Enter")
    assert names(page)[:2] == ["Tessvik T30", "Veldrun V30"]
    page.keyboard.press("Enter")
    assert names(page)[:2] == ["Okvarn IH30", "Pallsto F-30"]
    assert page.get_by_role("columnheader", name="Hotter").get_attribute("aria-sort") == "descending"
    assert page.get_by_label("Sort by").input_value() == "0-down"


def test_what_was_chosen_stands_in_the_address_and_can_be_gone_back_from(open_page: Open, base: str) -> None:
    page = open_page(base + "compare/").page
    page.get_by_label("Tested alike").select_option("closed-box-heating")
    assert names(page) == HOLDERS
    page.get_by_label("Against a limit").select_option("Within the limit")
    within = names(page)
    assert 0 < len(within) < len(HOLDERS)
    page.get_by_label("Show names with").fill("v30")
    search = page.evaluate("location.search")
    assert search == "?group=closed-box-heating&outcome=Within+the+limit&q=v30"
    page.get_by_label("Show names with").fill("")
    page.reload()
    assert names(page) == within
    page.go_back()
    assert names(page) == HOLDERS
    assert page.get_by_label("Against a limit").input_value() == ""
    page.get_by_role("button", name="Clear").click()
    assert names(page) == BY_NAME
    assert page.evaluate("location.search") == ""


def test_a_price_leaves_out_what_costs_more_and_what_has_none(open_page: Open, base: str) -> None:
    page = open_page(base + "compare/?price=2&sort=0-up").page
    cheap = names(page)
    assert "Grenlo 30" in cheap
    assert "Okvarn IH30" not in cheap
    assert page.get_by_label("Sort by").input_value() == "0-up"


def test_an_address_that_asks_for_what_is_not_there_shows_all(open_page: Open, base: str) -> None:
    asked = "compare/?group=none&outcome=%3Cb%3E&sort=9-up&price=-1e&q="
    visit = open_page(base + asked)
    assert names(visit.page) == BY_NAME
    assert visit.troubles == []


def test_a_name_is_held_while_its_figures_scroll_and_covers_no_link_in_focus(
    open_page: Open, base: str
) -> None:
    page = open_page(base + "compare/", width=768).page
    region = page.get_by_role("region", name="Heating in a closed box")
    assert region.evaluate("each => each.scrollWidth <= each.clientWidth || each.tabIndex === 0")
    # At this width the demo's columns may fit; a wider last one makes the table scroll for sure.
    region.locator("td").last.evaluate("each => each.style.minWidth = '60rem'")
    region.evaluate("each => { each.scrollLeft = 300; }")
    name = region.locator("tbody th").first
    gap = "each => each.getBoundingClientRect().left - each.closest('.scroll').getBoundingClientRect().left"
    assert abs(name.evaluate(gap)) < 2
    link = region.locator("tbody td a").first
    link.focus()
    assert link.evaluate(
        "each => each.getBoundingClientRect().left"
        " >= each.closest('tr').cells[0].getBoundingClientRect().right - 1"
    )
    region.evaluate("each => { each.scrollLeft = 0; each.focus(); }")
    page.keyboard.press("ArrowRight")
    page.wait_for_function("each => each.scrollLeft > 0", arg=region.element_handle())


@pytest.mark.parametrize("width", [320, 360, 390])
def test_no_page_scrolls_sideways_on_a_phone(open_page: Open, site: Path, base: str, width: int) -> None:
    page = open_page(base, width=width).page
    wide = []
    for address in links.read(site):
        page.goto(base + address)
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            wide.append(address)
    assert wide == []


def test_the_table_is_a_step_away_where_cautions_come_first(open_page: Open, base: str) -> None:
    page = open_page(base + "compare/").page
    page.get_by_role("link", name="To the table").click()
    page.wait_for_function("document.querySelector('#table').getBoundingClientRect().top < 200")
    assert page.locator(".cautions li:visible").count() >= 5


def test_without_scripts_the_table_is_whole_and_has_no_dead_tools(open_page: Open, base: str) -> None:
    page = open_page(base + "compare/", scripts=False).page
    assert names(page) == BY_NAME
    assert page.locator(".compare-tools:visible").count() == 0


@pytest.mark.parametrize("address", ["compare/", "i/grenlo-30/"])
def test_on_a_phone_each_row_is_a_card_whose_cells_name_their_columns(
    open_page: Open, base: str, address: str
) -> None:
    page = open_page(base + address).page
    cells = page.locator("table.rows tbody td")
    assert cells.count() >= 5
    for number in range(cells.count()):
        box = cells.nth(number).bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 360
    heads = page.eval_on_selector_all(
        "table.rows tbody td", "all => all.map(each => getComputedStyle(each, '::before').content)"
    )
    assert all(len(head) > 4 for head in heads)


@pytest.mark.parametrize("address", ["compare/", "i/grenlo-30/"])
def test_on_paper_the_cautions_stand_before_the_figures(open_page: Open, base: str, address: str) -> None:
    page = open_page(base + address, width=680).page
    page.emulate_media(media="print")
    tops = [
        page.locator(each).first.evaluate("each => each.getBoundingClientRect().top")
        for each in (".disclosure", "h1", ".caution", ".cautions", ".figure")
    ]
    assert tops == sorted(tops)
    assert page.evaluate("document.documentElement.scrollWidth") <= 680
    assert page.locator(".compare-tools:visible").count() == 0


@pytest.mark.parametrize("address", ["compare/", "i/okvarn-ih30/", "r/fuse-holders-30a/1/how/okvarn-ih30/"])
def test_the_disclosure_is_no_smaller_than_the_text(open_page: Open, base: str, address: str) -> None:
    """16 CFR 255.0(f): hard to miss and easy to understand; in size as the text around it."""
    page = open_page(base + address).page
    size = "each => parseFloat(getComputedStyle(each).fontSize)"
    assert page.locator(".disclosure").evaluate(size) >= page.locator("article li").first.evaluate(size)
    box = page.locator(".disclosure").bounding_box()
    assert box is not None
    assert box["y"] + box["height"] < 200


def test_every_page_answers_under_a_path_of_its_own(open_page: Open, site: Path, base: str) -> None:
    visit = open_page(base)
    for address in links.read(site):
        answer = visit.page.goto(base + address)
        assert answer is not None
        assert answer.status == 200, address
    assert visit.troubles == []


def test_a_bench_without_columns_has_a_list_without_trouble(
    open_page: Open, serve_folder: Serve, tmp_path: Path
) -> None:
    visit = open_page(
        serve_folder(build(shelf.write(tmp_path / "bench", settings=""), drafts=True)) + "compare/"
    )
    # The one that no report has comes last.
    assert names(visit.page) == ["Halvenor C2", "Quorsby Q2", "Abbotry Z9"]
    visit.page.get_by_label("Show names with").fill("quors")
    assert names(visit.page) == ["Quorsby Q2"]
    assert visit.troubles == []
