"""Results by an older version of a method: in the ranking with their version told, or out of it and why."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import Any

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.report import evaluate
from generator.evaluation.versions import versions_of, versions_told
from generator.records.bench import Bench, load
from tests.pages import shelf
from tests.pages.rendered import Parsed, html_of, parsed
from tests.pages.sites import made

REPORT = "connectors-10a"
BY_1, BY_2 = ("by version\N{NO-BREAK SPACE}1 of the method", "by version\N{NO-BREAK SPACE}2 of the method")
FIRST = shelf.template("methods/connector-heating/1.yml")
AGREES = "changes: a longer table of readings\ncomparable-with: [1]\n"


def bench_of(folder: Path, said: str = AGREES) -> Bench:
    """Quorsby's runs are by version 2, Halvenor's in both reports by version 1."""
    shelf.write(folder, shelf.FILES | {"methods/connector-heating/2.yml": FIRST + said})
    for run in folder.glob(f"reports/{REPORT}/runs/*quorsby*.yml"):
        text = run.read_text(encoding="utf-8")
        run.write_text(text.replace("connector-heating/1", "connector-heating/2"), encoding="utf-8")
    bench = load(folder)
    assert bench.faults == ()
    return bench


@pytest.fixture(scope="module")
def agreeing(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return bench_of(tmp_path_factory.mktemp("agreeing") / "b")


@pytest.fixture(scope="module")
def pages(agreeing: Bench) -> dict[str, Parsed]:
    return {page.uri: Parsed(html_of(page)) for page in made(agreeing).pages}


def rows(page: Parsed) -> dict[str, str]:
    """The bars of a page by what they begin with."""
    return {each.text.partition(" ")[0]: each.text for each in page.all("div", role="row", class_="bar")}


def test_each_bar_and_each_card_says_its_version(pages: dict[str, Parsed], agreeing: Bench) -> None:
    (measure,) = evaluate(agreeing, agreeing.reports[REPORT]).measures
    assert [versions_of(each) for each in measure.items] == [(1,), (2,)]
    assert [each.place is not None for each in measure.items] == [True, True], "both are ranked"
    page = pages[f"r/{REPORT}/index.md"]
    plain = " ".join(BY_1.split()), " ".join(BY_2.split())
    bars = rows(page)
    assert plain[0] in bars["Halvenor"]
    assert plain[1] in bars["Quorsby"]
    cards = page.text.split("Each item#", 1)[1]
    assert f"mean of 2 pieces, {plain[0]}" in cards
    assert f"mean of 2 pieces, {plain[1]}" in cards
    assert "By another version" not in page.text


def test_where_all_are_by_one_version_nothing_is_said_of_it(
    pages: dict[str, Parsed], agreeing: Bench
) -> None:
    (measure,) = evaluate(agreeing, agreeing.reports["grey-lever"]).measures
    assert [versions_told(measure, each) for each in measure.items] == [()]
    assert "of the method" not in rows(pages["r/grey-lever/index.md"])["Halvenor"]


def test_the_comparison_and_the_item_say_it_too(pages: dict[str, Parsed]) -> None:
    cells = {
        each.text.partition(" ")[0]: each.text for each in pages["compare/index.md"].all("tr") if each.text
    }
    # Of Halvenor the newer report stands here, whose figures are all by version 1.
    assert "by version 1 of the method" in cells["Halvenor"]
    assert "by version 2 of the method" in cells["Quorsby"]
    assert "by version 1 of the method" in pages["i/halvenor-c2/index.md"].text
    assert "by version 2 of the method" in pages["i/quorsby-q2/index.md"].text


def test_files_and_programs_are_told(agreeing: Bench) -> None:
    (file,) = (each for each in made(agreeing).downloads if each.uri == f"r/{REPORT}/1/data/results.csv")
    told = {
        (row["item"], row["piece"]): row["method"]
        for row in csv.DictReader(io.StringIO(file.content.decode(), newline=""))
    }
    assert told["halvenor-c2", ""] == told["halvenor-c2", "A"] == "connector-heating/1"
    assert told["quorsby-q2", ""] == told["quorsby-q2", "B"] == "connector-heating/2"
    found: Any = report_as_data(evaluate(agreeing, agreeing.reports[REPORT]))
    assert [each["versions"] for each in found["measures"][0]["figures"]] == [[1], [2]]


def test_versions_that_do_not_agree_are_not_ranked_together_and_the_page_says_why(tmp_path: Path) -> None:
    bench = bench_of(tmp_path / "b", "changes: a smaller box\n")
    (measure,) = evaluate(bench, bench.reports[REPORT]).measures
    by_item = {each.item: each for each in measure.items}
    assert by_item["halvenor-c2"].figure is None
    assert by_item["halvenor-c2"].place is None
    assert measure.pairs == ()
    page = parsed(next(each for each in made(bench).pages if each.uri == f"r/{REPORT}/index.md"))
    assert "tested by another method" in rows(page)["Halvenor"]
    assert "version 2 does not say that results of version 1 may stand beside its own" in page.text
    assert "What changed: a smaller box." in page.text
    assert "by version 1 of the method" not in page.text
