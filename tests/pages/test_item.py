"""An item's own page: outcome first, its stocks, ratings, pieces, prices, every result of every report."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.evaluation.report import evaluate
from generator.pages.site import Page
from generator.records.bench import Bench, load
from tests.pages import shelf
from tests.pages.rendered import Parsed, parsed, split
from tests.pages.sites import made

STOCKED = "i/halvenor-c2/index.md"
SHELVED = "i/abbotry-z9/index.md"


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    found = load(shelf.write(tmp_path_factory.mktemp("item") / "bench"))
    assert found.faults == ()
    return found


@pytest.fixture(scope="module")
def site(bench: Bench) -> dict[str, Page]:
    return {page.uri: page for page in made(bench).pages}


@pytest.fixture(scope="module")
def stocked(site: dict[str, Page]) -> Parsed:
    return parsed(site[STOCKED])


def part(page: Parsed, heading: str, end: str = "") -> str:
    """The text from one heading to another."""
    text = page.text.split(f"{heading}#", 1)[1]
    return text.split(f"{end}#", 1)[0] if end else text


def rows(page: Parsed, caption: str) -> list[list[str]]:
    """The cells of a table's rows, by the words of its caption."""
    html = page.all("caption")
    assert any(caption in each.text for each in html)
    found: list[list[str]] = []
    inside = False
    for each in page.elements:
        if each.tag == "caption":
            inside = caption in each.text
        elif inside and each.tag == "tr" and "tbody" in each.inside:
            found.append([])
        elif inside and each.tag in {"th", "td"} and "tbody" in each.inside:
            found[-1].append(each.text)
    return found


def test_every_item_of_the_bench_has_a_page_named_after_it(site: dict[str, Page]) -> None:
    assert {uri for uri in site if uri.startswith("i/")} == {
        STOCKED, SHELVED, "i/quorsby-q2/index.md",
    }  # fmt: skip
    head, _ = split(site[STOCKED])
    assert (head["template"], head["title"]) == ("item.html", "Halvenor C2")
    assert site[STOCKED].updated == "2026-03-10"
    assert site[SHELVED].updated == ""


def test_disclosure_caution_outcome_and_stock_come_first_in_this_order(stocked: Parsed) -> None:
    order = [
        "Demonstration data · item",
        "I bought 3 of the 4 pieces. One piece was sent to me by Halvenor.",
        "Halvenor C2",
        "Warning. A hot joint can start a fire. Don’t copy this test.",
        "What was found#",
        "The 2 pieces we tested: Below the figure the maker prints (45 °C (81 °F) above the air)",
        "Which stock have I got?#",
        "Cautions#",
        "What is said of it#",
        "Every result#",
        "What it was not tested for#",
    ]
    places = [stocked.text.index(each) for each in order]
    assert places == sorted(places)


def test_the_figures_are_the_evaluation_s(bench: Bench, stocked: Parsed) -> None:
    told = part(stocked, "What was found", "Which stock")
    for key, count in (("grey-lever", 2), ("connectors-10a", 2)):
        finding = evaluate(bench, bench.reports[key])
        item = next(each for each in finding.measures[0].items if each.item == "halvenor-c2")
        assert item.figure is not None
        assert item.n == count
        # Two significant digits of the ±, GUM 7.2.6.
        places = 0 if item.figure.half_width >= 9.95 else 1
        figure = f"{item.figure.value:.{places}f} ± {item.figure.half_width:.{places}f}"
        assert figure in told.replace("\u202f", " ")


def test_the_newest_report_stands_first_and_each_figure_says_its_stock(stocked: Parsed) -> None:
    told = part(stocked, "What was found", "Which stock")
    grey, first = told.index("as sold since March 2026: mean"), told.index("first stock: mean")
    assert told.index("Is the connector with the grey lever as cool?") > grey
    assert grey < first < told.index("Which two-way lever connector stays cooler")
    assert "draft of edition 1, 10 March 2026" in told


def test_stocks_are_told_by_what_tells_them(stocked: Parsed) -> None:
    told = part(stocked, "Which stock have I got?", "Cautions")
    assert "first stock: what was sold before any change that we noticed. Tested: A and B." in told
    assert "as sold since March 2026, sold since March 2026: grey lever, code 26. Tested: C and D." in told


