"""Whatever a record holds comes out as text, on every kind of page."""

from __future__ import annotations

import html
import re

import markdown
import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree  # type: ignore[import-untyped]
from markupsafe import Markup

from generator.host.settings import EXTENSIONS
from generator.pages.feed import written
from generator.pages.render import Renderer, inert
from generator.pages.site import Page, Site
from generator.records.bench import Bench, load
from tests.history.benches import amended
from tests.pages.factory import HOSTILE, LINES, ROOT, demo
from tests.pages.filled import filled, unpublished
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


PUBLISHED = [
    "changes/index.md",
    *(
        f"r/{report}/{page}index.md"
        for report in ("connectors-10a", "grey-lever")
        for page in ("", "history/")
    ),
    *(f"r/{report}/{number}/index.md" for report in ("connectors-10a", "grey-lever") for number in (1, 2, 3)),
    "i/halvenor-c2/index.md",
]


def site(text: str) -> dict[str, Page]:
    return {page.uri: page for page in made(unpublished(filled(demo(), text))).pages}


def told(text: str) -> str:
    """A text as readers see it: its blanks drawn together."""
    return " ".join(text.split())


@pytest.fixture(scope="module")
def plain() -> dict[str, Page]:
    return site(PLAIN)


@pytest.fixture(scope="module")
def records(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    """Two reports, each with three editions: one corrected and reworded, one tested anew and withdrawn."""
    return load(amended(tmp_path_factory.mktemp("hostile") / "b"))


@pytest.fixture(scope="module")
def plainly(records: Bench) -> Site:
    return made(filled(records, PLAIN))


def holding(page: Page, text: str, expected: Page) -> bool:
    """Whether a page holds anything of a text, each where the plain one stands in the other page."""
    found, other = (Parsed(ANSWER.sub("", html_of(each))) for each in (page, expected))
    assert found.shape == other.shape, page.uri
    # Drawings apart: there a long name is cut. In an answer names that are too long give way to counts.
    assert found.prose.count(told(text)) == other.prose.count(PLAIN), page.uri
    return PLAIN in other.prose


@pytest.mark.parametrize("text", [HOSTILE, *LINES])
def test_a_hostile_text_stands_where_a_plain_one_would_and_makes_no_element(
    text: str, plain: dict[str, Page]
) -> None:
    # These alone hold nothing of records that no edition has published.
    without = {uri for uri, page in site(text).items() if not holding(page, text, plain[uri])}
    assert without == {"glossary/index.md", "changes/index.md"}


@pytest.mark.parametrize("text", [HOSTILE, *LINES])
def test_so_it_does_where_it_was_published_corrected_tested_anew_and_withdrawn(
    text: str, records: Bench, plainly: Site
) -> None:
    expected = {page.uri: page for page in plainly.pages}
    site = made(filled(records, text))
    assert {page.uri for page in site.pages} == set(expected)
    assert set(PUBLISHED) <= set(expected)
    without = {page.uri for page in site.pages if not holding(page, text, expected[page.uri])}
    assert without == {"glossary/index.md"}


@pytest.mark.parametrize("text", [HOSTILE, *LINES])
def test_a_feed_of_hostile_summaries_is_the_same_tree_with_other_texts(
    text: str, records: Bench, plainly: Site
) -> None:
    found, expected = (
        list(etree.fromstring(feed(each).encode()).iter()) for each in (made(filled(records, text)), plainly)
    )
    assert [(each.tag, sorted(each.attrib)) for each in found] == [
        (each.tag, sorted(each.attrib)) for each in expected
    ]
    kept = sum(told(each.text or "").count(told(text)) for each in found)
    assert kept == sum((each.text or "").count(PLAIN) for each in expected) > 10


@pytest.mark.parametrize("sign", ["\x00", "\x07", "\x1b", "\ufffe"])
def test_a_sign_that_no_markup_may_hold_stands_in_none(sign: str, records: Bench) -> None:
    site = made(filled(records, f"Plain{sign} words"))
    assert etree.fromstring(feed(site).encode()).tag.endswith("feed")
    for page in site.pages:
        assert sign not in html_of(page), page.uri
        assert all(sign not in slot for slot in page.slots.values()), page.uri


def feed(site: Site) -> str:
    assert site.feed is not None
    return written(site.feed, "https://your-bench.example/", Renderer(ROOT))


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
