"""One piece of each and one meter: figures three degrees apart, and no order that they do not carry."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.evaluation.findings import MeasureFinding
from generator.evaluation.report import evaluate
from generator.records.bench import load
from tests.evaluation.small import METHOD, Small, table
from tests.pages.rendered import parsed
from tests.pages.sites import site_of

DECLARED = ", spread: {value: 0.4 K, origin: ten pieces of 2025, freedom: 9}"
CAVEAT = "The ± is for the meter; another piece may differ by more, and we don’t know by how much."
QUESTION = "Which stays coolest?"
ORDER = re.compile(
    r"\b(?:best|worst|winner|coolest|hottest|1st|2nd|3rd|ran hotter|ran cooler|second|third)\b"
)


def told(folder: Path, spread: str) -> tuple[MeasureFinding, str]:
    """The finding and the text of a report on three single pieces at 41, 42.5 and 44 K."""
    small = Small(folder)
    small.write("methods/heat/1.yml", METHOD % spread)
    for item, rise in (("kelda", 41.0), ("orrin", 42.5), ("zarn", 44.0)):
        small.run(item, "A", table(rise))
    small.finish()
    bench = load(folder)
    page = next(page for page in site_of(folder).pages if page.uri == "r/r/index.md")
    text = " ".join(" ".join(parsed(page).texts).split())
    assert QUESTION in text
    return evaluate(bench, bench.reports["r"]).measure("rise"), text.replace(QUESTION, "")


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> tuple[MeasureFinding, str]:
    return told(tmp_path_factory.mktemp("bare"), "")


def test_nothing_is_ranked_where_no_spread_between_pieces_is_known(bare: tuple[MeasureFinding, str]) -> None:
    finding, text = bare
    assert [item.place for item in finding.items] == [None, None, None]
    assert not any(pair.known or pair.shown for pair in finding.pairs)
    assert not ORDER.findall(text)


def test_the_caveat_stands_with_every_item(bare: tuple[MeasureFinding, str]) -> None:
    _, text = bare
    assert text.count(CAVEAT) >= 3
    before, said, pairs = text.partition(
        "Whether the products differ is not known where each is here with one piece"
    )
    assert said
    assert pairs.count("apart (1 and 1 pieces)") == 3
    assert "apart (1 and 1 pieces)" not in before


def test_without_the_spread_the_ranking_goes_and_the_caveat_comes(
    bare: tuple[MeasureFinding, str], tmp_path: Path
) -> None:
    finding, text = told(tmp_path, DECLARED)
    places = [item.place for item in finding.items]
    assert [(place.first, place.last) for place in places if place is not None] == [(1, 2), (1, 3), (2, 3)]
    assert "ran hotter" in text
    assert CAVEAT not in text
    assert "one piece only" in text
    # The figures stay: only what was made of them is gone.
    values = [item.figure.value for item in finding.items if item.figure is not None]
    assert values == [item.figure.value for item in bare[0].items if item.figure is not None]
