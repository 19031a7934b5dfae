"""What a page says on paper alone: of what each sheet is, and where its links lead."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from generator.host.build import build
from generator.host.paper import named, spelled
from tests.host import samples
from tests.host.conftest import Make

HERE = "https://slipway-bench.example/boats/r/holders/"
ROOT = re.compile(r'<html data-sheet="([^"]*)"')


def article(inside: str) -> str:
    return f'<html class="no-js"><a href="../m/">Methods</a><article class="x">{inside}</article></html>'


@pytest.mark.parametrize(
    ("href", "at"),
    [
        ("../../m/x/", "slipway-bench.example/boats/m/x/"),
        ("../../m/x/#steps", "slipway-bench.example/boats/m/x/"),
        ("1/data/a.csv", "slipway-bench.example/boats/r/holders/1/data/a.csv"),
        ("../../i/a&amp;b/", "slipway-bench.example/boats/i/a&amp;b/"),
        ("https://slipway-bench.example/boats/m/", ""),
        ("https://elsewhere.example/m/", ""),
        ("//elsewhere.example/m/", ""),
        ("mailto:bench@slipway-bench.example", ""),
        ("#cautions", ""),
        ("./#cautions", ""),
        ("../holders/", ""),
        ("", ""),
    ],
)
def test_links_to_other_pages_of_the_site_say_where_they_lead(href: str, at: str) -> None:
    link = f'<a class="y" href="{href}">x</a>'
    told = f'<a data-at="{at}" class="y" href="{href}">x</a>' if at else link
    assert spelled(article(link), HERE) == article(told)


def test_an_address_is_told_once_a_page() -> None:
    link = '<a href="../../m/">x</a> <a href="../../m/#y">x</a>'
    assert spelled(article(link * 2), HERE).count("data-at") == 1


def test_a_link_that_paper_leaves_out_is_not_the_first() -> None:
    made = spelled(article('<a href="../../m/" data-at="">x</a><a href="../../m/">y</a>'), HERE)
    assert '<a href="../../m/" data-at="">x</a><a data-at="slipway-bench.example/boats/m/"' in made


def test_without_an_address_of_the_site_nothing_is_told() -> None:
    page = article('<a href="../../m/">x</a>')
    assert spelled(page, "") == page


def test_what_a_sheet_says_goes_to_the_root_and_nothing_else_moves() -> None:
    page = '<html lang="en">\n<head>\n  <meta name="sheet" content="A &amp; B&#10;\\1">\n</head>'
    assert named(page) == '<html data-sheet="A &amp; B&#10;\\1" lang="en">\n<head>\n</head>'
    assert named("<html><head></head>") == "<html><head></head>"


def told(site: Path, address: str) -> list[str]:
    found = ROOT.search((site / address / "index.html").read_text(encoding="utf-8"))
    assert found
    return found[1].split("&#10;")


def test_each_page_of_a_site_says_on_its_sheets_what_it_is_of(bench: Path, make: Make) -> None:
    made = samples.site(demonstration=False)
    long = samples.page("long.md", "Which " + "very " * 40 + "long question?", "No heading.\n")
    make(replace(made, title="A & B", pages=(*made.pages, long)))
    site = build(bench)
    name, address = told(site, "m")
    assert name == "A &amp; B: Methods"
    assert re.fullmatch(r"slipway-bench\.example/m/ · Provebook [\d.]+", address)
    name, _ = told(site, "long")
    assert name.endswith("very…")
    assert len(name) < 90
    make(made)
    (bench / "mkdocs.yml").write_text(
        samples.MKDOCS.replace("site_url: https://slipway-bench.example/", "copyright: © <b>Me</b>"), "utf-8"
    )
    assert [line.partition(" ")[0] for line in told(build(bench), "m")] == ["The", "Provebook", "©"]


def test_demonstration_data_say_so_on_each_sheet(bench: Path) -> None:
    assert told(build(bench), "m")[1] == "Demonstration data"
