"""The glossary and the corrections policy: every word has its anchor and a line on how it comes about."""

from __future__ import annotations

import re

from tests.pages.factory import demo, demo_site
from tests.pages.rendered import Parsed, parsed

PAGES = {page.uri: page for page in demo_site().pages}
GLOSSARY = parsed(PAGES["glossary/index.md"])
CORRECTIONS = parsed(PAGES["corrections/index.md"])

SAID = [
    "within",
    "over",
    "too-close",
    "stopped",
    "not-finished",
    "worsening",
    "still-warming",
    "settled",
    "too-few",
    "no-difference",
    "one-piece",
    "older",
    "not-tested",
    "other-method",
    "correction",
    "retest",
    "withdrawn",
    "draft",
    "demonstration",
]
"""What pages call outcomes and states."""

THINGS = [
    "item",
    "piece",
    "stock",
    "method",
    "run",
    "termination",
    "control",
    "report",
    "edition",
    "opinion",
    "rise",
    "ambient",
    "limit",
]

QUANTITIES = [
    "uncertainty",
    "standard-uncertainty",
    "budget",
    "spread",
    "pooled",
    "gap",
    "place",
    "settled-rise",
    "time-constant",
    "mark",
    "current",
    "drop",
    "lead",
    "resistance",
    "thermal-emf",
    "in-phase",
    "impedance",
    "power",
    "reference-ambient",
    "zero-check",
    "probe-loss",
    "k-of-n",
    "price",
    "standing",
]


def entries(page: Parsed) -> dict[str, str]:
    """The words by their anchors."""
    return {each.attributes["id"]: each.text.removesuffix("#") for each in page.all("h3")}


def test_every_word_that_pages_use_has_an_anchor() -> None:
    assert {*SAID, *THINGS, *QUANTITIES} <= set(entries(GLOSSARY))


def test_every_entry_says_what_it_is_and_how_it_comes_about() -> None:
    parts = re.split(r"<h3", "".join(f"<h3{part}" for part in _markup().split("<h3")[1:]))[1:]
    assert len(parts) == len(entries(GLOSSARY)) > 50
    for part in parts:
        assert part.count("<p>") == 2, part[:80]
        assert part.count("<strong>How:</strong>") == 1, part[:80]


def _markup() -> str:
    from tests.pages.rendered import html_of

    return re.sub(r"<h2.*?</h2>", "", html_of(PAGES["glossary/index.md"]))


def test_no_anchor_is_there_twice() -> None:
    ids = [each.attributes["id"] for each in GLOSSARY.elements if "id" in each.attributes]
    assert len(ids) == len(set(ids))


def test_a_rise_is_told_without_an_offset() -> None:
    """A difference of 1 K is 1.8 °F: NIST SP 811, appendix B (temperature intervals), from memory."""
    assert "times 1.8, and nothing is added. So a rise of 50 °C is one of 90 °F." in GLOSSARY.text


def test_the_front_page_leads_to_words_that_are_there() -> None:
    anchors = re.findall(r"\(glossary/index\.md#([a-z-]+)\)", PAGES["index.md"].markdown)
    assert len(anchors) >= 4
    assert set(anchors) <= set(entries(GLOSSARY))


def test_the_policy_names_every_reason_for_an_edition_and_how_to_reach_the_reviewer() -> None:
    told = [each.text for each in CORRECTIONS.all("strong")]
    assert told == ["Correction:", "Retest:", "Addition:", "Wording:", "Withdrawal:"]
    links = [each.attributes["href"] for each in CORRECTIONS.all("a")]
    assert f"mailto:{demo().settings.contact}" in links
    assert "Correction: we were wrong." in CORRECTIONS.text
    assert "Retest: it changed." in CORRECTIONS.text
