"""What pages tell of an item's pieces beside their mean."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.report import evaluate
from generator.pages.site import Page
from generator.records.bench import load
from tests.evaluation.pulls import Pulls
from tests.evaluation.small import Small, table
from tests.evaluation.test_scatter import STILL
from tests.pages.rendered import parsed
from tests.pages.sites import made

REPORT = "r/r/index.md"


def pages(bench: Small) -> dict[str, Page]:
    bench.finish()
    return {page.uri: page for page in made(load(bench.root)).pages}


def text(page: Page) -> str:
    return " ".join(parsed(page).text.split())


@pytest.fixture
def pulled(tmp_path: Path) -> Pulls:
    """Six pieces of which one stands out, three of which one differs and which scatter more, and two."""
    bench = Pulls(tmp_path)
    bench.write("instruments/scale.yml", STILL)
    rows = {
        "tessvik": (300.0, 302.0, 301.0, 303.0, 302.0, 340.0),
        "veldrun": (200.0, 201.0, 280.0),
        "okvarn": (100.0, 101.0),
    }
    for item, values in rows.items():
        for letter, each in zip("ABCDEF", values, strict=False):
            bench.pull(item, letter, f"{each} N")
    bench.pull("okvarn", "A", "100.5 N", termination=2)
    return bench


def test_a_report_tells_what_pieces_tell(pulled: Pulls) -> None:
    said = text(pages(pulled)[REPORT])
    assert "Tessvik X, 6 pieces (6 runs):" in said
    assert "Okvarn X, 2 pieces (3 runs on 3 terminations):" in said
    assert "Piece F stands out from the others (Grubbs’ test, 5 %). It is in the mean all the same." in said
    assert "Veldrun X scatters more than the others: its 3 pieces by 46 N (10 lbf), the others’ 8 by" in said
    assert "up to 10 in 100 reports of like items would show an order that is not there" in said


def test_an_items_page_and_its_how_page_tell_of_pieces_to_come(pulled: Pulls) -> None:
    made_pages = pages(pulled)
    item, how = text(made_pages["i/tessvik/index.md"]), text(made_pages["r/r/1/how/tessvik/index.md"])
    ahead = evaluate(load(pulled.root), load(pulled.root).reports["r"]).measures[0].items[0].ahead
    assert ahead is not None
    assert ahead.most is not None
    low, high, limit = (round(each) for each in (ahead.next.low, ahead.next.high, ahead.most.limit))
    assert f"The next piece of the same purchase is to be expected at {low} to {high} N" in item
    assert f"Of all pieces of that purchase 9 in 10 lie above {limit} N" in item
    assert f"to {ahead.next.high:.3f} N" in how
    assert f"above {ahead.most.limit:.3f} N" in how
    assert "G = 2.037, above 1.887, so it stands out" in how


def test_a_rise_is_told_over_the_air_and_without_an_offset(tmp_path: Path) -> None:
    bench = Small(tmp_path)
    for letter, rise in (("A", 40.0), ("B", 42.0), ("C", 44.0)):
        bench.run("tessvik", letter, table(rise))
    report = pages(bench)[REPORT]
    found = evaluate(load(bench.root), load(bench.root).reports["r"]).measures[0].items[0].ahead
    assert found is not None
    low, high = found.next.low, found.next.high
    card = text(report)
    assert (
        f"to be expected at {low:.0f} to {high:.0f} °C ({low * 1.8:.0f} to {high * 1.8:.0f} °F) above" in card
    )
    assert "of that purchase 9 in 10" not in card


def test_few_pieces_tell_nothing_of_others(tmp_path: Path) -> None:
    bench = Small(tmp_path)
    for letter in "AB":
        bench.run("tessvik", letter, table(40.0))
    card = text(pages(bench)[REPORT])
    assert "The next piece" not in card
    assert "scatter more" not in card
    for letter in "AB":
        bench.run("veldrun", letter, table(50.0))
    assert "No item was found to scatter more than the others" in text(pages(bench)[REPORT])


def test_pairs_say_by_which_spread_they_are_compared(pulled: Pulls) -> None:
    for letter, each in zip("ABCDE", (400.0, 401.0, 402.0, 403.0, 404.0), strict=True):
        pulled.pull("grenlo", letter, f"{each} N")
    said = text(pages(pulled)[REPORT])
    # Six pieces and five: Welch; every other pair has a side of fewer than five.
    assert "Compared 1 pair by each item’s own spread (Welch’s test); 5 pairs by the pooled spread" in said


def test_controls_that_do_not_agree_are_told_on_the_card_and_step_by_step(tmp_path: Path) -> None:
    bench = Small(tmp_path)
    bench.run("control", "", table(15.0))
    bench.run("tessvik", "A", table(40.0))
    bench.run("control", "", table(25.0))
    made_pages = pages(bench)
    assert "half of what they differ by, 5 °C (9 °F), is in the ±." in text(made_pages[REPORT])
    assert "±\N{NO-BREAK SPACE}5.000\N{NO-BREAK SPACE}K (rectangular)".replace("\N{NO-BREAK SPACE}", " ") in (
        text(made_pages["r/r/1/how/tessvik/index.md"])
    )
