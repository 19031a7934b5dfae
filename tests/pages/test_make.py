"""The demo's pages as a whole: order, words, anchors, units, the same bytes each time."""

from __future__ import annotations

import dataclasses
import hashlib
import json
import os
import posixpath
import re
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest

from generator.fault import RecordsRefused
from generator.history.shelf import published
from generator.pages import make
from generator.pages.site import Page, Site
from tests.evaluation.pulls import Pulls
from tests.evaluation.small import Small, table
from tests.pages.factory import ROOT, demo, demo_site
from tests.pages.newest import newest
from tests.pages.rendered import Parsed, html_of, parsed, split
from tests.pages.sites import made, site_of

REPORT = "r/fuse-holders-30a/index.md"
EDITION = newest([each.uri for each in demo_site().pages], "fuse-holders-30a") + "index.md"

PROMISED = ["ambient", "settled", "pieces", "limit", "meters", "paid", "changed"]
"""Anchors that are printed and linked to, for ever."""

NEVER = re.compile(
    r"\b(pass|passes|passed|fail|fails|failed|safe|safer|safely|approved|certified|proven)\b", re.I
)
DENIAL = "nothing here is said to pass, or to be safe, approved, certified or proven"


@pytest.fixture(scope="module")
def pages() -> dict[str, Parsed]:
    return {page.uri: parsed(page) for page in demo_site().pages}


def page(uri: str) -> Page:
    return next(each for each in demo_site().pages if each.uri == uri)


OTHER_METHODS = {
    "crimp-pull": (1,),
    "crimp-resistance": (1,),
    "holder-handling": (1,),
    "plug-insertion": (1,),
    "socket-heating-10a": (1,),
    "socket-heating-15a": (1, 2),
}
"""Of the other reports and of what was not heated: ids and versions."""


def test_every_page_has_its_address(pages: dict[str, Parsed]) -> None:
    assert set(pages) == {
        "index.md",
        "changes/index.md",
        "compare/index.md",
        "corrections/index.md",
        "glossary/index.md",
        *(f"i/{key}/index.md" for key in demo().items),
        "m/index.md",
        "m/closed-box-heating/index.md",
        "m/closed-box-heating/1/index.md",
        "m/closed-box-heating/2/index.md",
        "m/pull-out/index.md",
        "m/pull-out/1/index.md",
        *(
            f"m/{method}/{version}index.md"
            for method, versions in OTHER_METHODS.items()
            for version in ("", *(f"{each}/" for each in versions))
        ),
        REPORT,
        EDITION,
        *(
            f"r/{key}/{page}index.md"
            for key, each in demo().reports.items()
            if each.editions
            for page in ("", "history/")
        ),
        *(
            f"r/{report}/{number}/{page}index.md"
            for report, each in demo().reports.items()
            for number, edition in each.editions.items()
            for page in ("", *(f"how/{item}/" for item in edition.content["items"]))
            if not page or edition.reason != "withdrawal"
        ),
        *(f"r/fuse-holders-30a/{number}/how/control/index.md" for number in (1, 2, 3, 4)),
        "r/ring-terminals-m6/1/how/control/index.md",
    }


def test_pages_and_files_are_sorted_by_address() -> None:
    site = demo_site()
    assert [each.uri for each in site.pages] == sorted(each.uri for each in site.pages)
    assert [each.uri for each in site.downloads] == sorted(each.uri for each in site.downloads)


def test_a_report_says_which_edition_it_is_and_whose_data_it_shows(pages: dict[str, Parsed]) -> None:
    for uri in (REPORT, EDITION):
        assert pages[uri].text.startswith("Demonstration data · edition 4 · 12 October 2026")


def test_the_parts_stand_in_their_order(pages: dict[str, Parsed]) -> None:
    text = pages[REPORT].text
    parts = [
        "Demonstration data",
        "I bought all 21 pieces.",
        "Which 30 A in-line fuse holder stays coolest in a closed box?",
        "Warning. A hot joint can start a fire. Don’t copy this test.",
        "Tessvik T30 and Veldrun V30 stayed coolest",
        "My choice (opinion) Veldrun V30: half the price",
        "Hotter than the air around it after 60 min at 30 A",
        "Cautions#",
        "Where will you fit it?#",
        "Each item#",
        "How they heated#",
        "What else was measured#",
        "How sure?#",
        "How it was measured#",
        "What this test cannot show#",
        "What changed#",
        "Who paid#",
        "Take it away#",
        "End of report, edition 4.",
    ]
    places = [text.index(part) for part in parts]
    assert places == sorted(places)


