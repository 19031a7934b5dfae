"""The comparison: one row an item, the columns of bench.yml, and in each empty cell the reason."""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path

import pytest

from generator.evaluation.report import evaluate
from generator.pages.compare import Cell, CompareView, compare_view
from generator.pages.report import report_view
from generator.pages.results import Reported
from generator.pages.site import Page
from generator.records.bench import Bench, load
from tests.pages import shelf
from tests.pages.factory import demo, demo_site
from tests.pages.rendered import parsed
from tests.pages.sites import made

URI = "compare/index.md"


def reported(bench: Bench) -> list[Reported]:
    found = []
    for _, report in sorted(bench.reports.items()):
        finding = evaluate(bench, report)
        found.append(Reported(report, finding, report_view(bench, report, finding)))
    return found


def bench_of(root: Path, files: dict[str, str] | None = None, settings: str = shelf.COMPARISON) -> Bench:
    found = load(shelf.write(root, {**shelf.FILES, **(files or {})}, settings))
    assert found.faults == ()
    return found


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return bench_of(tmp_path_factory.mktemp("compare") / "bench")


@pytest.fixture(scope="module")
def view(bench: Bench) -> CompareView:
    return compare_view(bench, reported(bench))


def page_of(bench: Bench) -> Page:
    return next(each for each in made(bench).pages if each.uri == URI)


def cell(view: CompareView, item: str, column: int = 0) -> Cell:
    return next(row for row in view.rows if row.id == item).cells[column]


def test_every_item_is_a_row_by_name_and_every_row_has_every_column(view: CompareView) -> None:
    assert [row.name for row in view.rows] == ["Abbotry Z9", "Halvenor C2", "Quorsby Q2"]
    assert [head.title for head in view.columns] == [
        "Hotter than the air after 30 min at 10 A",
        "Pull-out force",
    ]
    assert {len(row.cells) for row in view.rows} == {2}
    assert view.version == 2


def test_a_cell_holds_the_newest_stock_s_result(view: CompareView) -> None:
    result = cell(view, "halvenor-c2").result
    assert result is not None
    assert result.report.question == "Is the connector with the grey lever as cool?"
    assert (result.stock, result.n) == ("as sold since March 2026", 2)


def test_an_older_stock_tested_later_does_not_take_the_newer_one_s_place(tmp_path: Path) -> None:
    """What is sold now decides; not the day of the test."""
    again = shelf.heating("halvenor-c2", "A", 30.0, date="2026-05-01")
    late = shelf.LATER.split("opinions")[0]
    found = bench_of(tmp_path / "bench", {"old-again/report.yml": late, "old-again/runs/a.yml": again})
    result = cell(compare_view(found, reported(found)), "halvenor-c2").result
    assert result is not None
    assert result.stock == "as sold since March 2026"


def test_empty_cells_say_why(view: CompareView) -> None:
    assert [cell(view, row.id, 1).why_not for row in view.rows] == ["no-run"] * 3
    assert cell(view, "abbotry-z9") == Cell(None, "no-run", "")


def test_a_version_that_does_not_agree_stands_as_another_method(tmp_path: Path) -> None:
    old = shelf.template("methods/connector-heating/1.yml")
    newer = old.replace("purpose:", "changes: A larger box; results do not agree with version 1.\npurpose:")
    runs = {
        f"grey-lever/runs/halvenor-{piece.lower()}.yml": shelf.heating(
            "halvenor-c2", piece, 18.0, method="connector-heating/2"
        )
        for piece in "CD"
    }
    found = bench_of(tmp_path / "apart", {"methods/connector-heating/2.yml": newer, **runs})
    apart = compare_view(found, reported(found))
    assert cell(apart, "halvenor-c2").why_not == ""
    assert cell(apart, "quorsby-q2").why_not == "other-method"
    assert cell(apart, "quorsby-q2").sort == ""
    assert "tested by another method" in parsed(page_of(found)).text

    beside = newer.replace("purpose:", "comparable-with: [1]\npurpose:")
    found = bench_of(tmp_path / "beside", {"methods/connector-heating/2.yml": beside, **runs})
    assert cell(compare_view(found, reported(found)), "quorsby-q2").why_not == ""


def test_a_count_stands_in_a_cell_with_its_bound_and_ranks_nothing(tmp_path: Path) -> None:
    head = "method: connector-pull/1\nitem: halvenor-c2\nspecimen: C\ndate: 2026-03-11\n"
    files = {
        "grey-lever/report.yml": shelf.LATER.replace("measures: [rise]", "measures: [rise, opened]"),
        "grey-lever/runs/opened-c.yml": f"{head}counts: {{opened: 0 of 50}}\n",
    }
    columns = shelf.COMPARISON.replace("measure: pull}", "measure: opened}")
    found = bench_of(tmp_path / "bench", files, columns)
    page = parsed(page_of(found)).text.replace("\N{NO-BREAK SPACE}", " ")
    # 1 − 0.025^(1/50); of one piece 97.5 %.
    assert "0 of 50 on 1 piece so up to 7.1 % of all such on these pieces" in page
    assert "at least once on 0 of 1 piece, so on up to 97.5 % of all pieces like them" in page
    view = compare_view(found, reported(found))
    assert [each.sorts for each in view.columns] == [True, False]
    assert all(row.cells[1].sort == "" for row in view.rows)
    assert "Openings that held: low to high" not in page


