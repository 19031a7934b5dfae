"""What a reader is spared at first sight, and what no page ever folds away."""

from __future__ import annotations

import pytest

from tests.pages.factory import demo_site
from tests.pages.rendered import Element, Parsed, parsed

REPORT = "r/fuse-holders-30a/index.md"
NEVER = ("caution", "disclosure", "answer", "choice", "cautions", "bars", "limits", "airs", "end")
"""Classes that stand open: cautions, who paid, the answer, main figures with their ±, outcomes in words."""


@pytest.fixture(scope="module")
def report() -> Parsed:
    return parsed(next(each for each in demo_site().pages if each.uri == REPORT))


def of_class(page: Parsed, name: str) -> list[Element]:
    return [each for each in page.elements if name in each.attributes.get("class", "").split()]


@pytest.mark.parametrize("name", NEVER)
def test_what_a_reader_must_see_is_never_folded(report: Parsed, name: str) -> None:
    found = of_class(report, name)
    assert found
    assert not any("details" in each.inside or each.tag == "details" for each in found)


def test_no_heading_of_a_part_is_folded(report: Parsed) -> None:
    heads = [each for each in report.elements if each.tag in {"h1", "h2", "h3"}]
    assert len(heads) > 10
    assert not [each.text for each in heads if "details" in each.inside]


def test_what_went_otherwise_than_planned_and_what_is_not_shown_stand_open(report: Parsed) -> None:
    open_terms = {each.text for each in report.all("dt") if "details" not in each.inside}
    assert {
        "Otherwise than the method says",
        "Beyond the method",
        "Readings not used",
        "Stopped",
    } <= open_terms
    beside = [each for each in report.elements if each.tag in {"dd", "li"} and "details" not in each.inside]
    assert any("Read at 41" in each.text for each in beside)
    assert any("jaw of the clamp not shut" in each.text for each in beside)
    assert any(each.text == "vibration" for each in beside)


def test_each_card_tells_every_figure_without_being_unfolded(report: Parsed) -> None:
    terms = [each.text for each in report.all("dt") if "details" not in each.inside]
    for title in ("Pull-out force", "Drop across the holder"):
        assert sum(each.startswith(title) for each in terms) == 5
    figures = [
        each for each in of_class(report, "figure") if "dl" in each.inside and "details" not in each.inside
    ]
    assert all("±" in each.text for each in figures)


def test_a_folded_part_says_what_is_in_it(report: Parsed) -> None:
    folds = of_class(report, "more")
    summaries = [each.text for each in report.all("summary")]
    assert len(folds) > 10
    assert len(summaries) == len(report.all("details"))
    assert all(len(each) >= len("Each piece") for each in summaries)
    assert not any(each.attributes.get("open") is not None for each in folds)


def test_each_part_of_the_contents_is_there(report: Parsed) -> None:
    ids = {each.attributes.get("id") for each in report.elements}
    links = [each for each in report.all("a") if "nav" in each.inside]
    assert [each.text for each in links][:2] == ["Each item", "Curves"]
    assert {each.attributes["href"].removeprefix("#") for each in links} <= ids
