"""Whatever a record holds comes out as text, on every kind of page."""

from __future__ import annotations

import html
import re

import markdown
import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from generator.host.settings import EXTENSIONS
from generator.pages.render import inert
from generator.pages.site import Page
from tests.pages.factory import HOSTILE, LINES, demo, filled
from tests.pages.rendered import Parsed, html_of, parsed, split
from tests.pages.sites import made

PLAIN = "Plain words"
ANSWER = re.compile(r'<p class="answer">.*?</p>', re.DOTALL)
KINDS = [
    "index.md",
    "compare/index.md",
    "corrections/index.md",
    "i/okvarn-ih30/index.md",
    "m/index.md",
    "m/closed-box-heating/index.md",
    "m/closed-box-heating/2/index.md",
    "r/fuse-holders-30a/index.md",
    "r/fuse-holders-30a/1/index.md",
]


def site(text: str) -> dict[str, Page]:
    return {page.uri: page for page in made(filled(demo(), text)).pages}


def told(text: str) -> str:
    """A text as readers see it: its blanks drawn together."""
    return " ".join(text.split())


@pytest.fixture(scope="module")
def plain() -> dict[str, Page]:
    return site(PLAIN)


@pytest.mark.parametrize("text", [HOSTILE, *LINES])
def test_a_hostile_text_stands_where_a_plain_one_would_and_makes_no_element(
    text: str, plain: dict[str, Page]
) -> None:
    for uri, page in site(text).items():
        found, expected = (Parsed(ANSWER.sub("", html_of(each))) for each in (page, plain[uri]))
        assert found.shape == expected.shape, uri
        # Drawings apart: there a long name is cut. In an answer names that are too long give way to counts.
        assert found.prose.count(told(text)) == expected.prose.count(PLAIN), uri
        # These alone hold nothing of records that no edition has published.
        assert (expected.prose.count(PLAIN) > 0) == (uri not in {"glossary/index.md", "changes/index.md"}), (
            uri
        )


@pytest.mark.parametrize("text", ["`x` **y** {: #z }", "<b>x</b> [y](z)"])
def test_a_hostile_name_in_the_answer_makes_no_element(text: str) -> None:
    page = site(text)["r/fuse-holders-30a/index.md"]
    (paragraph,) = ANSWER.findall(html_of(page))
    found = Parsed(paragraph)
    assert {each.tag for each in found.elements} <= {"p", "strong", "span"}
    assert {name for each in found.elements for name in each.attributes} <= {"class"}
    assert told(f"{text} {text} stayed coolest") in found.text or "items stayed coolest" in found.text


def test_every_kind_of_page_was_seen(plain: dict[str, Page]) -> None:
    assert set(KINDS) <= set(plain)


def test_no_attribute_that_acts_holds_a_record_s_text() -> None:
    for page in site("javascript:alert(1)").values():
        for element in parsed(page).elements:
            for name, value in element.attributes.items():
                assert (
                    not (name in {"href", "src", "id", "style"} or name.startswith("on"))
                    or "javascript" not in value
                )


@pytest.mark.parametrize("text", [HOSTILE, 'say "no" \\ \u2028 \x85 \x7f: - #', "☃ 🙂 ﬁ", "{#} %}"])
def test_a_page_s_title_is_read_back_from_its_front_matter(text: str) -> None:
    head, _ = split(site(text)["r/fuse-holders-30a/index.md"])
    assert html.unescape(head["title"]) == re.sub(r"[\x00-\x20\x7f-\x9f\u2028\u2029]+", " ", text).strip(" ")
    assert not set("<>\"'") & set(head["title"])


def test_a_name_in_a_chart_is_escaped() -> None:
    page = site(HOSTILE)["r/fuse-holders-30a/index.md"]
    assert "A&amp;B" in page.slots["chart-1"]
    assert "<i>" not in page.slots["chart-1"]


CONTEXTS = [
    "{}",
    "# {} {{ #x }}",
    "- {}",
    "1. {}",
    "**{}**",
    "[{}](a.md)",
    "- a: {}\n",
    '<section markdown="1">\n\n{}\n{{: .note }}\n\n</section>',
    "a | b\n--|--\n{} | {}",
]


@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1), st.sampled_from(CONTEXTS))
def test_any_text_survives_markdown(text: str, context: str) -> None:
    """A cell, a heading, a list, a link, a paragraph with a class: what goes in comes out."""
    value = inert(text)
    source = context.format(*[value] * context.count("{}"))
    made = markdown.markdown(source, extensions=list(EXTENSIONS))
    bare = markdown.markdown(context.format(*["w"] * context.count("{}")), extensions=list(EXTENSIONS))
    found, expected = Parsed(made), Parsed(bare)
    kept = re.sub(r"[\x00-\x20\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]+", " ", text).strip(" ")
    if not kept.strip():
        return
    assert found.shape == expected.shape
    assert told("".join(found.texts)) == told("".join(expected.texts).replace("w", kept))


def test_inert_text_leaves_made_markup_alone() -> None:
    made = Markup("<b>x</b>")
    assert inert(made) is made


def test_the_contents_of_a_page_hold_a_heading_s_text_escaped(plain: dict[str, Page]) -> None:
    reader = markdown.Markdown(extensions=list(EXTENSIONS))
    reader.convert(split(site(HOSTILE)["r/fuse-holders-30a/index.md"])[1])
    names = html.unescape(str(vars(reader)["toc"]).replace("<", "{"))
    assert "{script" not in names
    assert "{i>" not in names
    assert "<i>" in names
    assert plain["index.md"].slots == {}


def test_no_attribute_list_is_left_as_text(plain: dict[str, Page]) -> None:
    for page in plain.values():
        assert "{:" not in html_of(page)
        assert " { #" not in html_of(page)
