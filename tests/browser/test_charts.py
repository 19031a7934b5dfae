"""A still that becomes a live chart in a reader's browser: the same picture, and the page stays theirs."""

from __future__ import annotations

import json
import math
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.host import library
from generator.host.build import build
from generator.host.chrome import POLICY
from tests.browser.conftest import QUIET, Open, Serve, Visit, chromium
from tests.browser.test_host import BUDGET, wire_bytes
from tests.site import hostile

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
REPORT = "r/fuse-holders-30a/"
HEADERS = {"Content-Security-Policy": POLICY}
WIDTHS = [360, 1280]
BUTTONS = ["Back to the picture", "Mark before", "Next mark", "Further away", "Closer", "First 10 min", "All"]
READ = Path(__file__).with_name("read_chart.js").read_text(encoding="utf-8")

Touch = Callable[..., Page]


def bench(folder: Path) -> Path:
    """The demo with three charts: the rise at two earlier marks beside the last one."""
    shutil.copytree(ROOT / "reports", folder / "reports", ignore=shutil.ignore_patterns("editions"))
    shutil.copy(ROOT / "mkdocs.yml", folder)
    for method in (folder / "reports/methods/closed-box-heating").glob("*.yml"):
        lines = method.read_text(encoding="utf-8").splitlines(keepends=True)
        rise = next(line for line in lines if "id: rise," in line)
        more = [
            rise.replace("id: rise,", f"id: rise-{at},").replace("at: 60", f"at: {at}") for at in (40, 50)
        ]
        at = lines.index(rise) + 1
        method.write_text("".join([*lines[:at], *more, *lines[at:]]), encoding="utf-8")
    report = folder / "reports/fuse-holders-30a/report.yml"
    text = report.read_text(encoding="utf-8")
    assert "measures: [rise, " in text
    report.write_text(
        text.replace("measures: [rise, ", "measures: [rise, rise-50, rise-40, "), encoding="utf-8"
    )
    return folder


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(bench(tmp_path_factory.mktemp("charts") / "bench"), strict=True, drafts=True)


@pytest.fixture(scope="module")
def base(site: Path, serve_folder: Serve) -> str:
    return serve_folder(site, headers=HEADERS)


@pytest.fixture
def touch(browser: Browser) -> Iterator[Touch]:
    """Opens an address as on a phone: touched, not pointed at."""
    contexts = []

    def open_(url: str) -> Page:
        context = browser.new_context(
            viewport={"width": 360, "height": 800}, has_touch=True, is_mobile=True, device_scale_factor=2
        )
        contexts.append(context)
        page = context.new_page()
        page.goto(url)
        page.wait_for_load_state("networkidle")
        return page

    yield open_
    for context in contexts:
        context.close()


def drawn(page: Page, number: int = 0) -> Any:
    """The figure of a chart, once it is live."""
    figure = page.locator("figure.chart").nth(number)
    expect(figure).to_have_attribute("data-state", "live", timeout=30_000)
    return figure


def opened(page: Page, number: int = 0) -> Any:
    page.locator(".live-open").nth(number).click()
    return drawn(page, number)


def read(page: Page, which: str, number: int = 0) -> dict[str, list[dict[str, Any]]]:
    """Where everything of a chart stands in the window, and how it looks."""
    found: dict[str, list[dict[str, Any]]] = page.evaluate(READ, {"which": which, "number": number})
    return found


def no_trouble(visit: Visit, base: str) -> None:
    assert visit.hosts() == {urlsplit(base).netloc}
    assert visit.violations() == []
    assert visit.troubles == []


# --- the same picture ----------------------------------------------------------------------------------


def agree(still: list[dict[str, Any]], live: list[dict[str, Any]], name: str) -> None:
    assert len(still) == len(live), name
    for one, other in zip(still, live, strict=True):
        assert math.hypot(one["x"] - other["x"], one["y"] - other["y"]) <= 1, (name, one, other)
        for key in one.keys() & other.keys() - {"x", "y", "w", "h"}:
            assert one[key] == other[key], (name, key, one, other)
        for size in one.keys() & {"w", "h"}:
            assert abs(one[size] - other[size]) <= 1, (name, one, other)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
def test_markers_ticks_and_colours_are_the_still_s(
    open_page: Open, base: str, width: int, *, dark: bool
) -> None:
    page = open_page(base + REPORT, width=width, dark=dark).page
    for number in range(3):
        still = read(page, "still", number)
        opened(page, number)
        live = read(page, "live", number)
        assert len(still["marks"]) >= 50
        assert len(still["stops"]) == len(still["limits"]) == 1
        for name, each in still.items():
            agree(each, live[name], name)


