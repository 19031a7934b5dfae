"""Counts and questions on every page: as the answer, on cards and items' pages, step by step, in files."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from statsmodels.stats.proportion import proportion_confint

from generator.evaluation.report import evaluate
from generator.pages.explain import explained_count
from generator.pages.render import Renderer
from generator.pages.report import ReportView, report_view
from generator.pages.site import Page, Site
from generator.records.bench import Bench, load
from tests.evaluation.lids import Lids
from tests.pages.factory import ROOT
from tests.pages.rendered import Parsed
from tests.pages.sites import made


@pytest.fixture
def lids(tmp_path: Path) -> Lids:
    return Lids(tmp_path)


def bench_of(lids: Lids, main: str = "opened") -> Bench:
    lids.report = lids.report.replace("main: opened", f"main: {main}")
    lids.finish()
    bench = load(lids.root)
    assert bench.faults == ()
    return bench


def plainly(text: str) -> str:
    return " ".join(Parsed(text).text.replace("\N{NO-BREAK SPACE}", " ").split())


def view_of(bench: Bench) -> ReportView:
    report = bench.reports["r"]
    return report_view(bench, report, evaluate(bench, report))


def answers(bench: Bench) -> list[str]:
    """Every level of the answer, the fullest first."""
    renderer = Renderer(ROOT)
    return [
        " ".join(
            renderer.as_read("fragments/answer.md.jinja", answer=each)
            .replace("\N{NO-BREAK SPACE}", " ")
            .split()
        )
        for each in view_of(bench).answers
    ]


def page_of(site: Site, uri: str) -> Page:
    return next(page for page in site.pages if page.uri == uri)


@pytest.mark.parametrize(
    ("counts", "told"),
    [
        (("0 of 1", "0 of 1", "0 of 1"), "0 of 3 on 3 pieces (up to 71 %)"),
        (("0 of 50",), "0 of 50 on 1 piece (up to 7.1 %)"),
        (("1 of 1", "1 of 1", "1 of 1"), "3 of 3 on 3 pieces (29 % or more)"),
        (("1 of 1",), "1 of 1 on 1 piece (2.5 % or more)"),
        (("2 of 50", "0 of 50"), "2 of 100 on 2 pieces (0.2 to 7.0 %)"),
    ],
)
def test_a_count_answers_the_question_with_its_exact_interval(
    lids: Lids, counts: tuple[str, ...], told: str
) -> None:
    for letter, count in zip("ABC", counts, strict=False):
        lids.look("tessvik", letter, f"counts: {{opened: {count}}}")
    fullest, *_ = answers(bench_of(lids))
    assert told in fullest
    assert fullest.startswith("Counted: openings after which the lid did not hold.")
    assert fullest.endswith("Nothing is ranked by a count.")
    k, n = (int(each) for each in told.split(" on ", maxsplit=1)[0].split(" of "))
    low, high = proportion_confint(k, n, method="beta")
    for end, said in ((low, k > 0), (high, k < n)):
        if said:
            assert f"{100 * end:.1f}" in told or f"{100 * end:.0f}" in told


def test_a_question_answers_the_question(lids: Lids) -> None:
    for letter, answer in (("A", "yes"), ("B", "no"), ("C", "no")):
        lids.look("tessvik", letter, f'observations: [{{check: by-hand, answer: "{answer}"}}]')
    lids.look("veldrun", "A", "observations: [{check: by-hand, answer: could not tell}]")
    for letter in "ABC":
        lids.look("grenlo", letter, 'observations: [{check: by-hand, answer: "no"}]')
    fullest, *_ = answers(bench_of(lids, "by-hand"))
    assert "yes on 1 of 3 pieces (0.8 to 90.6 %)" in fullest
    assert "yes on 0 of 3 pieces (up to 71 %)" in fullest
    assert "could not tell" in fullest
    assert fullest.endswith("Nothing is ranked by such answers.")


def test_of_many_items_the_last_level_is_short(lids: Lids) -> None:
    for number in range(9):
        lids.look(f"item-{number}", "A", f"counts: {{opened: {number // 8} of 50}}")
    *_, least = answers(bench_of(lids))
    assert least.startswith("At least once on 1 of 9 items; each with its percentages is below.")
    assert len(least.split()) <= 45


def test_the_table_stands_where_bars_would_and_the_page_is_whole(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 0 of 3}", 'observations: [{check: by-hand, answer: "no"}]')
    site = made(bench_of(lids))
    page = page_of(site, "r/r/index.md")
    assert page.markdown.count('data-slot="table-opened"') == 1
    assert page.markdown.index('data-slot="table-opened"') < page.markdown.index("## Each item")
    assert page.markdown.index('data-slot="table-by-hand"') > page.markdown.index("## Each item")
    assert "No piece has a figure yet" not in page.markdown
    assert "{ #pieces }" in page.markdown
    assert 'href="#budget"' not in page.slots["facts"]
    card = plainly(page.slots["card-1"])
    assert "0 of 3 on 1 piece so up to 71 % of all such on these pieces" in card
    assert "yes on 0 of 1 piece so up to 97.5 % of all pieces like them" in card
    assert "How that was worked out" in card


def test_an_item_s_own_page_has_both(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 0 of 3}", 'observations: [{check: by-hand, answer: "yes"}]')
    page = page_of(made(bench_of(lids)), "i/tessvik/index.md")
    results, found = (plainly(page.slots[each]) for each in ("results", "found"))
    for text in (results, found):
        assert "0 of 3 on 1 piece so up to 71 % of all such on these pieces" in text
    assert "yes on 1 of 1 piece so 2.5 % of all pieces like them or more" in results
    assert "not evaluated" not in results


def test_step_by_step_with_the_numbers_put_in(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 2 of 50}")
    lids.look("tessvik", "B", "counts: {opened: 0 of 50}")
    bench = bench_of(lids)
    finding = evaluate(bench, bench.reports["r"])
    text = " ".join(explained_count(bench, finding, "opened", "r/run-002").split())
    low, high = proportion_confint(2, 100, method="beta")
    assert "(2 + 0) of (50 + 50) = 2 of 100" in text
    assert f"with 2 and 100 − 2 + 1 = 99: {low:.5f}" in text
    assert f"with 2 + 1 = 3 and 100 − 2 = 98: {high:.5f}" in text
    assert "at least once: 1 of 2" in text
    assert "* piece B" in text
    page = page_of(made(bench), "r/r/1/how/tessvik/index.md")
    assert f"{high:.5f}" in plainly(page.slots["way-1"])
    with pytest.raises(KeyError):
        explained_count(bench, finding, "opened", "r/none")


@pytest.mark.parametrize(
    ("count", "told"),
    [
        ("0 of 3", "1 − 0.025^(1/3) = 0.70760"),
        ("3 of 3", "0.025^(1/3) = 0.29240"),
    ],
)
def test_none_and_all_have_one_end(lids: Lids, count: str, told: str) -> None:
    lids.look("tessvik", "A", f"counts: {{opened: {count}}}")
    bench = bench_of(lids)
    text = explained_count(bench, evaluate(bench, bench.reports["r"]), "opened", "r/run-001")
    assert told in " ".join(text.split())


def test_what_could_not_be_told_stands_aside(lids: Lids) -> None:
    for letter, answer in (("A", "yes"), ("B", "could not tell")):
        lids.look("tessvik", letter, f'observations: [{{check: by-hand, answer: "{answer}"}}]')
    bench = bench_of(lids, "by-hand")
    text = explained_count(bench, evaluate(bench, bench.reports["r"]), "by-hand", "r/run-001")
    assert "1 of the 1 that answer yes or no; aside B" in " ".join(text.split())


def test_a_file_holds_every_run_and_every_share(lids: Lids) -> None:
    lids.look("tessvik", "A", "counts: {opened: 2 of 50}", 'observations: [{check: by-hand, answer: "no"}]')
    site = made(bench_of(lids))
    file = next(each for each in site.downloads if each.uri.endswith("counts.csv"))
    rows = list(csv.DictReader(io.StringIO(file.content.decode())))
    low, high = proportion_confint(2, 50, method="beta")
    times = next(row for row in rows if row["of"] == "times" and not row["run"])
    assert float(times["lower end of its 95 % interval"]) == pytest.approx(low, rel=1e-5)
    assert float(times["upper end of its 95 % interval"]) == pytest.approx(high, rel=1e-5)
    assert [(row["run"], row["k"], row["n"], row["answer"]) for row in rows if row["run"]] == [
        ("r/run-001", "2", "50", ""),
        ("r/run-001", "", "", "no"),
    ]
    assert "counts.csv" in page_of(site, "r/r/index.md").slots["take"]


def test_without_a_count_there_is_no_such_file(lids: Lids) -> None:
    lids.finish()
    site = made(load(lids.root))
    assert not [each for each in site.downloads if each.uri.endswith("counts.csv")]
