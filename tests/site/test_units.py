"""Every page of the demo in both systems of units: none has a unit bare, and the words are the same in both."""

from __future__ import annotations

import html
import json
from pathlib import Path

import pytest

from tests.site.shown import METRIC, US, Text, attributes_of, texts_of, units_in, words_shown, written

ROOT = Path(__file__).parents[2]
BOTH = "So a rise of 50\u00a0°C is one of 90\u00a0°F."
"""The glossary tells how one becomes the other."""
IN_K = "Here rises are in K, as in the data: a rise of 1\u00a0K is a rise of 1\u00a0°C or 1.8\u00a0°F."
"""Data are in K for everyone; the page says so where it tells them."""


def generated(site: Path) -> list[Path]:
    """Pages that are made from records, less the workings of figures, which are in SI for everyone.

    The others are the reviewer's own writing.
    """
    own = {path.stem for path in (ROOT / "reports" / "pages").glob("*.md")}
    made = (path for path in sorted(site.rglob("*.html")) if path.parent.name not in own)
    return [path for path in made if "how" not in path.parts]


def test_no_unit_is_shown_to_readers_of_the_other_system(demo: Path) -> None:
    said = [*written(ROOT / "reports"), IN_K, BOTH]
    found = {
        (path.relative_to(demo).as_posix(), unit, text.data.strip()[:80])
        for path in generated(demo)
        for text in texts_of(path)
        for unit in text.bare(said)
    }
    assert found == set()


def test_both_systems_have_their_units_on_every_kind_of_page(demo: Path) -> None:
    for address in ("", "r/fuse-holders-30a", "m/closed-box-heating/2"):
        texts = texts_of(demo / address / "index.html")
        for system, other in ((METRIC, US), (US, METRIC)):
            seen = [each for each in texts if each.shown(system) and each.system == system]
            units = set().union(*(units_in(each.data) for each in seen))
            assert units == {system}, (address, other)


def test_the_words_of_a_page_are_the_same_in_both(demo: Path) -> None:
    """What is told apart, within a limit or over it, never depends on the units it is told in."""
    for path in generated(demo):
        texts = texts_of(path)
        metric, us = (words_shown(texts, system) for system in (METRIC, US))
        assert metric == us, path
        assert len(metric) > 100


def test_what_is_read_aloud_or_by_machines_has_no_unit_of_one_system_alone(demo: Path) -> None:
    for path in generated(demo):
        for name, value in attributes_of(path):
            assert units_in(value) in (set(), {METRIC, US}), (path, name, value)


def test_what_a_search_finds_is_told_in_both(demo: Path) -> None:
    """Its excerpts come out of one file, whatever a reader chose."""
    said = [*written(ROOT / "reports"), IN_K, BOTH]
    own = {path.stem for path in (ROOT / "reports" / "pages").glob("*.md")}
    documents = json.loads((demo / "search" / "documents.json").read_text("utf-8"))["docs"]
    both = 0
    for each in documents:
        if each["location"].partition("/")[0] in own:
            continue
        text = html.unescape(each["text"])
        both += units_in(text) == {METRIC, US}
        if units_in(text) != {METRIC, US}:
            for words in said:
                text = text.replace(words, "")
            assert units_in(text) == set(), each
    assert both > 5


@pytest.mark.parametrize(
    ("data", "system", "bare"),
    [
        ("27.9 °C", "", ["°C"]),
        ("27.9 °C", METRIC, []),
        ("27.9 °C", US, ["°C"]),
        ("1.5\u00a0K", "", ["5\u00a0K"]),
        ("388 N", US, ["8 N"]),
        ("11 AWG", METRIC, ["1 AWG"]),
        ("300 mm each side", "", []),
        ("type K, 60 in 100, 30 A", "", []),
    ],
)
def test_what_a_bare_unit_is(data: str, system: str, bare: list[str]) -> None:
    found = Text(data, system, other=False, beside=False, kelvins=False).bare(["300 mm each side"])
    assert found == bare