def test_figures_carry_what_a_script_sorts_by_and_empty_cells_nothing(
    view: CompareView, bench: Bench
) -> None:
    html = page_of(bench).slots["table"]
    sorts = [float(each) for each in re.findall(r'data-sort="([^"]*)"', html)]
    values = [
        each.result.value for row in view.rows for each in row.cells if each.result and not each.why_not
    ]
    assert sorts == pytest.approx(values, rel=1e-5)
    order = html[html.index('name="sort"') :]
    options = re.findall(r'<option value="([^"]*)"', order)
    assert options == ["name", "0-up", "0-down", "1-up", "1-down"]


def test_the_tools_stay_hidden_until_a_script_shows_them(bench: Bench) -> None:
    form = parsed(page_of(bench)).all("form")[0]
    assert "hidden" in form.attributes
    assert len(parsed(page_of(bench)).all("tr")) == 3 + len(compare_view(bench, reported(bench)).groups)


def test_items_that_were_tested_alike_stand_together_and_by_what_they_were_tested(view: CompareView) -> None:
    told = [(group.key, [row.id for row in group.rows]) for group in view.groups]
    assert told == [("connector-heating", ["halvenor-c2", "quorsby-q2"]), ("untested", ["abbotry-z9"])]
    assert [head.key for head in view.groups[0].columns] == ["connector-heating"]
    assert view.groups[0].left_out == ("Pull-out force",)
    assert view.groups[1].columns == ()
    assert sorted(row.id for group in view.groups for row in group.rows) == [row.id for row in view.rows]


def test_the_demo_s_kinds_of_product_stand_apart_and_few_cells_are_empty() -> None:
    page = parsed(next(each for each in demo_site().pages if each.uri == URI))
    text = page.text.replace("\xa0", " ")
    assert "not tested by a method" not in text
    groups = [
        each.attributes["data-group"] for each in page.all("section") if "data-group" in each.attributes
    ]
    assert groups[0] == "closed-box-heating"
    assert len(groups) == len(set(groups)) > 1
    empty = [each for each in page.all("td") if "not tested" in " ".join(each.texts)]
    assert len(empty) == 0


def test_a_wide_table_scrolls_in_a_region_that_has_a_name_and_takes_the_keyboard(bench: Bench) -> None:
    page = parsed(page_of(bench))
    heads = {each.attributes["id"] for each in page.all("h2") if "id" in each.attributes}
    regions = [each for each in page.all("div") if each.attributes.get("role") == "region"]
    assert len(regions) == len(page.all("table")) == 2
    for region in regions:
        assert region.attributes["tabindex"] == "0"
        assert region.attributes["aria-labelledby"] in heads


def test_figures_of_a_withdrawn_report_leave_and_the_cell_says_so(bench: Bench) -> None:
    every = [
        dataclasses.replace(
            each,
            view=dataclasses.replace(
                each.view, standing=dataclasses.replace(each.view.standing, reason="withdrawal")
            ),
        )
        for each in reported(bench)
    ]
    view = compare_view(bench, every)
    assert cell(view, "halvenor-c2").why_not == "withdrawn"
    assert cell(view, "halvenor-c2").result is None
    assert cell(view, "abbotry-z9").why_not == "no-run"


def test_a_bench_without_columns_lists_its_items(tmp_path: Path) -> None:
    found = bench_of(tmp_path / "bench", settings="")
    text = parsed(page_of(found)).text
    assert "No columns are set yet" in text
    assert all(name in text for name in ("Abbotry Z9", "Halvenor C2", "Quorsby Q2"))


def test_disclosure_and_caution_stand_before_the_first_figure(bench: Bench) -> None:
    elements = parsed(page_of(bench)).elements
    places = [
        next(at for at, each in enumerate(elements) if name in each.attributes.get("class", "").split())
        for name in ("disclosure", "caution", "figure")
    ]
    assert places == sorted(places)


def test_the_page_says_that_its_order_is_no_ranking(bench: Bench) -> None:
    assert "The order is by figures alone and no ranking" in parsed(page_of(bench)).text


def test_the_demo_s_cells_are_those_of_its_report() -> None:
    text = parsed(next(each for each in demo_site().pages if each.uri == URI)).text.replace("\xa0", " ")
    finding = evaluate(demo(), demo().reports["fuse-holders-30a"])
    for item in finding.measure("rise").items:
        if item.figure is not None:
            assert f"{item.figure.value:.1f}" in text
    assert "1 of 3 pieces stopped" in text
    assert "one piece only: the ± is for the meter" in text


def test_columns_stand_as_the_settings_have_them(bench: Bench) -> None:
    settings = bench.settings
    assert settings.comparison is not None
    turned = settings.comparison.model_copy(update={"columns": settings.comparison.columns[::-1]})
    other = dataclasses.replace(bench, settings=settings.model_copy(update={"comparison": turned}))
    assert compare_view(other, reported(other)).columns[0].title == "Pull-out force"