def test_an_item_of_one_stock_says_so(site: dict[str, Page]) -> None:
    told = part(parsed(site["i/quorsby-q2/index.md"]), "Which stock have I got?")
    assert told.strip().startswith("All 2 pieces that we got count as one stock: no change of the part")
    alone = part(parsed(site[SHELVED]), "Which stock have I got?")
    assert alone.strip().startswith("We got one piece, and no change of the part")


def test_ratings_have_their_condition_standing_and_source(stocked: Parsed) -> None:
    told = part(stocked, "What is said of it", "Pieces, and")
    assert "current16 A, at 40 °C of air claimed: printed on the body" in told.replace("\xa0", " ")


def test_every_piece_is_listed_the_untested_too(stocked: Parsed) -> None:
    found = rows(stocked, "Pieces of Halvenor C2")
    assert [row[0] for row in found] == ["A", "B", "C", "D", "E"]
    assert [row[-1] for row in found] == ["yes", "yes", "yes", "yes", "not tested"]
    assert found[0][1:3] == ["bought (hardware shop), 8 January 2026", "C2, L7, 2.1 g (0.074 oz)"]
    assert found[2][1:5] == [
        "sent to me by Halvenor, 2 March 2026", "not recorded", "not recorded", "as sold since March 2026",
    ]  # fmt: skip


def test_prices_are_per_piece_over_time(stocked: Parsed) -> None:
    assert rows(stocked, "Prices of") == [
        ["8 January 2026", "0.55 € (pack of 10)", "hardware shop", "A, B"],
        ["4 March 2026", "0.60 €", "web shop", "D, E"],
    ]


def test_every_result_of_every_report_is_a_row(stocked: Parsed) -> None:
    found = rows(stocked, "Every result")
    assert [row[0] for row in found] == 2 * ["Hotter than the air after 30 min at 10 A"]
    assert [re.findall(r"\b([A-E]) \d", row[2]) for row in found] == [["C", "D"], ["A", "B"]]
    assert "Below the figure the maker prints" in found[0][1]
    assert "no limit is held against it" in found[1][1]
    assert "tested 12 January 2026 to 13 January 2026" in found[1][3]


def test_links_lead_to_the_item_s_part_of_each_report(site: dict[str, Page]) -> None:
    links = re.findall(r'href="([^"#]*)#item-halvenor-c2"', site[STOCKED].slots["results"])
    assert links == ["../../r/grey-lever/", "../../r/connectors-10a/"]
    assert 'href="../../m/connector-heating/1/"' in site[STOCKED].slots["results"]


def test_other_names_and_what_was_not_tested(stocked: Parsed) -> None:
    assert (
        part(stocked, "Also sold as")
        .strip()
        .startswith("Brindlow L2, since November 2025. How that is known: the same")
    )
    told = part(stocked, "What it was not tested for")
    assert told.strip().startswith("Pull-out force: not tested ageing: these tests cannot show it")


def test_an_item_of_no_report_is_said_to_be_untested(site: dict[str, Page]) -> None:
    page = parsed(site[SHELVED])
    assert "No piece has been tested yet." in page.text
    assert part(page, "What was found").strip().startswith("Not tested in any report here.")
    assert "Hotter than the air: not tested" in page.text
    assert page.all("p", class_="caution") == []
    assert page.all("span", class_="figure") == []


def test_an_opinion_stands_in_no_result(site: dict[str, Page]) -> None:
    assert "solid" in parsed(site["r/grey-lever/index.md"]).text
    for uri in (STOCKED, "compare/index.md"):
        assert "solid" not in parsed(site[uri]).text


def test_a_run_that_was_stopped_gives_no_mean(tmp_path: Path) -> None:
    stopped = shelf.heating("halvenor-c2", "D", 60.0) + "stopped: {at: 31 min, because: stop limit}\n"
    root = shelf.write(tmp_path / "bench", {**shelf.FILES, "grey-lever/runs/halvenor-d.yml": stopped})
    path = root / "reports" / "grey-lever" / "runs" / "halvenor-d.yml"
    text = path.read_text(encoding="utf-8").replace("31 min", "25 min").split("  30 | ")
    path.write_text(text[0] + text[1].split("\n", 1)[1], encoding="utf-8")
    found = load(root)
    assert found.faults == ()
    page = parsed({each.uri: each for each in made(found).pages}[STOCKED])
    told = part(page, "What was found", "Which stock")
    assert "No mean is given: 1 of 2 pieces stopped." in told.replace("\xa0", " ")
    assert "D stopped at 25 min" in rows(page, "Every result")[0][2].replace("\xa0", " ")
