"""Edition pages: the same bytes for ever but for what stands around them; and nothing of a draft anywhere."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from generator.analysis.heating import current_exponent
from generator.history.shelf import drafts_too
from generator.host.build import build
from generator.pages.make import site_of
from generator.pages.site import Page, Site
from generator.records.bench import load
from tests.history.benches import REPORT, amended, edited, published
from tests.pages.rendered import parsed

AROUND = {"notice", "editions", "changed"}
"""Slots that later editions may change."""

GREY = "r/grey-lever"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return amended(tmp_path_factory.mktemp("frozen") / "b")


@pytest.fixture(scope="module")
def site(folder: Path) -> Site:
    return site_of(folder)


def pages(site: Site) -> dict[str, Page]:
    return {page.uri: page for page in site.pages}


def frozen(page: Page) -> tuple[str, dict[str, str]]:
    """A page without what stands around the edition."""
    return page.markdown, {name: str(slot) for name, slot in page.slots.items() if name not in AROUND}


def of_editions(site: Site) -> dict[str, object]:
    """What stands below the addresses of editions: pages, their charts, their files."""
    found: dict[str, object] = {
        page.uri: frozen(page) for page in site.pages if re.match(r"r/[^/]+/\d+/", page.uri)
    }
    return found | {file.uri: file.content for file in site.downloads if re.match(r"r/[^/]+/\d+/", file.uri)}


def test_three_more_editions_leave_every_byte_of_the_earlier_ones(
    folder: Path, site: Site, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = of_editions(site)
    more = shutil.copytree(folder, tmp_path / "more")
    monkeypatch.chdir(more)
    record = more / f"reports/{REPORT}/report.yml"
    item = more / "reports/items/halvenor-c2.yml"
    for number, (said, then) in enumerate((("wet", "dry"), ("dry", "warm"), ("warm", "bare")), 1):
        edited(record, (f"{said} hands", f"{then} hands"))
        edited(item, ("model: ", "notes: Seen often.\nmodel: ") if number == 1 else ("Seen ", "Seen 1"))
        day, why = f"2026-0{5 + number}-01", f"Hands were {then}."
        done = published(REPORT, "--reason", "addition", "--summary", why, "--date", day)
        assert done.exit_code == 0, done.output
    later = site_of(more)
    after = of_editions(later)
    assert before.keys() <= after.keys()
    assert [name for name, what in before.items() if after[name] != what] == []
    assert {f"r/{REPORT}/{number}/index.md" for number in (4, 5, 6)} <= after.keys()
    notice = pages(later)[f"r/{REPORT}/3/index.md"].slots["notice"]
    assert notice != pages(site)[f"r/{REPORT}/3/index.md"].slots["notice"]


def test_each_older_edition_points_straight_to_the_report_and_stands_in_no_list(site: Site) -> None:
    found = pages(site)
    for number in (1, 2, 3):
        page = found[f"r/{REPORT}/{number}/index.md"]
        assert f"canonical: r/{REPORT}/\n" in page.markdown
        assert not page.listed
    own = found[f"r/{REPORT}/index.md"]
    assert own.listed
    assert "robots" not in own.markdown
    assert parsed(found[f"r/{REPORT}/3/index.md"]).text.split("Take it away")[0]


def test_an_older_edition_says_what_has_changed_and_leads_to_the_latest(site: Site) -> None:
    found = pages(site)
    told = parsed(found[f"r/{REPORT}/1/index.md"]).text
    assert "Edition 1 of 1 February 2026. The answer has changed." in told
    assert (
        "Edition 3 of 3 April 2026 is the latest. Edition 3, 3 April 2026: wording. Hands may be wet." in told
    )
    assert 'href="../"' in found[f"r/{REPORT}/1/index.md"].slots["notice"]
    assert "is the latest" not in parsed(found[f"r/{REPORT}/3/index.md"]).text
    assert "is the latest" not in parsed(found[f"r/{REPORT}/index.md"]).text


def test_a_page_names_its_edition_day_and_fingerprint(folder: Path, site: Site) -> None:
    edition = load(folder).reports[REPORT].editions[3]
    told = parsed(pages(site)[f"r/{REPORT}/index.md"]).text
    assert f"edition 3 · 3 April 2026 · {edition.hash[2:14]}" in told
    cited = told.partition("How to cite this edition")[2]
    assert "Edition 3, amendment to edition 2 of 20 March 2026. 3 April 2026. https://" in cited
    assert f".example/r/{REPORT}/3/" in cited
    assert edition.hash in cited
    listed = told.partition("What changed#")[2]
    assert "Edition 3, amendment to edition 2 of 20 March 2026" in listed
    assert "Edition 1, 1 February 2026: first published." in listed


def test_a_withdrawn_report_keeps_its_address_and_says_so_first(folder: Path, site: Site) -> None:
    found = pages(site)
    told = parsed(found[f"{GREY}/index.md"]).text
    question = told.index(load(folder).reports["grey-lever"].record.question)
    assert told.index("Withdrawn on 5 May 2026. The lever is gone.") < question < told.index("Cautions#")
    assert "±" not in told
    assert "My choice" not in told
    older = parsed(found[f"{GREY}/1/index.md"]).text
    assert "Withdrawn on 5 May 2026. The lever is gone. This is edition 1 of 12 March 2026:" in older
    assert "±" in older
    for page in ("index.md", "i/halvenor-c2/index.md"):
        assert "withdrawn" in parsed(found[page]).text.lower()
    compared = found["compare/index.md"].slots["table"]
    assert GREY not in compared


HIDDEN = "Thistledown"


def test_nothing_of_a_draft_stands_anywhere_without_drafts(folder: Path, tmp_path: Path) -> None:
    more = shutil.copytree(folder, tmp_path / "more")
    before = site_of(more)
    record = more / f"reports/{REPORT}/report.yml"
    edited(record, ("wet hands", f"{HIDDEN} hands"))
    item = more / "reports/items/halvenor-c2.yml"
    edited(item, ("model: ", f"notes: {HIDDEN} notes.\nmodel: "))
    secret = shutil.copytree(more / f"reports/{REPORT}", more / "reports/thistledown")
    shutil.rmtree(secret / "editions")
    edited(secret / "report.yml", ("question: ", f"question: {HIDDEN} "))
    edited(secret / "report.yml", ("runs: [", "runs: all #["))
    assert not load(more).faults
    shown = site_of(more)
    assert set(shown.drafts) == {REPORT, "grey-lever", "thistledown"}, "the item is one of both"
    assert repr(shown.pages) == repr(before.pages).replace(str(folder), str(more))
    assert HIDDEN.lower() not in repr((shown.pages, shown.feed)).lower().replace(str(more).lower(), "")
    assert all(HIDDEN.encode() not in file.content for file in shown.downloads)
    assert [file.uri for file in shown.downloads] == [file.uri for file in before.downloads]


def test_with_drafts_the_draft_stands_at_the_report_s_address_and_says_which_edition_is_published(
    folder: Path, tmp_path: Path
) -> None:
    more = shutil.copytree(folder, tmp_path / "more")
    edited(more / f"reports/{REPORT}/report.yml", ("wet hands", f"{HIDDEN} hands"))
    found = pages(site_of(more, drafts_too))
    own = found[f"r/{REPORT}/index.md"]
    assert HIDDEN in parsed(own).text
    assert not own.listed
    assert "robots: noindex" in own.markdown
    told = parsed(own).text
    assert "A draft of edition 4. Published is edition 3 of 3 April 2026." in told
    assert "draft: not a published edition" in told
    assert "robots: noindex" in found[f"r/{REPORT}/4/index.md"].markdown
    assert HIDDEN not in parsed(found[f"r/{REPORT}/3/index.md"]).text


def test_a_figure_that_would_be_printed_otherwise_is_told_by_the_build_and_on_the_page(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    more = shutil.copytree(folder, tmp_path / "more")
    assert site_of(more).drifts == ()
    # The exponent of the correction to the set current, and how far off it may be.
    monkeypatch.setattr(current_exponent, "__defaults__", (3.0, 0.4))
    built = build(more)
    said = capsys.readouterr().err
    assert "connectors-10a/editions/3.yml" in said
    assert "this published figure would be printed otherwise" in said
    told = (built / f"r/{REPORT}/3/index.html").read_text(encoding="utf-8")
    assert "Computed anew by this program" in told
    assert "halvenor-c2 rise: published" in told