def test_a_further_measure_has_its_table_its_pairs_and_its_budgets(pages: dict[str, Parsed]) -> None:
    page = pages[REPORT]
    ids = {each.attributes["id"] for each in page.elements if "id" in each.attributes}
    assert {"others", "measure-pull", "table-pull", "sure-measure-pull", "spread-measure-pull"} <= ids
    assert {"budget-pull-tessvik-t30", "budget-pull-grenlo-30", "budget-rise-tessvik-t30"} <= ids
    others = page.text[page.text.index("What else was measured#") : page.text.index("How sure?#")]
    assert re.search(r"Tessvik T30 392 ± 22 N \(88\.\d ± 4\.9 lbf\) 5 pieces", others)
    assert "Higher is better." in others
    assert "Tessvik T30 was higher than Veldrun V30" in page.text


def test_where_a_force_answers_the_question_nothing_is_told_of_heat(tmp_path: Path) -> None:
    pulls = Pulls(tmp_path)
    for item, values in (("tessvik", (384, 388, 392)), ("veldrun", (296, 300, 304))):
        for letter, value in zip("ABC", values, strict=True):
            pulls.pull(item, letter, f"{value} N")
    pulls.finish()
    found = parsed(next(each for each in site_of(tmp_path).pages if each.uri == "r/r/index.md"))
    page, _, _ = found.text.partition("Take it away#")
    assert not re.search(r"hott|cooler|heats|above the air|°", page, re.I)
    order = ["Tessvik X came out highest, about 388 N", "Each item#", "How sure?#", "was higher than"]
    places = [page.index(part) for part in order]
    assert places == sorted(places)
    ids = [each.attributes["id"] for each in found.elements if "id" in each.attributes]
    assert set(PROMISED) <= set(ids)
    assert len(ids) == len(set(ids))


def test_disclosure_and_caution_stand_open_before_the_first_figure(pages: dict[str, Parsed]) -> None:
    """16 CFR 255.5: clear, conspicuous, before what it is about; not in a folded block."""
    elements = pages[REPORT].elements
    first_figure = next(
        i for i, each in enumerate(elements) if "figure" in each.attributes.get("class", "").split()
    )
    for name in ("disclosure", "caution"):
        at = next(i for i, each in enumerate(elements) if name in each.attributes.get("class", "").split())
        assert at < first_figure
        assert "details" not in elements[at].inside
    heading = next(each for each in elements if each.attributes.get("id") == "cautions")
    assert "details" not in heading.inside


def test_where_mains_is_a_hazard_all_cautions_stand_before_the_choice_and_the_figures() -> None:
    methods = {
        key: {
            number: version.model_copy(update={"hazard": ("mains",)}) for number, version in versions.items()
        }
        for key, versions in demo().methods.items()
    }
    site = made(dataclasses.replace(demo(), methods=methods))
    text = parsed(next(each for each in site.pages if each.uri == REPORT)).text
    order = [
        "Danger. Live mains parts can kill.",
        "Cautions#",
        "Mains voltage kills.",
        "stayed coolest",
        "My choice",
        "Hotter than",
    ]
    places = [text.index(part) for part in order]
    assert places == sorted(places)
    assert text.count("My choice") == 1


def test_words_that_promise_stand_in_their_denial_only(pages: dict[str, Parsed]) -> None:
    for uri, found in pages.items():
        assert NEVER.findall(found.text.replace(DENIAL, "")) == [], uri
        assert (DENIAL in found.text) == bool(
            re.fullmatch(r"(r/.*|i/.*|compare|m/.*/\d+|m/closed-box-heating)/index\.md", uri)
        ), uri


def test_an_item_of_a_withdrawn_report_bears_its_cautions_and_says_that_it_was_tested(
    pages: dict[str, Parsed],
) -> None:
    text = pages["i/dorvekk-r6/index.md"].text
    assert text.index("All cautions") < text.index("What was found")
    assert "None stands: the one report that tested it is withdrawn." in text
    assert "no report has tested it" not in text


def test_two_that_cannot_be_told_apart_are_said_so_and_no_winner_is_named(pages: dict[str, Parsed]) -> None:
    text = pages[REPORT].text
    assert "No difference found between Tessvik T30 and Veldrun V30" in text
    assert not re.search(r"\b(winner|best|equal|tie)\b", text)
    assert "Whether the products differ is not known" in text


