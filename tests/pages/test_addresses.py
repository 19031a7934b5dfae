"""Addresses and links between pages."""

from __future__ import annotations

from urllib.parse import urljoin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.pages import addresses

PAGES = st.sampled_from(["", "m/", "m/box/", "m/box/2/", "r/a/", "r/a/1/"])
FILES = st.sampled_from(["r/a/1/data/readings.csv"])


def test_addresses_are_those_that_are_promised() -> None:
    assert addresses.report("a") == "r/a/"
    assert addresses.edition("a", 1) == "r/a/1/"
    assert addresses.data("a", 1, "readings") == "r/a/1/data/readings.csv"
    assert addresses.version("box", 2) == "m/box/2/"
    assert addresses.source("r/a/") == "r/a/index.md"


@given(PAGES, PAGES | FILES, st.sampled_from(["https://x.example/", "https://x.example/bench/"]))
def test_a_link_leads_there_from_anywhere_under_any_path(here: str, there: str, site: str) -> None:
    assert urljoin(site + here, str(addresses.link(here, there))) == site + there
    assert urljoin(site + here, str(addresses.link(here, there, "x"))) == f"{site}{there}#x"


@given(PAGES, PAGES)
def test_a_markdown_link_leads_from_source_to_source(here: str, there: str) -> None:
    found = urljoin(f"https://x.example/{addresses.source(here)}", str(addresses.markdown_link(here, there)))
    assert found == f"https://x.example/{addresses.source(there)}"


@pytest.mark.parametrize("name", ["a b", 'a"', "<x>", "javascript:x", "a&b"])
def test_what_no_address_holds_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match="no address"):
        addresses.anchor(name)
