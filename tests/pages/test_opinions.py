"""What the reviewer thinks stands marked and by itself: in no figure, table, file or answer of a program."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from generator.evaluation.as_data import report_as_data
from generator.evaluation.report import evaluate
from generator.pages.site import Site
from generator.records.bench import Bench, load
from tests.pages import shelf
from tests.pages.rendered import Parsed, html_of, parsed
from tests.pages.sites import made

ITEM, REPORT, WHY = "Feelssolidinthehand", "Thisonelastsyouwillsee", "Becauseitpleasesme"
"""Three opinions, each a word that nothing else holds: of an item, of the whole report, for the choice."""

OPINED = shelf.LATER.replace(
    "  - {item: halvenor-c2, text: The grey lever feels solid., basis: [halvenor-c]}",
    f"  - {{item: halvenor-c2, text: {ITEM}, basis: [halvenor-c]}}\n"
    f"  - {{text: {REPORT}, basis: [a week of use]}}\n"
    f"choice: halvenor-c2\nbecause: {WHY}",
)


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    files = shelf.FILES | {"grey-lever/report.yml": OPINED}
    found = load(shelf.write(tmp_path_factory.mktemp("opinions") / "bench", files))
    assert found.faults == ()
    return found


@pytest.fixture(scope="module")
def site(bench: Bench) -> Site:
    return made(bench)


@pytest.fixture(scope="module")
def pages(site: Site) -> dict[str, Parsed]:
    return {page.uri: parsed(page) for page in site.pages}


@pytest.mark.parametrize(
    ("said", "class_", "mark"),
    [(ITEM, "opinion", "Opinion"), (REPORT, "opinion", "Opinion"), (WHY, "choice", "My choice (opinion)")],
)
def test_each_stands_once_in_a_block_that_is_marked(
    pages: dict[str, Parsed], said: str, class_: str, mark: str
) -> None:
    page = pages["r/grey-lever/index.md"]
    (block,) = [each for each in page.all("p", class_=class_) if said in each.text]
    assert block.text.startswith(mark)
    assert page.text.count(said) == 1
    assert not {"table", "svg", "figure"} & set(block.inside)


def test_none_stands_on_a_page_that_is_no_report(site: Site) -> None:
    told = re.compile("|".join((ITEM, REPORT, WHY)))
    holding = {page.uri for page in site.pages if told.search(html_of(page) + page.markdown)}
    assert holding == {"r/grey-lever/index.md", "r/grey-lever/1/index.md"}


def test_none_stands_among_figures_or_in_what_describes_the_page(site: Site) -> None:
    for page in site.pages:
        head = page.markdown.split("---\n")[1]
        for name, html in [("front matter", head), *page.slots.items()]:
            assert not re.search(f"{ITEM}|{REPORT}|{WHY}", html), (page.uri, name)


def test_none_is_in_a_file_to_take_away_or_told_to_a_program(site: Site, bench: Bench) -> None:
    report = bench.reports["grey-lever"]
    told = json.dumps(report_as_data(evaluate(bench, report)), default=str)
    for name, text in [("results", told), *((each.uri, each.content.decode()) for each in site.downloads)]:
        assert not re.search(f"{ITEM}|{REPORT}|{WHY}", text), name


def test_without_it_every_figure_and_place_is_the_same(bench: Bench, tmp_path: Path) -> None:
    plain = shelf.LATER.split("opinions")[0]
    without = load(shelf.write(tmp_path / "bench", shelf.FILES | {"grey-lever/report.yml": plain}))
    told = [
        json.dumps(report_as_data(evaluate(each, each.reports["grey-lever"])), default=str)
        for each in (bench, without)
    ]
    assert told[0] == told[1]