def test_ids_are_unique_and_every_reference_meets_its_target(pages: dict[str, Parsed]) -> None:
    for uri, found in pages.items():
        ids = [each.attributes["id"] for each in found.elements if "id" in each.attributes]
        assert len(ids) == len(set(ids)), uri
        for each in found.elements:
            naming = ("aria-labelledby", "aria-describedby", "aria-controls", "for", "data-compares")
            named = " ".join(each.attributes.get(name, "") for name in naming).split()
            assert set(named) <= set(ids), uri
            href = each.attributes.get("href", "")
            if href.startswith("#"):
                assert href[1:] in ids, (uri, href)


def test_the_promised_anchors_are_there(pages: dict[str, Parsed]) -> None:
    for uri in (REPORT, EDITION):
        ids = {each.attributes.get("id") for each in pages[uri].elements}
        assert set(PROMISED) <= ids
    steps = {step.id for step in demo().methods["closed-box-heating"][2].steps}
    assert steps <= {each.attributes.get("id") for each in pages["m/closed-box-heating/2/index.md"].elements}


LEADS = {
    "ambient": "The air",
    "settled": "Settled?",
    "pieces": "Pieces",
    "limit": "Against 105 °C",
    "meters": "The meters",
    "paid": "Who paid",
    "changed": "What changed",
}
"""What a reader meets first who follows a promised anchor."""


@pytest.mark.parametrize("uri", [REPORT, EDITION])
def test_a_promised_anchor_leads_to_what_it_names(pages: dict[str, Parsed], uri: str) -> None:
    assert list(LEADS) == PROMISED
    for name, words in LEADS.items():
        (target,) = [each for each in pages[uri].elements if each.attributes.get("id") == name]
        assert target.text.startswith(words), name


def test_a_report_without_a_run_has_the_promised_anchors_too() -> None:
    reports = {key: dataclasses.replace(each, runs={}, own={}) for key, each in demo().reports.items()}
    site = made(dataclasses.replace(demo(), reports=reports))
    found = parsed(next(each for each in site.pages if each.uri == REPORT))
    assert set(PROMISED) <= {each.attributes.get("id") for each in found.elements}
    assert "No answer yet: no piece has been tested." in found.text


def test_the_answer_has_at_most_45_words_and_stands_before_the_choice(pages: dict[str, Parsed]) -> None:
    (answer,) = pages[REPORT].all("p", class_="answer")
    assert answer.text == (
        "Tessvik T30 and Veldrun V30 stayed coolest of the 4 compared, about 29 and 31 °C (52 and 56 °F)"
        " above the air: no difference found. Pallsto and Okvarn (1 on one piece) go over the limit in 50 °C"
        " (122 °F) air and we stopped one Grenlo at 42 min."
    )
    elements = pages[REPORT].elements
    (choice,) = pages[REPORT].all("p", class_="choice")
    assert elements.index(answer) < elements.index(choice)


def test_every_link_inside_the_site_leads_somewhere(pages: dict[str, Parsed]) -> None:
    site = demo_site()
    known = {each.uri for each in site.pages} | {each.uri for each in site.downloads}
    for uri, found in pages.items():
        for each in found.all("a"):
            href = each.attributes["href"].partition("#")[0]
            if not href or ":" in href:
                continue
            base = posixpath.dirname(uri)
            there = posixpath.normpath(posixpath.join(base, href)).removeprefix("./")
            there = "index.md" if there == "." else there
            assert there in known or f"{there}/index.md" in known, (uri, href)


def test_every_figure_has_its_unit_its_uncertainty_and_its_pieces(pages: dict[str, Parsed]) -> None:
    rows = pages[REPORT].all("div", class_="bar")
    assert len(rows) == 5
    assert rows[-1].text.startswith("Grenlo 30 stopped at 42 min 1 of 3 pieces · ")
    for row in rows[:-1]:
        assert re.search(r"\d+\.\d ± \d+\.\d", row.text), row.text
        assert re.search(r"\d piece", row.text)
        assert "°F" in row.text
    caption = pages[REPORT].all("p", class_="caption")[0]
    assert caption.text.endswith("°C °F")
    for figure in pages[REPORT].all("span", class_="figure"):
        assert re.fullmatch(r"−?\d+(\.\d+)? ± \d+(\.\d+)?", figure.text)