@pytest.mark.parametrize("width", WIDTHS)
def test_a_pair_of_units_changes_the_ticks_of_both_alike(open_page: Open, base: str, width: int) -> None:
    page = open_page(base + REPORT, width=width).page
    page.locator("[data-shows-units=us]").click()
    still = read(page, "still")
    assert [each["text"] for each in still["ytexts"]] == ["0", "50", "100", "150"]
    opened(page)
    agree(still["ytexts"], read(page, "live")["ytexts"], "ytexts")
    page.locator("[data-shows-units=metric]").click()
    expect(page.locator(".live .ytick text").nth(1)).to_have_text("20")
    page.locator("[data-shows-units=us]").click()
    expect(page.locator(".live .ytick text").nth(1)).to_have_text("50")
    agree(still["yticks"], read(page, "live")["yticks"], "yticks")


def test_all_of_a_live_chart_follows_the_pair_of_units(open_page: Open, base: str) -> None:
    """Ticks, what the axis is called, the label at a mark and what is read of it."""
    page = open_page(base + REPORT, width=1280).page
    figure = opened(page)
    figure.locator(".live").focus()
    page.keyboard.press("ArrowUp")
    for which, sign, other, tick in (("us", "°F", "°C", "50"), ("metric", "°C", "°F", "20")):
        page.locator(f"[data-shows-units={which}]").click()
        expect(page.locator(".live .ytick text").nth(1)).to_have_text(tick)
        seen = [each for each in figure.locator("svg.still .unit").all() if each.is_visible()]
        assert [each.text_content() for each in seen if "°" in (each.text_content() or "")] == [
            f"{sign} above the air"
        ]
        for text in (figure.locator(".hovertext"), figure.get_by_role("status")):
            expect(text).to_contain_text(sign)
            expect(text).not_to_contain_text(other)


def test_a_page_that_comes_back_as_it_was_left_draws_its_live_chart_anew(browser: Browser, base: str) -> None:
    """What its reader chose meanwhile, on another page, holds for the chart too."""
    kept = browser.browser_type.launch(
        executable_path=chromium(),
        args=list(QUIET),
        ignore_default_args=["--disable-back-forward-cache"],
    )
    try:
        page = kept.new_page(viewport={"width": 1280, "height": 800})
        page.goto(base + REPORT)
        figure = opened(page)
        expect(page.locator(".live .ytick text").nth(1)).to_have_text("20")
        page.evaluate("addEventListener('pageshow', event => window.kept = event.persisted)")
        page.locator("a[href*=glossary]").first.click()
        page.wait_for_url("**/glossary/")
        page.locator("[data-shows-units=us]").click()
        colours = page.locator("form[data-md-component=palette] label:visible")
        for said in ("Colours: light", "Colours: dark"):
            colours.click()
            expect(colours).to_have_text(said)
        page.evaluate("history.back()")
        page.wait_for_function("window.kept !== undefined")
        assert page.evaluate("window.kept") is True
        expect(figure).to_have_attribute("data-state", "live")
        expect(page.locator(".live .ytick text").nth(1)).to_have_text("50")
        assert page.locator("[data-shows-units=us]").get_attribute("aria-pressed") == "true"
        expect(page.locator("body")).to_have_css("background-color", "rgb(18, 25, 30)")
        expect(page.locator(".live .points path.point").first).to_have_css("fill", "rgb(136, 204, 238)")
    finally:
        kept.close()


