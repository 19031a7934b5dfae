"""The whole demo site, page by page: every page reached, every link alive, nothing from elsewhere."""

from __future__ import annotations

import re
from pathlib import Path

from generator.host.build import build
from tests.host import links
from tests.pages import shelf

ADDRESS = re.compile(r"""(?:https?:)?//[\w.-]+[^\s"'<>)]*""")
LOADING = re.compile(
    r"""<(?:script|img|iframe|source|video|audio|embed|object)\b[^>]*\b(?:src|data)="([^"]*)"""
)
STYLES = re.compile(
    r"""<link\b[^>]*\brel="(?:stylesheet|preload|preconnect|dns-prefetch|modulepreload)"[^>]*>"""
)


def pages(site: Path) -> list[Path]:
    return sorted(site.rglob("*.html"))


def test_every_page_is_reached_and_no_link_or_anchor_is_dead(demo: Path) -> None:
    assert links.faults(demo) == []


PROMISED = """
    r/fuse-holders-30a r/fuse-holders-30a/1 m m/closed-box-heating m/closed-box-heating/2 i/okvarn-ih30 compare
    glossary changes corrections about
""".split()
"""Addresses that are printed, and so are for ever; the front page is the root's."""


def test_the_addresses_are_the_promised_ones(demo: Path) -> None:
    for address in ("", *PROMISED):
        assert (demo / address / "index.html").is_file(), address


def test_every_link_between_pages_is_relative_and_ends_in_a_slash(demo: Path) -> None:
    """So a site under a sub-path works, and no address needs a server to add its slash."""
    for address, page in links.read(demo).items():
        for link in page.links:
            path = link.partition("#")[0]
            if re.match(r"https?:|mailto:|data:", link) or not path:
                continue
            assert not path.startswith("/"), (address, link)
            assert path.endswith("/") or path in {".", ".."} or "." in path.rpartition("/")[2], (
                address,
                link,
            )


def test_a_bench_of_stocks_several_reports_and_untested_items_is_whole_too(tmp_path: Path) -> None:
    assert links.faults(build(shelf.write(tmp_path / "bench"), strict=True)) == []


def test_the_menu_leads_to_every_kind_of_index(demo: Path) -> None:
    menu = re.search(r'<div class="menu-wide">(.*?)</div>', (demo / "index.html").read_text("utf-8"), re.S)
    assert menu
    assert re.findall(r'href="([^"]*)"', menu[1]) == [
        ".", "compare/", "m/", "glossary/", "changes/", "corrections/", "about/",
    ]  # fmt: skip


def test_nothing_is_loaded_from_elsewhere(demo: Path) -> None:
    for page in pages(demo):
        text = page.read_text(encoding="utf-8")
        loaded = [*LOADING.findall(text), *STYLES.findall(text)]
        assert loaded
        assert not [each for each in loaded if ADDRESS.search(each)], page
    for sheet in sorted(demo.rglob("*.css")):
        found = re.findall(r"url\(([^)]*)\)|@import", sheet.read_text(encoding="utf-8"))
        assert not [each for each in found if ADDRESS.search(each)], sheet


def test_no_script_stands_in_a_page(demo: Path) -> None:
    for page in pages(demo):
        text = page.read_text(encoding="utf-8")
        for attributes, inner in re.findall(r"<script\b([^>]*)>(.*?)</script>", text, re.S):
            data = 'type="application/json"' in attributes
            assert data or ("src=" in attributes and not inner.strip()), page
        assert not re.search(r"<[^>]+\son[a-z]+\s*=", text), page
        assert "javascript:" not in text
        assert "blob:" not in text


def test_no_empty_slot_is_left(demo: Path) -> None:
    for page in pages(demo):
        assert not re.search(r"data-slot=\"[^\"]*\">\s*</div>", page.read_text(encoding="utf-8")), page


def test_a_draft_edition_points_to_the_reports_own_address(demo: Path) -> None:
    report = "https://slipway-bench.example/r/fuse-holders-30a/"
    for address in ("r/fuse-holders-30a", "r/fuse-holders-30a/1"):
        text = (demo / address / "index.html").read_text(encoding="utf-8")
        assert re.findall(r'<link rel="canonical" href="([^"]*)"', text) == [report]
    site_map = (demo / "sitemap.xml").read_text(encoding="utf-8")
    published = 'content="noindex"' not in (demo / "r/fuse-holders-30a/index.html").read_text(
        encoding="utf-8"
    )
    assert (f"<loc>{report}</loc>" in site_map) == published
    assert f"<loc>{report}1/</loc>" not in site_map
    found = (demo / "search" / "documents.json").read_text(encoding="utf-8")
    assert ('"r/fuse-holders-30a/' in found) == published
    assert '"r/fuse-holders-30a/1/' not in found