def test_without_scripts_a_rise_is_told_in_both_units(pages: dict[str, Parsed]) -> None:
    """1 K is an interval of 1.8 °F, never with the 32 of a temperature."""
    row = pages[REPORT].all("div", class_="bar")[0].text
    celsius = re.search(r"(\d+\.\d) ± (\d+\.\d)", row)
    fahrenheit = re.search(r"(\d+\.\d) ± (\d+\.\d) °F", row)
    assert celsius is not None
    assert fahrenheit is not None
    for metric, us in zip(celsius.groups(), fahrenheit.groups(), strict=True):
        assert float(us) == pytest.approx(1.8 * float(metric), abs=0.15)


def test_the_chart_has_a_sentence_and_its_table_in_a_closed_block(pages: dict[str, Parsed]) -> None:
    found = pages[REPORT]
    assert len(found.all("figure", class_="chart")) == 1
    table = found.all("table", class_="readings")[0]
    assert "details" in table.inside
    block = next(each for each in found.elements if each.tag == "details")
    assert "open" not in block.attributes
    region = next(each for each in found.elements if each.attributes.get("role") == "region")
    assert region.attributes["tabindex"] == "0"
    assert region.attributes["aria-label"]
    heads = [
        each.text
        for each in found.elements
        if each.tag == "th" and each.attributes.get("scope") == "col" and "details" in each.inside
    ]
    assert heads[:3] == ["Minutes", "Tessvik T30, 5 pieces", "Veldrun V30, 5 pieces"]


def test_the_sentence_s_figures_are_the_headline_s(pages: dict[str, Parsed]) -> None:
    figures = [each.text for each in pages[REPORT].all("span", class_="figure")]
    sentence = pages[REPORT].all("figcaption")[0].text
    assert figures[0] in sentence
    told = r"[\d.]+ ± [\d.]+ °C \([\d.]+ ± [\d.]+ °F\)"
    assert re.match(
        rf"After 60 min at 30 A, Tessvik T30 \(5 pieces\) was {told} above the air and Okvarn IH30 "
        rf"\(3 pieces\) {told}\. Two more lay between\. Grenlo 30 C was stopped at 42 min\.",
        sentence,
    )


def test_an_opinion_is_marked_and_stands_outside_of_the_figures(pages: dict[str, Parsed]) -> None:
    opinions = [each.text for each in pages[REPORT].all("p", class_="opinion")]
    assert len(opinions) == 3
    assert all(text.startswith("Opinion") for text in opinions)
    figures = "".join(
        html for name, html in page(REPORT).slots.items() if name.startswith(("figures", "pairs", "chart"))
    )
    assert "loose" not in figures


def test_a_mark_is_never_torn_at_its_hyphen(pages: dict[str, Parsed]) -> None:
    for uri in ("index.md", REPORT):
        whole = [each.text for each in pages[uri].all("span", class_="nobreak") if each.text == "F-30"]
        told = pages[uri].prose.replace("Pallsto F-30.csv", "")
        assert len(whole) == told.count("F-30")


def test_the_report_s_end_is_a_line_of_its_own(pages: dict[str, Parsed]) -> None:
    assert [each.text for each in pages[REPORT].all("p", class_="end")] == ["End of report, edition 4."]


def test_a_version_s_title_tells_it_from_the_others(pages: dict[str, Parsed]) -> None:
    for number in (1, 2):
        uri = f"m/closed-box-heating/{number}/index.md"
        assert pages[uri].all("h1")[0].text.startswith(f"Heating in a closed box at 30 A, version {number}")
        assert split(page(uri))[0]["title"].endswith(f"version {number}")


def test_no_date_is_written_in_numbers_alone(pages: dict[str, Parsed]) -> None:
    for found in pages.values():
        assert not re.search(r"\d+/\d+/\d+", found.text)
    times = pages[REPORT].all("time")
    assert times
    # Of an older result the year alone may be known.
    assert all(re.fullmatch(r"\d{4}(-\d\d(-\d\d)?)?", each.attributes["datetime"]) for each in times)
    assert all(re.fullmatch(r"(\d{1,2} )?([A-Z][a-z]+ )?\d{4}", each.text) for each in times)


