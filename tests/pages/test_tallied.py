"""Tables of counts and questions: what is added, what stands beside, and how little a few pieces say."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.report import evaluate
from generator.pages.render import Renderer
from generator.pages.report import ReportView, report_view
from generator.records.bench import load
from tests.evaluation.lids import Lids
from tests.pages.factory import ROOT
from tests.pages.rendered import Parsed
from tests.pages.sites import made


@pytest.fixture
def lids(tmp_path: Path) -> Lids:
    return Lids(tmp_path)


def view_of(lids: Lids, **stocks: str) -> ReportView:
    lids.finish(**stocks)
    bench = load(lids.root)
    report = bench.reports["r"]
    return report_view(bench, report, evaluate(bench, report))


def counted(lids: Lids, **stocks: str) -> str:
    (view,) = view_of(lids, **stocks).tallied
    return Parsed(Renderer(ROOT).fragment("fragments/tallied-count.html.jinja", view=view)).text


def asked(lids: Lids) -> str:
    (view,) = view_of(lids).tallied
    return Parsed(Renderer(ROOT).fragment("fragments/tallied-check.html.jinja", view=view)).text


@pytest.mark.parametrize(
    ("count", "told"),
    [
        # Clopper and Pearson 1934: 0 of 50 up to 7.1 %, 2 of 50 from 0.49 to 13.7 %, 50 of 50 from 92.9 % on.
        ("0 of 50", "0 of 50 on 1 piece so up to 7.1 % of all such on these pieces"),
        ("2 of 50", "2 of 50 on 1 piece so 0.5 to 14 % of all such on these pieces"),
        ("50 of 50", "50 of 50 on 1 piece so 92.9 % of all such on these pieces or more"),
        ("1 of 500", "so < 0.1 to 1.1 % of all such"),
        ("499 of 500", "so 98.9 to 99.9 % of all such"),
    ],
)
def test_how_many_and_what_that_says(lids: Lids, count: str, told: str) -> None:
    lids.look("tessvik", "A", f"counts: {{opened: {count}}}")
    text = " ".join(counted(lids).replace("\N{NO-BREAK SPACE}", " ").split())
    assert told in text
    assert "Counted: openings after which the lid did not hold. Fewer is better." in text


def test_pieces_are_told_beside_trials(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 2 of 50}")
    lids.look("tessvik", "B", "counts: {opened: 0 of 50}", day=2)
    lids.look("tessvik", "C", "counts: {opened: 0 of 40}", day=3)
    text = counted(lids, tessvik_B="new", tessvik_C="new").replace("\N{NO-BREAK SPACE}", " ")
    assert "0 of 90 on 2 pieces" in text
    assert "at least once on 0 of 2 pieces, so on up to 84 % of all pieces like them" in text
    assert "A 2 of 50 1 March 2026, an earlier stock: not in the sum" in text
    assert "as sold since May" in text


def test_another_version_is_told(lids: Lids) -> None:
    text = (lids.root / "reports/methods/open/1.yml").read_text(encoding="utf-8")
    lids.write("methods/open/2.yml", text.replace("measures:", "changes: A colder room.\nmeasures:"))
    lids.look("tessvik", "A", "counts: {opened: 5 of 50}")
    lids.look("veldrun", "A", "counts: {opened: 0 of 50}", version=2)
    text = counted(lids).replace("\N{NO-BREAK SPACE}", " ")
    assert "by another version of the method: not in the sum" in text
    assert "counted by another method only" in text


def test_answers_and_what_was_seen(lids: Lids) -> None:
    lids.look("tessvik", "A", 'observations: [{check: by-hand, answer: "yes", note: it slid off}]')
    lids.look("tessvik", "B", 'observations: [{check: by-hand, answer: "no"}]')
    lids.look("veldrun", "A", "observations: [{check: by-hand, answer: could not tell}]")
    text = asked(lids).replace("\N{NO-BREAK SPACE}", " ")
    assert "Does it open by hand when hot?" in text
    assert "A yes it slid off (1 March 2026)" in text
    # Of two pieces one: 1.3 to 98.7 %.
    assert "1 of 2 so 1.3 to 98.7 % of all pieces like them" in text
    assert "Veldrun X could not tell" in text
    assert "A could not tell" in text


def test_they_stand_on_the_report_s_page(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 0 of 50}", 'observations: [{check: by-hand, answer: "no"}]')
    lids.finish()
    bench = load(lids.root)
    page = next(each for each in made(bench).pages if "## Each item" in each.markdown)
    assert "## What was counted and looked at { #seen }" in page.markdown
    for measure in ("opened", "by-hand"):
        assert f'id="table-{measure}"' in page.slots[f"table-{measure}"]


def test_names_are_told_as_text(lids: Lids) -> None:
    text = (lids.root / "reports/methods/open/1.yml").read_text(encoding="utf-8")
    lids.write("methods/open/1.yml", text.replace("the lid did not hold", "<b>x</b> & y"))
    lids.look("tessvik", "A", "counts: {opened: 0 of 50}")
    (view,) = view_of(lids).tallied
    html = Renderer(ROOT).fragment("fragments/tallied-count.html.jinja", view=view)
    assert "<b>x</b>" not in html
    assert "<b>x</b> & y" in Parsed(html).text
