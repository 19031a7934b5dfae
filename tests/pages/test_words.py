"""Words that promise stand nowhere but in the sentence that denies them: in no page and in no template."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.pages.site import Page
from generator.records.bench import load
from tests.pages import shelf
from tests.pages.factory import ROOT, demo_site
from tests.pages.rendered import parsed
from tests.pages.sites import made

BARRED = re.compile(
    r"\b(pass|passes|passed|fail|fails|failed|failing|safe|safer|safely|unsafe|approved|certified|proven|compliant|"
    r"guaranteed)\b",
    re.I,
)
DENIAL = "nothing here is said to pass, or to be safe, approved, certified or proven"

TEMPLATES = sorted(
    path
    for path in (ROOT / "site_templates").rglob("*")
    if path.suffix in {".jinja", ".html"} and path.is_file()
)

_COMMENT = re.compile(r"\{#.*?#\}", re.S)
_CODE = re.compile(r'"[^"\n]*":(?= ")')
"""A code of the records or the evaluation, which a template turns into words."""


_TYPED = re.compile(r"^# .*: failed at 1200$", re.M)
"""What a person types into a record of endurance, in the file that is begun for it: no page tells it so."""

_TAG = re.compile(r"\{[{%].*?[}%]\}", re.S)
_NAME = re.compile(r"\bdata-[a-z-]+(?==)")


def words_of(template: str) -> str:
    """What a template can print: its text and its words, without comments, names and codes."""
    told = _TYPED.sub("", _CODE.sub("", _COMMENT.sub("", template)))
    told = _TAG.sub(lambda tag: " ".join(re.findall(r'"[^"]*"', tag[0])), told)
    return " ".join(_NAME.sub("", told).replace(DENIAL, "").split())


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_no_template_promises(path: Path) -> None:
    assert BARRED.findall(words_of(path.read_text(encoding="utf-8"))) == []


def test_a_promise_in_a_template_would_be_found() -> None:
    codes = '{# safe #}{% set words = {"part failed": "it gave way", "x": "It passed."} %}{{ live_failed() }}'
    assert BARRED.findall(words_of(f'{codes}<p data-failed="{{{{ certified }}}}">It is safe.</p>')) == [
        "passed",
        "safe",
    ]


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> list[Page]:
    """Every page of the demo and of a bench with stocks, several reports and untested items."""
    small = load(shelf.write(tmp_path_factory.mktemp("words") / "bench"))
    assert small.faults == ()
    return [*demo_site().pages, *made(small).pages]


def test_no_page_promises(pages: list[Page]) -> None:
    assert len(pages) > 25
    for page in pages:
        assert BARRED.findall(parsed(page).text.replace(DENIAL, "")) == [], page.uri


def test_nothing_that_is_read_aloud_and_no_file_promises(pages: list[Page]) -> None:
    for page in pages:
        said = [
            value
            for each in parsed(page).elements
            for name, value in each.attributes.items()
            if name in {"alt", "title", "aria-label", "placeholder", "value", "data-name"}
        ]
        assert BARRED.findall(" ".join(said)) == [], page.uri
    for file in demo_site().downloads:
        # What a zip holds is stored as it is, so its words stand in its bytes.
        held = file.content.decode("utf-8", "replace").replace(DENIAL, "")
        assert BARRED.findall(held) == [], file.uri


def test_no_title_and_no_description_promises(pages: list[Page]) -> None:
    for page in pages:
        assert BARRED.findall(page.markdown.split("---\n")[1]) == [], page.uri


def test_pages_with_figures_hold_the_denial(pages: list[Page]) -> None:
    held = [page for page in pages if parsed(page).all("span", class_="figure")]
    assert {page.uri.split("/")[0] for page in held} == {"r", "i", "m", "compare"}
    for page in held:
        assert DENIAL in parsed(page).text, page.uri


def test_sentences_speak_of_the_pieces_tested(pages: list[Page]) -> None:
    for page in pages:
        if page.uri.startswith("i/") and parsed(page).all("p", class_="sized"):
            told = [each.text for each in parsed(page).all("p") if "li" in each.inside]
            assert all(
                re.match(r"The (one piece|\d+ pieces) we tested: ", each)
                for each in told
                if "limit" in each or "prints" in each
            ), page.uri


def test_nothing_is_rated_or_starred(pages: list[Page]) -> None:
    for page in pages:
        assert not re.search(r"[★☆⭐]|\bstars?\b|aggregateRating|reviewRating", parsed(page).text), page.uri
