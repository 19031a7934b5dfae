"""The page of a report's editions: what each says, in the same facts as the terminal."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.pages.history import history_pages
from generator.pages.past import Told, told_editions
from generator.pages.render import Renderer
from generator.pages.retests import retest_view
from generator.pages.site import Page
from generator.records.bench import Bench, load
from tests.history.benches import REPORT, amended, edited, run
from tests.pages.rendered import Parsed, html_of, parsed
from tests.pages.sites import made

WORDS = (
    "place 1 → none",
    "pieces 2 → 3",
    "runs 2 settled → 3 settled",
    "within the ± that was published",
    "a difference of 4 ± 23",
    "we were wrong",
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return amended(tmp_path_factory.mktemp("history") / "b")


@pytest.fixture(scope="module")
def bench(folder: Path) -> Bench:
    return load(folder)


@pytest.fixture(scope="module")
def pages(bench: Bench) -> dict[str, Page]:
    return {page.uri: page for page in made(bench).pages}


def text(page: Page, slot: str) -> str:
    return " ".join(Parsed(re.sub(r"</t[dh]>", " ", page.slots[slot])).text.split())


def of(pages: dict[str, Page], report: str) -> Page:
    return pages[f"r/{report}/history/index.md"]


def told(bench: Bench, report: str) -> Told:
    return next(each for each in told_editions(bench) if each.report.id == report)


def test_editions_stand_newest_first_with_reason_summary_and_who(
    pages: dict[str, Page], bench: Bench
) -> None:
    said = text(of(pages, REPORT), "editions")
    places = [
        said.index("3 April 2026 · Wording · amendment to edition 2 of 20 March 2026 Hands may be wet."),
        said.index("20 March 2026 · Correction: we were wrong · amendment to edition 1 of 1 February 2026"),
        said.index("1 February 2026 · First published"),
    ]
    assert places == sorted(places)
    for edition in bench.reports[REPORT].editions.values():
        assert f"Authorised by {edition.authorised_by}. Fingerprint {edition.hash}" in said
    assert re.findall(r'<h3 id="edition-\d"><a href="([^"]*)"', of(pages, REPORT).slots["editions"]) == [
        "../3/", "../2/", "../1/",
    ]  # fmt: skip


def test_a_correction_says_where_the_figure_lies_and_has_no_difference(pages: dict[str, Page]) -> None:
    said = text(of(pages, REPORT), "editions")
    row = re.search(r"Quorsby Q2 Hotter than the air (.*?)The same readings are read anew", said)
    assert row
    assert re.match(
        r"25\.6 ± 3\.9 °C \(46\.0 ± 6\.9 °F\) above the air, 2 pieces "
        r"24\.7 ± 3\.0 °C \(44\.5 ± 5\.3 °F\) above the air, 1 piece within the ± that was published; ",
        row[1],
    )
    assert "a difference of" not in said
    assert "Choice: Halvenor C2 → Quorsby Q2" in said
    assert "<del>Quorsby Q2, piece B, " in of(pages, REPORT).slots["editions"]


def test_a_retest_says_the_difference_with_its_interval(pages: dict[str, Page]) -> None:
    said = text(of(pages, "grey-lever"), "editions")
    # 19 ± 12.865 and 23.333 ± 18.959 K: √(12.865² + 18.959²) = 22.91, in °F 41.2 (JCGM 100, 5.1.2).
    assert (
        "a difference of 4 ± 23 °C (8 ± 41 °F) (2 and 3 pieces); runs 2 settled → 3 settled; pieces 2 → 3"
        in said
    )
    assert "New runs: Halvenor C2, piece E, 1 April 2026." in said
    assert "that was published" not in said


def test_a_withdrawn_report_says_so_first(pages: dict[str, Page]) -> None:
    page = html_of(of(pages, "grey-lever"))
    assert page.index("This report is withdrawn since") < page.index('id="edition-3"')
    assert "The lever is gone." in page
    assert "withdrawn since" not in html_of(of(pages, REPORT))


def test_cautions_and_disclosure_come_before_any_figure(pages: dict[str, Page]) -> None:
    for report in (REPORT, "grey-lever"):
        page = of(pages, report)
        text_of = page.markdown
        assert (
            text_of.index("I bought")
            < text_of.index('data-slot="caution"')
            < text_of.index('data-slot="editions"')
        )
        assert "±" not in text_of.partition('data-slot="editions"')[0]
        assert "Warning." in page.slots["caution"]
        assert "Cautions" in parsed(page).text


def test_a_wording_says_that_nothing_moved(pages: dict[str, Page]) -> None:
    said = text(of(pages, REPORT), "editions")
    assert "Hands may be wet. No figure, outcome or place moved." in said
    assert "Otherwise in words or facts: the report (because). Words alone, so it is not in the feed." in said


def test_a_draft_shows_nowhere_of_it(folder: Path, pages: dict[str, Page]) -> None:
    record = folder / f"reports/{REPORT}/report.yml"
    before = record.read_bytes()
    edited(record, ("choice: quorsby-q2", "choice: halvenor-c2"), ("Which two-way", "Which drafted two-way"))
    try:
        then = load(folder)
        drawn = next(iter(history_pages(then, told_editions(then), (), Renderer(folder))))
    finally:
        record.write_bytes(before)
    assert "drafted" not in drawn.markdown + "".join(drawn.slots.values())
    assert drawn.slots["editions"] == of(pages, REPORT).slots["editions"]


def test_the_terminal_tells_the_same_facts(
    folder: Path, pages: dict[str, Page], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(folder)
    for report in (REPORT, "grey-lever"):
        page = text(of(pages, report), "editions")
        printed = run("history", report).output
        hashes = re.findall(r"1:[0-9a-f]{64}", printed)
        assert hashes == re.findall(r"1:[0-9a-f]{64}", page)[::-1]
        assert "authorised by The name of your bench" in printed
        figures = re.findall(r"(\d[\d.]*) ± (\d[\d.]*) K", printed)
        assert figures
        for value, half_width in figures:
            assert f"{value} ± {half_width} °C" in page, (value, half_width)
        words = re.findall(r"; ([^;\n]*→[^;\n]*)|(within|outside) the ± that was published", printed)
        assert words
        for said in (
            "place 1 → none",
            "pieces 2 → 3",
            "runs 2 settled → 3 settled",
            "within the ± that was published",
        ):
            assert (said in printed) == (said in page), said


def test_the_drawing_has_a_mark_where_a_figure_was_told_anew(bench: Bench) -> None:
    view = retest_view(told(bench, REPORT))
    assert view is not None
    assert [(strip.name, [row.edition for row in strip.rows]) for strip in view.items] == [
        ("Halvenor C2", [1, 2]), ("Quorsby Q2", [1, 2]),
    ]  # fmt: skip
    assert [row.corrected for row in view.items[1].rows] == [True, False]
    first, second = (strip.still for strip in view.items)
    assert first is not None
    assert second is not None
    assert [mark.filled for mark in first.marks] == [False, True]
    # One piece is hollow, whatever comes after it.
    assert [mark.filled for mark in second.marks] == [False, False]
    grey = retest_view(told(bench, "grey-lever"))
    assert grey is not None
    assert [row.corrected for row in grey.items[0].rows] == [False, False]
    assert grey.drawn[0].still is not None
    assert grey.drawn[0].still.corrections == ()


def test_a_report_with_one_edition_has_no_drawing(tmp_path: Path) -> None:
    once = amended(tmp_path / "b")
    for number in (2, 3):
        (once / f"reports/{REPORT}/editions/{number}.yml").unlink()
    bench = load(once)
    assert retest_view(told(bench, REPORT)) is None
    page = next(iter(history_pages(bench, told_editions(bench), (), Renderer(once))))
    assert "No edition has told a figure of it anew." in page.markdown
