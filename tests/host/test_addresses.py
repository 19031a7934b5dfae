"""Two sources for one address are found, on disks that see fewer differences than ours too."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.host.addresses import RESERVED, clashes, reserved
from generator.pages import addresses

COMPOSED = unicodedata.normalize("NFC", "pr\u00fcfung/index.html")
DECOMPOSED = unicodedata.normalize("NFD", COMPOSED)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("r/a/index.html", "r/a/index.html"),
        ("b/index.html", "B/index.html"),
        (COMPOSED, DECOMPOSED),
        (COMPOSED.upper(), DECOMPOSED),
        ("stra\u00dfe.csv", "STRASSE.csv"),
        ("r/a", "r/a/index.html"),
    ],
)
def test_a_clash_names_both_sources(first: str, second: str) -> None:
    told = clashes([(first, "one.md"), ("other.html", "other.md"), (second, "two.md")])
    assert len(told) == 1
    assert {"one.md", "two.md"} <= set(told[0].split())
    assert "other" not in told[0]


def test_three_sources_are_one_clash_told_alike_in_any_order() -> None:
    written = [("a.html", "x"), ("A.html", "y"), ("a.HTML", "z")]
    assert clashes(written) == clashes(written[::-1])
    assert clashes(written) == ["y and z and x would both be written to /A.html"]


@given(st.lists(st.from_regex(r"[a-z0-9-]{1,9}", fullmatch=True), unique=True))
def test_different_ids_never_clash(ids: list[str]) -> None:
    assert clashes((f"r/{each}/index.html", each) for each in ids) == []


def test_every_generated_page_begins_in_a_reserved_part_or_is_the_front() -> None:
    generated = [
        addresses.report("a"),
        addresses.edition("a", 1),
        addresses.data("a", 1, "readings"),
        addresses.method("a"),
        addresses.version("a", 1),
        addresses.item("a"),
        addresses.METHODS,
        addresses.COMPARE,
        addresses.GLOSSARY,
        addresses.CORRECTIONS,
    ]
    assert {each.split("/")[0] for each in generated} == RESERVED - {"changes", "changes.xml"}
    assert addresses.FRONT == ""


@pytest.mark.parametrize(
    "address", ["compare/index.html", "I/x/index.html", "changes.xml", "m/index.html", "r/a/photo.jpg"]
)
def test_a_hand_written_file_may_not_take_a_generated_page_s_address(address: str) -> None:
    (told,) = reserved([("about/index.html", "about.md"), (address, "mine")])
    assert told.startswith(f"mine would be written to /{address.removesuffix('index.html')}, an address of")


@pytest.mark.parametrize(
    "address", ["index.html", "comparison/index.html", "report/index.html", "rm/i/x.html"]
)
def test_other_addresses_are_free(address: str) -> None:
    assert reserved([(address, "mine")]) == []
