"""Limits of other quantities from the record to the page: words by side and standing, bars, steps."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.pages.site import Page, Site
from generator.records.bench import load
from tests.evaluation.pulls import Pulls
from tests.pages.rendered import Parsed
from tests.pages.sites import made

LIMIT = "limits:\n  - {kind: %s, measure: pull, value: %s, standing: %s, source: the box}\n"
VALUES = {"within": "240 N", "beyond": "160 N", "undecided": "201 N"}
MIRRORED = {"within": "160 N", "beyond": "240 N", "undecided": "201 N"}


@pytest.fixture
def pulls(tmp_path: Path) -> Pulls:
    return Pulls(tmp_path)


def site_of(pulls: Pulls, kind: str, standing: str, value: str = "200 N") -> Site:
    pulls.report += LIMIT % (kind, value, standing)
    pulls.finish()
    bench = load(pulls.root)
    assert bench.faults == ()
    return made(bench)


def page_of(site: Site, uri: str) -> Page:
    return next(page for page in site.pages if page.uri == uri)


def slot(site: Site, name: str, uri: str = "r/r/index.md") -> str:
    text = Parsed(page_of(site, uri).slots[name]).text.replace("\N{NO-BREAK SPACE}", " ")
    return " ".join(text.split())


@pytest.mark.parametrize(
    ("kind", "standing", "outcome", "words"),
    [
        ("at least", "reviewer's own", "within", "Within the limit."),
        ("at least", "reviewer's own", "beyond", "Below the limit."),
        ("at least", "reviewer's own", "undecided", "Too close to call."),
        ("at least", "claimed", "within", "Above the figure the maker prints."),
        ("at least", "claimed", "beyond", "Below the figure the maker prints."),
        ("at least", "claimed", "undecided", "Not told apart from the figure the maker prints."),
        ("at most", "reviewer's own", "within", "Within the limit."),
        ("at most", "reviewer's own", "beyond", "Over the limit."),
        ("at most", '"standard, seen"', "undecided", "Too close to call."),
        ("at most", "claimed", "within", "Below the figure the maker prints."),
        ("at most", '"approval, seen"', "beyond", "Over the limit."),
        ("at most", "claimed", "beyond", "Above the figure the maker prints."),
    ],
)
def test_each_outcome_side_and_standing_has_its_words(
    pulls: Pulls, kind: str, standing: str, outcome: str, words: str
) -> None:
    value = (VALUES if kind == "at least" else MIRRORED)[outcome]
    for letter in "AB":
        pulls.pull("tessvik", letter, value)
    site = site_of(pulls, kind, standing)
    text = slot(site, "limits")
    assert words in text
    assert f"against {kind} 200 N" in text
    assert "Pull" in text or "pull" in text
    for name in ("found", "results"):
        own = slot(site, name, "i/tessvik/index.md")
        assert words.rstrip(".") in own
        assert f"({kind} 200 N" in own
    head = slot(site, "figures")
    assert words.rstrip(".") in head
    assert f"{kind} 200 N" in head


def test_the_lowest_piece_decides_and_how_few_they_are_is_told(pulls: Pulls) -> None:
    for letter, value in (("A", "260 N"), ("B", "240 N"), ("C", "250 N")):
        pulls.pull("tessvik", letter, value)
    text = slot(site_of(pulls, "at least", "reviewer's own"), "limits")
    assert "Lowest of 3 pieces: 240.0 ±" in text
    assert "up to 71 in 100 could lie beyond" in text


def test_the_answer_says_who_lies_below(pulls: Pulls) -> None:
    for letter in "AB":
        pulls.pull("tessvik", letter, "240 N")
        pulls.pull("veldrun", letter, "160 N")
    page = page_of(site_of(pulls, "at least", "reviewer's own"), "r/r/index.md")
    assert "lies below the limit" in page.markdown
    assert "over the limit" not in page.markdown


def test_the_step_names_side_unit_and_probability(pulls: Pulls) -> None:
    pulls.pull("tessvik", "A", "201 N")
    text = slot(site_of(pulls, "at least", "reviewer's own"), "way-1", "r/r/1/how/tessvik/index.md")
    assert "N against at least 200 N: too close to call" in text
    assert "probability that the limit is kept" in text


def test_a_limit_in_another_unit_stands_where_the_figures_do(pulls: Pulls) -> None:
    """45 lbf is 200.2 N; figures of some kN are told in kN, and the post stands on their scale."""
    for letter in "AB":
        pulls.pull("tessvik", letter, "240 N")
    text = slot(site_of(pulls, "at least", "claimed", "45 lbf"), "limits")
    assert "Above the figure the maker prints" in text
    assert "45 lbf" in text