def test_headings_go_down_one_step_at_a_time(pages: dict[str, Parsed]) -> None:
    for uri, found in pages.items():
        levels = [int(each.tag[1]) for each in found.elements if re.fullmatch(r"h[1-6]", each.tag)]
        assert levels[0] == 1, uri
        assert levels.count(1) == 1
        assert all(after - before <= 1 for before, after in pairwise(levels))


def test_the_edition_s_page_holds_the_same_and_leads_to_the_report(pages: dict[str, Parsed]) -> None:
    assert pages[REPORT].text == pages[EDITION].text
    assert split(page(EDITION))[0]["canonical"] == "r/fuse-holders-30a/"
    assert page(REPORT).listed == ("robots: noindex" not in page(REPORT).markdown)
    assert not page(EDITION).listed


def test_no_script_and_no_style_stands_in_the_content() -> None:
    for each in demo_site().pages:
        html = html_of(each)
        assert not re.search(r"<script|<style|\sstyle=|\son\w+=", html)


def test_what_a_live_chart_is_drawn_from_stands_beside_the_page_and_is_json_alone() -> None:
    """The address says which content it is of, so that no browser draws another from its memory."""
    files = {each.uri: each.content for each in demo_site().downloads}
    for uri in (REPORT, EDITION):
        charts = Parsed(html_of(page(uri))).all("figure", class_="chart")
        assert charts
        for each in charts:
            address, _, digest = each.attributes["data-live"].partition("?")
            content = files[posixpath.normpath(posixpath.join(posixpath.dirname(uri), address))]
            assert hashlib.sha256(content).hexdigest().startswith(digest)
            assert len(digest) == 8
            told = content.decode().removeprefix("document.currentScript.made=")
            assert set(json.loads(told.removesuffix(";"))) == {"data", "layout", "units"}
            assert not set("<>&\u2028\u2029") & set(told)


def test_which_units_stand_first_changes_nothing_in_a_page_s_content() -> None:
    settings = demo().settings.model_copy(update={"units": "us"})
    site = make.made(published(dataclasses.replace(demo(), settings=settings)))
    assert (site.units, demo_site().units) == ("us", "metric")
    assert site.pages == demo_site().pages


def test_pages_are_dated_from_the_records() -> None:
    dates = {each.uri: each.updated for each in demo_site().pages}
    assert dates["r/ring-terminals-m6/index.md"] == "2026-09-21"
    assert dates["index.md"] == demo_site().newest == dates[REPORT] == "2026-10-12"
    assert dates["m/closed-box-heating/1/index.md"] == ""


def test_records_with_faults_make_no_site(tmp_path: Path) -> None:
    (tmp_path / "reports").mkdir()
    (tmp_path / "reports" / "bench.yml").write_text("format: 1\nreviever: X\n", encoding="utf-8")
    with pytest.raises(RecordsRefused) as refused:
        site_of(tmp_path)
    assert refused.value.faults


def test_a_method_that_its_meters_cannot_hold_makes_no_site(tmp_path: Path) -> None:
    small = Small(tmp_path)
    logger = tmp_path / "reports/instruments/logger.yml"
    text = logger.read_text(encoding="utf-8").replace("repeatability: 0.1 degC", "repeatability: 2 degC")
    logger.write_text(text, encoding="utf-8")
    small.run("kelda", "A", table(36.0))
    small.finish()
    with pytest.raises(RecordsRefused) as refused:
        site_of(tmp_path)
    assert [each.path for each in refused.value.faults] == ["measures.1.settled.change"]
    assert refused.value.left_out == 1


def test_the_same_records_make_the_same_pages() -> None:
    assert make.made(published(demo())) == demo_site()


@pytest.mark.parametrize("seed", ["1", "2"])
def test_no_hash_s_seed_changes_a_byte(seed: str) -> None:
    script = (
        "import hashlib, sys\n"
        "from pathlib import Path\n"
        "from tests.pages.sites import site_of\n"
        "print(hashlib.sha256(repr(site_of(Path(sys.argv[1]))).encode()).hexdigest())\n"
    )
    environment = dict(os.environ, PYTHONHASHSEED=seed, PYTHONPATH=str(ROOT))
    command = [sys.executable, "-c", script, str(ROOT)]
    found = subprocess.run(
        command, env=environment, capture_output=True, text=True, check=True
    ).stdout.strip()
    assert found == _digest(site_of(ROOT))


def _digest(site: Site) -> str:
    import hashlib

    return hashlib.sha256(repr(site).encode()).hexdigest()