def test_only_one_of_the_two_pictures_is_seen(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    figure = opened(page)
    assert not figure.locator(".still .curves").is_visible()
    assert not figure.locator(".still use").first.is_visible()
    assert figure.locator(".still .names text:visible").count() >= 6
    assert figure.locator(".live .scatterlayer").is_visible()


# --- arriving, opening, closing ------------------------------------------------------------------------


def test_a_click_turns_a_still_into_a_live_chart(open_page: Open, base: str) -> None:
    visit = open_page(base + REPORT)
    before = len(visit.requests)
    assert not [path for path in visit.paths() if "plotly" in path or "charts/" in path]
    visit.page.locator(".plot").first.click()
    drawn(visit.page)
    asked = sorted(path.rpartition("/")[2] for path in visit.paths()[before:])
    assert asked == [library.of_package().uri.rpartition("/")[2], "rise.js"]
    no_trouble(visit, base)


def test_a_page_that_is_opened_from_a_folder_has_its_live_chart(open_page: Open, site: Path) -> None:
    visit = open_page((site / REPORT / "index.html").as_uri())
    opened(visit.page, 1)
    assert {urlsplit(each).scheme for each in visit.requests} == {"file"}
    assert visit.troubles == []


@pytest.mark.parametrize("key", ["Enter", "Space"])
def test_a_key_turns_a_still_into_a_live_chart_and_escape_brings_it_back(
    open_page: Open, base: str, key: str
) -> None:
    visit = open_page(base + REPORT)
    page = visit.page
    page.locator(".live-open").first.focus()
    page.keyboard.press(key)
    figure = drawn(page)
    expect(figure.locator(".live")).to_be_focused()
    page.keyboard.press("Escape")
    expect(figure).to_have_attribute("data-state", "still")
    expect(figure.locator(".live-open")).to_be_focused()
    assert figure.locator(".live").count() == 0
    page.keyboard.press(key)
    drawn(page)
    no_trouble(visit, base)


def test_a_button_brings_the_picture_back(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    before = read(page, "still")
    figure = opened(page)
    figure.get_by_role("button", name="Back to the picture").click()
    expect(figure).to_have_attribute("data-state", "still")
    expect(figure.locator(".live-open")).to_be_focused()
    agree(before["marks"], read(page, "still")["marks"], "marks")
    assert figure.locator(".still .curves").is_visible()


def test_it_is_there_after_a_link_as_after_a_direct_arrival(open_page: Open, base: str) -> None:
    visit = open_page(base)
    page = visit.page
    for _ in range(2):
        page.locator(f"a[href$='{REPORT}']").first.click()
        page.wait_for_load_state("networkidle")
        for number in range(3):
            opened(page, number)
        assert (
            page.locator(".live .main-svg").count()
            == 3 * page.locator(".live").first.locator(".main-svg").count()
        )
        page.go_back()
        page.wait_for_load_state("networkidle")
    page.go_forward()
    opened(page) if page.locator("[data-state=live]").count() == 0 else drawn(page)
    no_trouble(visit, base)


def listeners(page: Page) -> dict[str, int]:
    """How many listeners stand on what outlives a chart."""
    tools = page.context.new_cdp_session(page)
    found = {}
    for name in ("window", "document", "document.body", "document.querySelector('figure.chart .plot')"):
        thing = tools.send("Runtime.evaluate", {"expression": name})["result"]["objectId"]
        told = tools.send("DOMDebugger.getEventListeners", {"objectId": thing})
        found[name] = len(told["listeners"])
    return found


def test_going_round_many_times_leaves_nothing_behind(open_page: Open, base: str) -> None:
    visit = open_page(base + REPORT)
    page = visit.page
    after_one: dict[str, int] = {}
    for _ in range(20):
        figure = opened(page)
        page.keyboard.press("Escape")
        expect(figure).to_have_attribute("data-state", "still")
        after_one = after_one or listeners(page)
    assert listeners(page) == after_one
    assert sum(after_one.values()) > 5
    assert page.locator(".live, .js-plotly-plot, .js-plotly-tester .main-svg").count() == 0
    assert len([path for path in visit.paths() if "plotly" in path]) == 1
    opened(page)
    assert page.locator(".live").count() == 1
    no_trouble(visit, base)


def test_nothing_moves_when_it_takes_the_still_s_place(open_page: Open, base: str) -> None:
    for width in (320, 360, 768, 1280):
        page = open_page(base + REPORT, width=width).page
        page.evaluate(
            "window.moved = 0; new PerformanceObserver(list => list.getEntries().forEach("
            "each => window.moved += each.value)).observe({type: 'layout-shift'})"
        )
        before = page.evaluate("document.documentElement.scrollHeight")
        opened(page)
        assert page.evaluate("document.documentElement.scrollHeight") == before, width
        page.locator("[data-state=live] .live-back").click()
        assert page.evaluate("document.documentElement.scrollHeight") == before, width
        # On phones the buttons take two rows, for which there is room.
        assert page.evaluate("window.moved") == 0, width


def test_each_button_is_on_the_list_and_large_enough(open_page: Open, base: str) -> None:
    visit = open_page(base + REPORT)
    figure = opened(visit.page)
    shown = figure.locator(".live-bar button:visible, .plot button, .plot a, .modebar-btn")
    names = [each.get_attribute("aria-label") or each.inner_text() for each in shown.all()]
    assert names == BUTTONS
    for button in shown.all():
        box = button.bounding_box()
        assert min(box["width"], box["height"]) >= 44
        if button.inner_text() != BUTTONS[0]:
            button.click()
    figure.get_by_role("button", name=BUTTONS[0]).click()
    first = figure.get_by_role("button").first
    assert (first.inner_text(), first.bounding_box()["height"] >= 44) == ("Interactive chart", True)
    no_trouble(visit, base)


def test_the_library_finds_nothing_amiss(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    for number in range(3):
        figure = opened(page, number)
        validate = "each => (Plotly.validate(each.data, each.layout) ?? []).map(found => found.msg)"
        assert figure.locator(".live").evaluate(validate) == []
        figure.get_by_role("button", name="Closer").click()
        assert figure.locator(".live").evaluate(validate) == []


# --- what goes wrong -----------------------------------------------------------------------------------


def hold(page: Page) -> list[Any]:
    """Keeps the script back; what is put into the list can be let go."""
    held: list[Any] = []

    def keep(route: Any) -> None:
        held.append(route)

    page.context.route("**/plotly-*.min.js", keep)
    return held


def test_it_says_that_it_loads_and_the_still_stays_until_the_first_frame(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    held = hold(page)
    figure = page.locator("figure.chart").first
    figure.locator(".live-open").click()
    expect(figure.get_by_role("status")).to_contain_text("Loading")
    assert figure.get_attribute("aria-busy") == "true"
    assert figure.locator(".still .curves").is_visible()
    page.wait_for_timeout(200)
    held[0].continue_()
    drawn(page)
    assert figure.get_attribute("aria-busy") == "false"


def test_a_reader_who_gives_up_while_it_loads_keeps_the_still(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    held = hold(page)
    page.locator(".live-open").first.click()
    page.wait_for_timeout(100)
    page.keyboard.press("Escape")
    with page.expect_response("**/plotly-*.min.js"):
        held[0].continue_()
    page.wait_for_timeout(3000)
    figure = page.locator("figure.chart").first
    assert figure.get_attribute("data-state") == "still"
    assert figure.locator(".still .curves").is_visible()


@pytest.mark.parametrize("answer", ["abort", "404", "empty", "throws"])
def test_a_script_that_fails_leaves_the_still_with_a_word(open_page: Open, base: str, answer: str) -> None:
    page = open_page(base + REPORT).page
    answers: dict[str, Callable[[Any], None]] = {
        "abort": lambda route: route.abort(),
        "404": lambda route: route.fulfill(status=404, body=""),
        "empty": lambda route: route.fulfill(content_type="text/javascript", body=""),
        "throws": lambda route: route.fulfill(
            content_type="text/javascript", body="window.Plotly = {purge() {}, react() { throw 1 }}"
        ),
    }
    page.context.route("**/plotly-*.min.js", answers[answer])
    figure = page.locator("figure.chart").first
    figure.locator(".live-open").click()
    expect(figure).to_have_attribute("data-state", "failed", timeout=30_000)
    expect(figure.get_by_role("status")).to_contain_text("the picture stays")
    assert figure.locator(".still .curves").is_visible()
    assert figure.locator(".live").count() == 0
    page.context.unroute("**/plotly-*.min.js")
    if answer != "throws":
        opened(page)


@pytest.mark.parametrize("broken", ["null", '{"data": 1}', "", '{"data":[],"layout":{}}'])
def test_broken_data_leaves_the_still_with_a_word(open_page: Open, base: str, broken: str) -> None:
    visit = open_page(base + REPORT)
    page = visit.page
    told = f"document.currentScript.made={broken}" if broken else ""
    page.context.route(
        "**/charts/rise.js?*", lambda route: route.fulfill(content_type="text/javascript", body=told)
    )
    figure = page.locator("figure.chart").first
    figure.locator(".live-open").click()
    expect(figure).to_have_attribute("data-state", "failed", timeout=30_000)
    expect(figure.get_by_role("status")).to_contain_text("can't be drawn")
    assert figure.locator(".still .curves").is_visible()
    opened(page, 1)
    no_trouble(visit, base)
    page.context.unroute("**/charts/rise.js?*")
    opened(page)


def test_data_that_do_not_come_leave_the_still_with_a_word(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    page.context.route("**/charts/rise.js?*", lambda route: route.abort())
    figure = page.locator("figure.chart").first
    figure.locator(".live-open").click()
    expect(figure).to_have_attribute("data-state", "failed", timeout=30_000)
    expect(figure.get_by_role("status")).to_contain_text("the picture stays")
    page.context.unroute("**/charts/rise.js?*")
    opened(page)


def test_who_gives_up_and_asks_again_gets_one_chart(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT).page
    held = hold(page)
    for _ in range(3):
        page.locator(".live-open").first.click()
        page.wait_for_timeout(50)
        page.keyboard.press("Escape")
    page.locator(".live-open").first.click()
    for each in held:
        each.continue_()
    figure = drawn(page)
    page.wait_for_timeout(500)
    assert figure.locator(".live").count() == 1
    assert page.locator("head script[src*='charts/'], head script[src*='plotly']").count() == 0


def test_without_scripts_no_button_promises_a_chart(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, scripts=False).page
    assert page.get_by_role("button", name="Interactive chart").count() == 0
    assert page.locator(".still .curves").first.is_visible()


# --- reading it ----------------------------------------------------------------------------------------


def spaced(text: str) -> str:
    return text.replace("\u00a0", " ").replace("\u202f", " ")


def test_a_mark_that_is_pointed_at_says_its_figure_as_the_table_does(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    figure = opened(page)
    # Under the pointer stands the mark of the longest time, where the lines lie apart.
    mark = next(
        each for each in reversed(read(page, "window")["marks"]) if each["stroke"] == "rgb(153, 153, 51)"
    )
    page.mouse.move(mark["x"], mark["y"])
    expect(figure.get_by_role("status")).to_contain_text("60 min")
    said = spaced(figure.get_by_role("status").inner_text())
    name, _, told = said.partition(", 60 min: ")
    label = spaced(figure.locator(".hovertext").text_content())
    assert label == f"{name}{told.removesuffix(' above the air')} · 60 min"
    figure.locator("summary").click()
    heads = [spaced(each) for each in figure.locator("thead th").all_inner_texts()]
    cells = figure.locator("tbody tr:last-child > *").all_inner_texts()
    (own,) = [place for place, head in enumerate(heads) if head.split(", ")[0] == name]
    cell = spaced(cells[own])
    assert told == f"{cell} °C above the air"


def test_the_keys_walk_from_mark_to_mark(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    figure = opened(page)
    said = figure.get_by_role("status")
    figure.locator(".live").focus()
    page.keyboard.press("ArrowRight")
    expect(said).to_contain_text("unbroken cable")
    for _ in range(3):  # as many plain cables
        page.keyboard.press("ArrowUp")
    expect(said).to_contain_text("Tessvik T30, 60 min")
    page.keyboard.press("ArrowLeft")
    expect(said).to_contain_text("Tessvik T30, 55 min")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    expect(said).to_contain_text("Tessvik T30, 60 min")
    page.locator("[data-shows-units=us]").click()
    expect(said).to_contain_text("°F above the air")
    expect(figure.locator(".hovertext")).to_contain_text("°F")


def test_closer_and_further_keep_round_ticks_and_names(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    figure = opened(page)
    whole = read(page, "live")
    for _ in range(2):
        figure.get_by_role("button", name="Closer").click()
    part = read(page, "live")
    assert part["ytexts"] != whole["ytexts"]
    assert 2 <= len(part["ytexts"]) <= 7
    steps = [float(each["text"]) for each in part["ytexts"]]
    gap = steps[1] - steps[0]
    assert f"{gap:.0e}"[0] in "125"
    assert all(math.isclose(step / gap, round(step / gap), abs_tol=1e-6) for step in steps)
    assert not figure.locator(".still .names text").first.is_visible()
    assert figure.locator(".live .annotation").count() >= 1
    for _ in range(9):
        figure.get_by_role("button", name="Further away").click()
    agree(whole["marks"], read(page, "live")["marks"], "marks")
    assert figure.get_attribute("data-zoomed") is None
    figure.get_by_role("button", name="Closer").click()
    figure.get_by_role("button", name="All").click()
    agree(whole["ytexts"], read(page, "live")["ytexts"], "ytexts")


def test_a_frame_drawn_by_mouse_and_two_clicks(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    figure = opened(page)
    whole = read(page, "live")
    box = figure.locator(".live .nsewdrag").bounding_box()
    page.mouse.move(box["x"] + 100, box["y"] + 100)
    page.mouse.down()
    page.mouse.move(box["x"] + 300, box["y"] + 200, steps=5)
    page.mouse.up()
    expect(figure).to_have_attribute("data-zoomed", "")
    assert read(page, "live")["xtexts"] != whole["xtexts"]
    for _ in range(10):  # two clicks that a busy machine hears too far apart are two single ones
        page.mouse.dblclick(box["x"] + 200, box["y"] + 150)
        page.wait_for_timeout(300)
        if figure.get_attribute("data-zoomed") is None:
            break
    expect(figure).not_to_have_attribute("data-zoomed", "")
    agree(whole["marks"], read(page, "live")["marks"], "marks")


def test_every_mark_is_reached_by_single_taps_and_said(touch: Touch, base: str) -> None:
    """No drag and no key: from the first mark to the last and back, the drawing following."""
    page = touch(base + REPORT)
    page.locator(".live-open").first.tap()
    figure = drawn(page)
    said = figure.get_by_role("status")
    after, before = (figure.get_by_role("button", name=name) for name in ("Next mark", "Mark before"))
    every = figure.locator(".live").evaluate(
        "each => each.data.filter(trace => trace.customdata)"
        ".flatMap(trace => trace.y.filter(value => value !== null)).length"
    )
    heard = []
    for _ in range(every):
        after.tap()
        heard.append(said.inner_text())
    assert len(set(heard)) > 0.9 * every > 40  # runs of one control have one name
    assert heard[0] != heard[-1]
    after.tap()
    assert said.inner_text() == heard[-1]
    before.tap()
    assert said.inner_text() == heard[-2]
    expect(figure.locator(".hovertext")).to_be_visible()


def test_the_first_minutes_and_all_by_single_taps(touch: Touch, base: str) -> None:
    page = touch(base + REPORT)
    page.locator(".live-open").first.tap()
    figure = drawn(page)
    whole = read(page, "live")
    figure.get_by_role("button", name="First 10 min").tap()
    assert figure.locator(".live").evaluate("each => each.layout.xaxis.range") == [0, 10]
    figure.get_by_role("button", name="All").tap()
    agree(whole["marks"], read(page, "live")["marks"], "marks")


def test_nothing_moves_by_itself_for_who_asked_for_no_motion(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=1280).page
    page.emulate_media(reduced_motion="reduce")
    figure = opened(page)
    running = "() => document.getAnimations().length"
    for name in BUTTONS[1:]:
        figure.get_by_role("button", name=name).click()
        assert page.evaluate(running) == 0, name
    layout = figure.locator(".live").evaluate("each => each.layout.transition ?? null")
    assert layout is None
    figure.get_by_role("button", name=BUTTONS[0]).press("Escape")
    expect(figure.locator(".live-open")).to_be_focused()
    assert page.evaluate(running) == 0


# --- names ---------------------------------------------------------------------------------------------

OVER = """() => [...document.querySelectorAll("svg.still")].flatMap(svg => {
  const box = each => each.getBoundingClientRect();
  const seen = each => getComputedStyle(each).visibility === "visible" && box(each).width > 0;
  const texts = [...svg.querySelectorAll("text")].filter(seen).map(each => [each.textContent, box(each)]);
  const meet = (one, other) =>
    Math.min(one.right, other.right) - Math.max(one.left, other.left) > 0.5 &&
    Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 0.5;
  const wide = document.documentElement.clientWidth;
  return [
    ...texts.filter(([, at]) => at.left < -0.5 || at.right > wide + 0.5).map(([text]) => ["off", text]),
    ...texts.flatMap(([text, at], number) =>
      texts.slice(number + 1).filter(([, other]) => meet(at, other)).map(([other]) => [text, other])),
  ];
})"""


@pytest.mark.parametrize("width", [320, *WIDTHS])
def test_no_text_of_a_still_lies_on_another_or_off_the_page(
    open_page: Open, site: Path, base: str, width: int
) -> None:
    pages = [each.parent for each in site.rglob("index.html") if 'class="still"' in each.read_text("utf-8")]
    assert len(pages) >= 2
    for folder in pages:
        page = open_page(base + folder.relative_to(site).as_posix() + "/", width=width).page
        for units in ("us", "metric"):
            page.locator(f"[data-shows-units={units}]").first.click()
            assert page.evaluate(OVER) == [], (folder, units)
        page.context.close()


# --- on a phone ----------------------------------------------------------------------------------------


def swiped(page: Page, selector: str, *, across: float = 0.5, down: float = 0.5) -> float:
    """How far the page scrolls when a finger moves up 150 px from a place in a box."""
    box = page.locator(selector).first.bounding_box()
    assert box is not None
    before = page.evaluate("scrollY")
    finger = page.context.new_cdp_session(page)
    x, y = box["x"] + box["width"] * across, box["y"] + box["height"] * down

    def touched(kind: str, *points: dict[str, float]) -> None:
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": list(points)})
        page.wait_for_timeout(20)

    touched("touchStart", {"x": x, "y": y})
    for moved in range(10, 160, 10):
        touched("touchMove", {"x": x, "y": y - moved})
    touched("touchEnd")
    page.wait_for_timeout(200)
    return float(page.evaluate("scrollY") - before)


@pytest.mark.parametrize(
    ("across", "down"), [(0.4, 0.5), (0.03, 0.5), (0.4, 0.92)], ids=["middle", "left", "below"]
)
def test_a_swipe_scrolls_the_page_over_the_still_and_over_the_live_chart(
    touch: Touch, base: str, across: float, down: float
) -> None:
    page = touch(base + REPORT)
    page.locator(".plot").first.scroll_into_view_if_needed()
    still = swiped(page, ".plot", across=across, down=down)
    assert 100 <= still <= 200
    assert page.locator("figure.chart").first.get_attribute("data-state") is None
    page.locator(".live-open").first.tap()
    figure = drawn(page)
    page.locator(".plot").first.scroll_into_view_if_needed()
    ranges = "each => [...each.layout.xaxis.range, ...each.layout.yaxis.range]"
    before = figure.locator(".live").evaluate(ranges)
    assert abs(swiped(page, ".live", across=across, down=down) - still) <= 30
    assert figure.locator(".live").evaluate(ranges) == before
    assert figure.get_attribute("data-zoomed") is None


def test_a_tap_reads_a_mark(touch: Touch, base: str) -> None:
    page = touch(base + REPORT)
    page.locator(".live-open").first.tap()
    figure = drawn(page)
    mark = next(
        each for each in reversed(read(page, "window")["marks"]) if each["stroke"] == "rgb(153, 153, 51)"
    )
    page.touchscreen.tap(mark["x"], mark["y"])
    expect(figure.get_by_role("status")).to_contain_text("60 min: ")


@pytest.mark.parametrize(
    ("hide", "show"),
    [("each.open = false", "each.open = true"), ("each.hidden = true", "each.hidden = false")],
    ids=["a fold", "a card or a tab"],
)
def test_a_box_that_is_shown_late_or_grows_is_filled(
    open_page: Open, base: str, hide: str, show: str
) -> None:
    """In what is not shown yet, or when a phone is turned: never wider than its box, and no higher for it."""
    page = open_page(base + REPORT).page
    page.evaluate(
        "const each = window.around = document.createElement("
        f"{'open' in hide} ? 'details' : 'section');"
        "const figure = document.querySelector('figure.chart');"
        f"figure.before(each); each.append(figure); {hide}".replace("True", "true").replace("False", "false")
    )
    with page.expect_response("**/plotly-*.min.js"):
        page.evaluate("document.querySelector('.live-open').click()")
    page.wait_for_timeout(3000)
    figure: Any = page.locator("figure.chart").first
    assert figure.get_attribute("data-state") == "loading"
    page.evaluate(f"const each = window.around; {show}")
    drawn(page)
    heights = set()
    for width in (360, 700, 320, 1280, 360):
        page.set_viewport_size({"width": width, "height": 800})
        expect(figure.locator(".main-svg").first).to_have_css(
            "width", f"{figure.locator('.plot').bounding_box()['width']:g}px"
        )
        heights.add(figure.locator(".live").bounding_box()["height"])
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert heights == {388}
    still = page.evaluate(READ, {"which": "still", "number": 0})
    agree(still["xticks"], read(page, "live")["xticks"], "xticks")


# --- light, dark, print --------------------------------------------------------------------------------


def channels(colour: str) -> list[float]:
    return [float(each) for each in colour[colour.index("(") + 1 : -1].split(",")][:3]


def luminance(colour: str) -> float:
    parts = [each / 255 for each in channels(colour)]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2, relative luminance)."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("way", ["device", "palette"])
def test_it_follows_light_and_dark(open_page: Open, base: str, way: str) -> None:
    page = open_page(base + REPORT).page
    for number in range(3):
        opened(page, number)
    light = read(page, "live")
    if way == "device":
        page.emulate_media(color_scheme="dark")
    else:
        page.locator("form[data-md-component=palette] label:visible").click()
        if page.evaluate("getComputedStyle(document.body).backgroundColor") != "rgb(18, 25, 30)":
            page.locator("form[data-md-component=palette] label:visible").click()
    expect(page.locator("body")).to_have_css("background-color", "rgb(18, 25, 30)")
    expect(page.locator(".live .points path.point").first).to_have_css("fill", "rgb(136, 204, 238)")
    dark = read(page, "live")
    for name in ("marks", "ytexts", "xtexts", "yticks"):
        assert [each["x"] for each in dark[name]] == [each["x"] for each in light[name]]
    for ground, found in (("rgb(255, 255, 255)", light), ("rgb(18, 25, 30)", dark)):
        assert all(contrast(each["fill"], ground) >= 4.5 for each in (*found["ytexts"], *found["xtexts"]))
        assert all(
            max(contrast(each[part], ground) for part in ("fill", "stroke")) >= 3 for each in found["marks"]
        )
        assert all(contrast(each["stroke"], ground) >= 4.5 for each in (*found["limits"], *found["stops"]))
    for number in range(3):
        agree(read(page, "still", number)["marks"], read(page, "live", number)["marks"], "marks")


def test_print_shows_the_still(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=680).page
    figure = opened(page)
    figure.get_by_role("button", name="Closer").click()
    page.emulate_media(media="print", color_scheme="dark")
    assert not figure.locator(".live").is_visible()
    assert not figure.locator(".live-bar").is_visible()
    for part in (".curves", ".names text", ".grid line", ".limit line"):
        assert (
            figure.locator(f".still {part}").first.evaluate("each => getComputedStyle(each).visibility")
            == "visible"
        ), part
    assert read(page, "still")["marks"][0]["fill"] == "rgb(51, 34, 136)"
    assert page.evaluate("document.documentElement.scrollWidth") <= 680
    page.emulate_media(media="screen", color_scheme="light")
    drawn(page)
    assert figure.locator(".live").is_visible()
    agree(read(page, "still")["xticks"][:1], read(page, "live")["xticks"][:1], "xticks")


# --- weight, other bundles, other benches --------------------------------------------------------------


def test_the_first_view_with_three_charts_is_light(open_page: Open, site: Path, base: str) -> None:
    visit = open_page(base + REPORT)
    assert visit.page.locator("figure.chart").count() == 3
    sizes = wire_bytes(site, visit, "/")
    assert not [path for path in sizes if "plotly" in path]
    assert sum(sizes.values()) <= BUDGET, sizes


def test_many_charts_cost_nothing_until_one_is_wanted(open_page: Open, base: str) -> None:
    visit = open_page(base + REPORT)
    page = visit.page
    page.evaluate(
        "const figure = document.querySelector('figure.chart');"
        "for (let at = 0; at < 27; at++) figure.after(figure.cloneNode(true))"
    )
    assert page.locator("figure.chart").count() == 30
    assert page.locator(".live").count() == 0
    opened(page, 17)
    assert page.locator(".live").count() == 1


def test_hostile_names_stay_text_in_a_live_chart(
    open_page: Open, serve_folder: Serve, tmp_path: Path
) -> None:
    hostile.write(tmp_path / "bench")
    visit = open_page(serve_folder(build(tmp_path / "bench", drafts=True), headers=HEADERS), width=1280)
    page = visit.page
    page.goto(page.url + "r/r1/")
    figure = opened(page)
    figure.locator(".live").focus()
    for key in ("ArrowUp", "ArrowUp", "ArrowLeft"):
        page.keyboard.press(key)
    assert "<script>alert(1)</script>" in figure.get_by_role("status").inner_text()
    expect(figure.locator(".hovertext")).to_contain_text("<script>alert(1)</script>")
    figure.get_by_role("button", name="Closer").click()
    assert figure.locator(".live :is(a, script, img, foreignObject)").count() == 0
    assert page.evaluate("document.querySelectorAll('.live script').length") == 0
    assert visit.troubles == []
    assert visit.violations() == []


def test_the_data_is_plain_numbers_and_nothing_packed(site: Path) -> None:
    scripts = sorted((site / REPORT).glob("*/charts/*.js"))
    assert [each.stem for each in scripts] == ["rise-40", "rise-50", "rise"]
    for script in scripts:
        text = script.read_text("utf-8")
        made = json.loads(text.removeprefix("document.currentScript.made=").removesuffix(";"))
        assert "bdata" not in text
        assert "src" not in {key for trace in made["data"] for key in trace}
        assert {trace["type"] for trace in made["data"]} == {"scatter"}
