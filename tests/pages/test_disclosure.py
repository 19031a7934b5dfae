"""Who got the pieces and how: exact counts, in words."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from generator.pages.disclosure import Source, disclosure
from generator.pages.render import Renderer
from generator.records.bench import load
from tests.pages import shelf
from tests.pages.factory import ROOT, demo
from tests.pages.rendered import parsed
from tests.pages.sites import made


def items(*got: tuple[str, str | None]) -> Any:
    like = demo().items["grenlo-30"]
    pieces = {
        chr(65 + number): like.specimens["A"].model_copy(update={"got": how, "from_": whom})
        for number, (how, whom) in enumerate(got)
    }
    return {"x": like.model_copy(update={"specimens": pieces})}


@pytest.fixture
def line(tmp_path: Path) -> Any:
    folder = tmp_path / "site_templates" / "pages"
    folder.mkdir(parents=True)
    text = '{% from "words/disclosure.jinja" import line %}{{ line(d) }}'
    (folder / "line.html.jinja").write_text(text, encoding="utf-8")
    made = Renderer(tmp_path)

    def told(*got: tuple[str, str | None]) -> str:
        found = disclosure(items(*got), {"x": [chr(65 + n) for n in range(len(got))]}, "own", "")
        return made.fragment("pages/line.html.jinja", d=found).replace("&#160;", " ")

    return told


@pytest.mark.parametrize(
    ("got", "sentence"),
    [
        ([("bought", "chandler")], "I bought the one piece."),
        ([("bought", None)] * 2, "I bought both pieces."),
        ([("bought", None)] * 24, "I bought all 24 pieces."),
        (
            [("bought", "chandler")] * 2 + [("sent", "Pallsto"), ("lent", None), ("from a viewer", None)],
            (
                "I bought 2 of the 5 pieces. One piece came from a viewer. One piece was lent to me. "
                "One piece was sent to me by Pallsto."
            ),
        ),
        ([("sent", "Okvarn")] * 3, "I bought none of the 3 pieces. 3 pieces were sent to me by Okvarn."),
    ],
)
def test_the_sentence_counts_every_piece_by_how_it_was_had(line: Any, got: Any, sentence: str) -> None:
    assert line(*got) == f"{sentence} No link on this page earns me money."


SENT = {
    "items/halvenor-c2.yml": re.sub(
        r"got: bought, from: [a-z ]+,( date: [\d-]+), paid: [\d.]+ EUR(, pack: 10)?",
        r"got: sent, from: Halvenor,\1",
        shelf.STOCKED,
    )
}
"""All pieces of the item came from its maker."""


def test_where_the_maker_sent_them_every_result_says_so_before_its_first_figure(tmp_path: Path) -> None:
    found = load(shelf.write(tmp_path / "bench", shelf.FILES | SENT))
    assert found.faults == ()
    pages = {page.uri: parsed(page) for page in made(found).pages}
    holding = {uri for uri, page in pages.items() if page.all("span", class_="figure") or "/how/" in uri}
    assert {uri.partition("/")[0] for uri in holding} == {"r", "i", "compare"}
    for uri in holding - {"i/quorsby-q2/index.md"}:
        page = pages[uri]
        (line,) = page.all("p", class_="disclosure")
        assert re.search(r"(One piece was|\d pieces were) sent to me by Halvenor\.", line.text), uri
        assert "details" not in line.inside
        classes = [each.attributes.get("class", "").split() for each in page.elements]
        first = next((n for n, each in enumerate(classes) if {"figure", "steps", "answer"} & set(each)), None)
        assert first is not None, uri
        assert page.elements.index(line) < first, uri
    assert "I bought both pieces." in pages["i/quorsby-q2/index.md"].text


def test_each_piece_says_beside_its_figure_who_sent_it(tmp_path: Path) -> None:
    found = load(shelf.write(tmp_path / "bench", shelf.FILES | SENT))
    pages = {page.uri: parsed(page) for page in made(found).pages}
    card = pages["r/grey-lever/index.md"].text.split("Each item#", 1)[1].split("How they heated#")[0]
    assert "sent to me by Halvenor" in card
    pieces = pages["i/halvenor-c2/index.md"].text.split("Pieces of Halvenor C2", 1)[1]
    assert pieces.count("sent to me by Halvenor") == 5


def test_only_pieces_that_were_tested_count() -> None:
    demo_items = demo().items
    found = disclosure(demo_items, {"tessvik-t30": ["A", "D"]}, "own", "")
    assert (found.pieces, found.bought) == (2, 2)
    assert found.items[0].sources == (Source("bought", "chandler", 1), Source("bought", "web shop", 1))


def test_an_initiative_that_is_not_the_reviewer_s_own_is_kept() -> None:
    assert disclosure({}, {}, "own", "").initiative == ""
    assert disclosure({}, {}, "a club", "").initiative == "a club"


def test_the_words_have_no_template_of_their_own_in_the_demo() -> None:
    assert not (ROOT / "site_templates" / "pages" / "line.html.jinja").exists()
