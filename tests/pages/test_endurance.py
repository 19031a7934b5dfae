"""Endurance from the record to every page: survivors are no failings, and a few pieces promise little."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from statsmodels.duration.survfunc import SurvfuncRight
from statsmodels.stats.proportion import proportion_confint

from generator.evaluation.as_data import report_as_data
from generator.evaluation.counted import ItemEndurance
from generator.evaluation.report import evaluate
from generator.history.figures import figures_of
from generator.history.moved import drifts
from generator.pages.explain import explained_count
from generator.pages.site import Page, Site
from generator.records.bench import Bench, load
from tests.evaluation.lids import Lids
from tests.pages.rendered import Parsed
from tests.pages.sites import made

MEASURE = "  - {id: lasted, kind: endurance, cycles: openings, failure: the lid no longer holds}\ncannot-show"


@pytest.fixture
def lids(tmp_path: Path) -> Lids:
    lids = Lids(tmp_path)
    path = lids.root / "reports/methods/open/1.yml"
    path.write_text(path.read_text(encoding="utf-8").replace("cannot-show", MEASURE), encoding="utf-8")
    lids.report = lids.report.replace("main: opened", "main: lasted").replace("[opened, by", "[lasted, by")
    return lids


def bench_of(lids: Lids, *lives: str, **stocks: str) -> Bench:
    for letter, life in zip("ABCDEF", lives, strict=False):
        lids.look("tessvik", letter, f"counts: {{lasted: {life}}}")
    lids.finish(**stocks)
    bench = load(lids.root)
    assert bench.faults == ()
    return bench


def item_of(bench: Bench) -> ItemEndurance:
    (found,) = evaluate(bench, bench.reports["r"]).endurances
    return found.items[0]


def page_of(site: Site, uri: str) -> Page:
    return next(page for page in site.pages if page.uri == uri)


def plainly(text: str) -> str:
    return " ".join(Parsed(text).text.replace("\N{NO-BREAK SPACE}", " ").split())


def test_an_edition_keeps_what_each_piece_came_to(lids: Lids) -> None:
    """Or a life that was changed would move nothing that is published."""
    bench = bench_of(lids, "broke at 1200", "over 2000", "over 2000")
    (kept,) = figures_of(evaluate(bench, bench.reports["r"]))
    assert kept.printed == "A broke at 1200, B over 2000, C over 2000"
    assert (kept.item, kept.measure, kept.outcome, kept.pieces) == ("tessvik", "lasted", "endured", 3)
    (moved,) = drifts([kept], [replace(kept, counted="A broke at 1201, B over 2000, C over 2000")])
    assert moved.printed


def test_where_none_failed_before_one_count_the_bound_is_exact(lids: Lids) -> None:
    item = item_of(bench_of(lids, "over 2000", "over 2000", "over 2000"))
    assert (item.until, item.steps) == (2000, ())
    assert item.failed is not None
    low, high = proportion_confint(0, 3, method="beta")
    assert (item.failed.k, item.failed.n) == (0, 3)
    assert (item.failed.low, item.failed.high) == pytest.approx((low, high), abs=1e-8)


def test_failings_before_the_one_count_of_all_survivors_are_exact_too(lids: Lids) -> None:
    item = item_of(bench_of(lids, "broke at 1200", "over 2000", "over 2000", "broke at 2000"))
    assert item.failed is not None
    assert (item.failed.k, item.failed.n, item.until, item.steps) == (2, 4, 2000, ())


def test_survivors_that_left_early_are_taken_step_by_step(lids: Lids) -> None:
    """Against statsmodels' product-limit estimate and its Greenwood error."""
    item = item_of(bench_of(lids, "broke at 1200", "over 1500", "broke at 1800", "over 2000", "over 900"))
    assert (item.failed, item.until) == (None, None)
    peer = SurvfuncRight(np.array([1200, 1500, 1800, 2000, 900]), np.array([1, 0, 1, 0, 0]))
    assert [each.surviving for each in item.steps] == pytest.approx(list(peer.surv_prob))
    assert [each.cycles for each in item.steps] == list(peer.surv_times)
    for step, error in zip(item.steps, peer.surv_prob_se, strict=True):
        reach = 1.959964 * error / abs(step.surviving * np.log(step.surviving))
        assert step.low == pytest.approx(step.surviving ** np.exp(reach), rel=1e-5)
        assert step.high == pytest.approx(step.surviving ** np.exp(-reach), rel=1e-5)


