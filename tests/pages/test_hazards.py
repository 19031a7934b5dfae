"""Each hazard class on each kind of page: signal word, cautions whole, and before which figure they stand."""

from __future__ import annotations

import re
from typing import get_args

import pytest

from generator.pages.locate import templates
from generator.records.bench import load
from generator.records.schema.method import Hazard
from tests.pages import shelf
from tests.pages.rendered import Parsed, parsed
from tests.pages.sites import made

METHOD = "methods/connector-heating/1.yml"

SIGNAL = {
    "extra-low voltage": ("Warning.", "A hot joint can start a fire."),
    "mains": ("Danger.", "Live mains parts can kill."),
    "overload": ("Warning.", "An overloaded part can catch fire."),
    "mechanical": ("Caution.", "Parts under force can break and fly."),
    "chemical": ("Warning.", "What was used can burn skin and eyes."),
}
"""ANSI Z535.6, from memory: danger kills, warning may burn or set on fire, caution hurts a little."""

OWN = {
    "extra-low voltage": "Low voltage does not mean little heat.",
    "mains": "Mains voltage kills. Switch off, lock off and check",
    "overload": "Never copy an overload test.",
    "mechanical": "Parts under force break without notice",
    "chemical": "Gloves, eye protection and moving air",
}

ALL = (
    "These figures are for the pieces tested here.",
    "Not a certificate, and not the work of an accredited laboratory",
    "Follow your local code. Work on fixed wiring belongs to a licensed electrician where the law says so.",
    "An overload test is never one to copy.",
)
"""What every class says."""

HOLDING = (
    "r/connectors-10a/index.md",
    "r/connectors-10a/1/index.md",
    "i/quorsby-q2/index.md",
    "compare/index.md",
    "r/connectors-10a/1/how/quorsby-q2/index.md",
)
"""Every kind of page that holds figures."""

FIGURES = {HOLDING[-1]: "steps"}
"""The class of what holds a page's first figure; of the others it is `figure`."""

FIRST = {"mains", "overload"}


@pytest.fixture(scope="module", params=get_args(Hazard))
def classed(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[str, dict[str, Parsed]]:
    """A bench whose heating method is of one class, and its pages."""
    hazard: str = request.param
    method = shelf.template(METHOD).replace("hazard: [extra-low voltage]", f"hazard: [{hazard}]")
    if hazard == "mains":
        method = method.replace(
            "conditions:", "protection: a residual-current device of 10 mA\nconditions:", 1
        )
    root = shelf.write(tmp_path_factory.mktemp("hazard") / "bench", {METHOD: method}, _heating_alone())
    found = load(root)
    assert found.faults == ()
    return hazard, {page.uri: parsed(page) for page in made(found).pages}


def _heating_alone() -> str:
    return "\n".join(line for line in shelf.COMPARISON.splitlines() if "pull" not in line) + "\n"


def at(page: Parsed, class_: str) -> int:
    """Place of the first element of a class among the page's elements."""
    return next(
        n for n, each in enumerate(page.elements) if class_ in each.attributes.get("class", "").split()
    )


def test_the_caution_line_has_the_class_s_signal_word_on_every_page_with_figures(
    classed: tuple[str, dict[str, Parsed]],
) -> None:
    hazard, pages = classed
    for uri in (*HOLDING, "m/connector-heating/1/index.md"):
        line = pages[uri].all("p", class_="caution")[0].text
        assert line.startswith(" ".join(SIGNAL[hazard])), uri
        assert "Don’t copy this test. Not a certificate: only these pieces were tested." in line


def test_all_cautions_stand_open_on_every_page_with_figures(classed: tuple[str, dict[str, Parsed]]) -> None:
    hazard, pages = classed
    for uri in (*HOLDING, "m/connector-heating/1/index.md"):
        assert all(text in pages[uri].text for text in (OWN[hazard], *ALL)), uri
        heading = next(each for each in pages[uri].all("h2") if each.text.startswith("Cautions"))
        assert "details" not in heading.inside


def test_the_caution_line_stands_before_the_first_figure(classed: tuple[str, dict[str, Parsed]]) -> None:
    _, pages = classed
    for uri in HOLDING:
        figure = at(pages[uri], FIGURES.get(uri, "figure"))
        assert at(pages[uri], "caution") < figure, uri
        assert at(pages[uri], "disclosure") < figure, uri


def test_of_mains_and_overload_all_cautions_stand_before_the_answer(
    classed: tuple[str, dict[str, Parsed]],
) -> None:
    hazard, pages = classed
    for uri in HOLDING:
        whole = at(pages[uri], "cautions")
        assert (whole < at(pages[uri], FIGURES.get(uri, "figure"))) == (hazard in FIRST), uri
        choice = pages[uri].all("p", class_="choice")
        if choice:
            assert (whole < at(pages[uri], "choice")) == (hazard in FIRST), uri


def test_no_page_holds_figures_without_its_cautions(classed: tuple[str, dict[str, Parsed]]) -> None:
    hazard, pages = classed
    for uri, page in pages.items():
        if page.all("span", class_="figure") or page.all("ol", class_="steps"):
            assert OWN[hazard] in page.text, uri


def test_whatever_tells_a_result_has_its_caution_before_it(classed: tuple[str, dict[str, Parsed]]) -> None:
    """Any page, of whatever kind: first figure, first step of a working, first drawing of a result."""
    _, pages = classed
    told = 0
    for uri, page in pages.items():
        results = [
            place
            for place, each in enumerate(page.elements)
            if {"figure", "steps", "answer"} & set(each.attributes.get("class", "").split())
        ]
        if results:
            told += 1
            assert at(page, "caution") < results[0], uri
    assert told >= len(HOLDING)


def test_mains_names_the_protection_used(classed: tuple[str, dict[str, Parsed]]) -> None:
    hazard, pages = classed
    said = "How the tester was protected: a residual-current device of 10 mA"
    for uri in HOLDING:
        assert (said in pages[uri].text) == (hazard == "mains"), uri


def test_a_method_adds_cautions_and_removes_none(classed: tuple[str, dict[str, Parsed]]) -> None:
    _, pages = classed
    for uri in HOLDING:
        assert "Stay beside it, with a way to switch off within reach." in pages[uri].text


def test_on_paper_the_cautions_go_before_the_answer() -> None:
    css = (templates() / "theme" / "assets" / "paper.css").read_text(encoding="utf-8")
    kinds = re.search(r":is\(([^)]*)\) > \.cautions \{\s*order: -1;", css)
    assert kinds
    assert set(kinds[1].split(", ")) == {".kind-report", ".kind-item", ".kind-compare", ".kind-history"}