def test_a_piece_has_one_life(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {lasted: over 1000}")
    lids.look("tessvik", "A", "counts: {lasted: broke at 1400}", day=2)
    lids.look("tessvik", "B", "counts: {lasted: over 500}")
    lids.look("tessvik", "B", "counts: {lasted: over 2000}", day=2)
    item = item_of(bench_of(lids))
    assert {letter: (life.cycles, life.failed) for letter, life in item.lives} == {
        "A": (1400, True),
        "B": (2000, False),
    }


def test_an_older_stock_is_not_counted(lids: Lids) -> None:
    bench = bench_of(lids, "broke at 10", "over 2000", tessvik_B="new")
    item = item_of(bench)
    assert item.failed is not None
    assert (item.failed.k, item.failed.n) == (0, 1)


def test_it_answers_and_stands_on_every_page(lids: Lids) -> None:
    site = made(bench_of(lids, "over 2000", "over 2000", "over 2000"))
    page = page_of(site, "r/r/index.md")
    said = "0 of 3 broke within 2000 openings so up to 71 % of all pieces like them"
    assert "0 of 3 broke within 2000 openings (up to 71" in page.markdown.replace("&#160;", " ")
    assert said in plainly(page.slots["table-lasted"])
    assert said in plainly(page.slots["card-1"])
    assert "A whole after 2000" in plainly(page.slots["table-lasted"])
    own = page_of(site, "i/tessvik/index.md")
    assert said in plainly(own.slots["found"])
    assert said in plainly(own.slots["results"])
    assert "How many openings they last. Broken: the lid no longer holds." in plainly(
        page.slots["table-lasted"]
    )


def test_the_steps_are_told_with_their_intervals(lids: Lids) -> None:
    bench = bench_of(lids, "broke at 1200", "over 1500", "broke at 1800", "over 2000")
    site = made(bench)
    text = plainly(page_of(site, "r/r/index.md").slots["table-lasted"])
    assert "2 of 4 broke, 2 outlasted the test" in text
    assert "beyond 1200 openings: 75 % of all pieces like them (13 to 96.1 %)" in text
    finding = evaluate(bench, bench.reports["r"])
    steps = " ".join(explained_count(bench, finding, "lasted", "r/run-001").split())
    assert "At 1200: 1 of the 4 still watched broke: 1.00000 × (1 − 1/4) = 0.75000" in steps
    assert "At 1800: 1 of the 2 still watched broke: 0.75000 × (1 − 1/2) = 0.37500" in steps
    file = next(each for each in site.downloads if each.uri.endswith("counts.csv"))
    rows = list(csv.DictReader(io.StringIO(file.content.decode())))
    beyond = [row for row in rows if row["of"] == "pieces that last beyond"]
    assert [(row["cycles"], row["share"], row["n"]) for row in beyond] == [
        ("1200.0", "0.75", "4"),
        ("1800.0", "0.375", "2"),
    ]
    assert [(row["cycles"], row["answer"]) for row in rows if row["run"]] == [
        ("1200", "broke"),
        ("1500", "whole"),
        ("1800", "broke"),
        ("2000", "whole"),
    ]
    endurances = report_as_data(finding)["endurances"]
    assert isinstance(endurances, list)
    assert [each["share"] for each in endurances[0]["items"][0]["survival"]] == [0.75, 0.375]
