"""What the plugin makes of a bench while MkDocs builds."""

from __future__ import annotations

import logging
import re
import unicodedata
from dataclasses import replace
from pathlib import Path

import pytest

from generator import __version__
from generator.fault import Fault, Place, RecordsRefused
from generator.host import plugin
from generator.host.build import BuildRefused, build
from generator.pages.site import Download, Page, Site
from tests.host import samples
from tests.host.conftest import Make


def html(site: Path, address: str = "") -> str:
    return (site / address / "index.html").read_text(encoding="utf-8")


def with_pages(*pages: Page) -> Site:
    made = samples.site()
    return replace(made, pages=tuple(sorted((*made.pages, *pages), key=lambda each: each.uri)))


def with_editions(site: Site) -> Site:
    """The same with three editions of each report, which no menu, search or map lists."""
    reports = [each for each in site.pages if each.uri.startswith("r/")]
    more = [
        replace(each, uri=each.uri.replace("/index.md", f"/{number}/index.md"), listed=False,
                markdown=each.markdown.replace("../../m/", "../../../m/"))
        for each in reports
        for number in (1, 2, 3)
    ]  # fmt: skip
    return replace(site, pages=tuple(sorted((*site.pages, *more), key=lambda each: each.uri)))


# --- the menu and the size of a page -------------------------------------------------------------------


def test_pages_do_not_grow_with_the_number_of_reports(bench: Path, make: Make) -> None:
    whole: dict[int, int] = {}
    pages: set[int] = set()
    fronts: set[int] = set()
    of_editions: set[int] = set()
    for number in (50, 100, 200):
        make(with_editions(samples.site(number)))
        site = build(bench)
        sizes = [len(path.read_bytes()) for path in sorted(site.glob("r/*/index.html"))]
        assert len(sizes) == number
        editions = [len(path.read_bytes()) for path in sorted(site.glob("r/*/[123]/index.html"))]
        assert len(editions) == 3 * number
        whole[number] = sum(sizes)
        pages |= set(sizes)
        of_editions |= set(editions)
        fronts.add(len((site / "index.html").read_bytes()))
    assert len(pages) == len(fronts) == len(of_editions) == 1
    assert whole[200] == 2 * whole[100] == 4 * whole[50]


def test_the_menu_holds_the_pages_there_are_in_a_fixed_order(bench: Path, make: Make) -> None:
    menu = re.findall(r'<li><a href="([^"]*)"[^>]*>([^<]*)</a>', html(build(bench), "about"))
    assert menu == 2 * [("..", "Reports"), ("../m/", "Methods"), ("./", "About")]

    (bench / "reports" / "pages" / "about.md").unlink()
    make(replace(samples.site(), pages=(samples.page("index.md", "Reports", "# Reports\n"),)))
    menu = re.findall(r'<li><a href="([^"]*)"[^>]*>([^<]*)</a>', html(build(bench)))
    assert menu == 2 * [(".", "Reports")]


def test_a_bench_may_write_its_own_menu(bench: Path) -> None:
    with (bench / "mkdocs.yml").open("a", encoding="utf-8") as settings:
        settings.write("nav:\n  - Who I am: about.md\n  - More:\n    - Tests: index.md\n")
    menu = re.findall(r'<li><a href="([^"]*)"[^>]*>([^<]*)</a>', html(build(bench)))
    assert menu == 2 * [("about/", "Who I am"), (".", "Tests")]


# --- two sources, one address --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hand_written", "generated", "sources"),
    [
        (["a.md", "a/index.md"], [], ["a.md", "index.md"]),
        (["x/index.md"], ["x/index.md"], ["x/index.md", "generated x/index.md"]),
        (["B.md", "b.md"], [], ["B.md", "b.md"]),
        (
            [unicodedata.normalize("NFC", "prüfung.md"), unicodedata.normalize("NFD", "prüfung.md")],
            [],
            ["md"],
        ),
        ([], ["m.md"], ["generated m.md", "generated m/index.md"]),
    ],
    ids=[
        "file and folder",
        "generated and hand-written",
        "case",
        "composed and decomposed",
        "both generated",
    ],
)
def test_a_clash_of_addresses_stops_the_build(
    bench: Path, make: Make, hand_written: list[str], generated: list[str], sources: list[str]
) -> None:
    for name in hand_written:
        path = bench / "reports" / "pages" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("# Mine\n", encoding="utf-8")
    make(with_pages(*(samples.page(uri, "Ours", "# Ours\n") for uri in generated)))
    with pytest.raises(BuildRefused, match="would both be written to /") as refused:
        build(bench)
    assert all(source in str(refused.value) for source in sources)
    assert not list((bench / "site").rglob("index.html"))


@pytest.mark.parametrize(
    ("name", "address"),
    [
        ("compare.md", "compare/"),
        ("glossary/index.md", "glossary/"),
        ("i/extra.md", "i/extra/"),
        ("Changes.md", "Changes/"),
    ],
)
def test_a_hand_written_page_at_an_address_of_the_generated_ones_stops_the_build(
    bench: Path, name: str, address: str
) -> None:
    path = bench / "reports" / "pages" / name
    path.parent.mkdir(exist_ok=True)
    path.write_text("# Mine\n", encoding="utf-8")
    with pytest.raises(BuildRefused) as refused:
        build(bench)
    told = rf"reports/pages/{name} would be written to /{address}, an address of the generated pages"
    assert told in str(refused.value)
    assert not list((bench / "site").rglob("index.html"))


def test_a_page_and_a_download_may_not_share_an_address(bench: Path, make: Make) -> None:
    made = samples.site()
    make(replace(made, downloads=(*made.downloads, Download("r/Holders-0001/index.html", b"x"))))
    with pytest.raises(
        BuildRefused, match=r"generated r/Holders-0001/index\.html and .*would both be written"
    ):
        build(bench)


# --- fragments -----------------------------------------------------------------------------------------


def test_a_fragment_comes_out_byte_for_byte(bench: Path) -> None:
    page = (build(bench) / "r/holders-0001/index.html").read_bytes()
    assert page.count(b'<div data-slot="curves">' + samples.FRAGMENT.encode() + b"</div>") == 1


@pytest.mark.parametrize("slots", [{}, {"curves": "x", "bars": "y"}])
def test_slots_that_do_not_fit_stop_the_build_and_name_the_record(
    bench: Path, make: Make, slots: dict[str, str]
) -> None:
    record = bench / "reports" / "holders" / "report.yml"
    make(with_pages(replace(samples.report(9), slots=slots, record=record)))
    with pytest.raises(BuildRefused, match=r"report\.yml \(the page generated from it\): (slot|fragment) '"):
        build(bench)


def test_a_slot_in_a_hand_written_page_stops_the_build(bench: Path) -> None:
    about = bench / "reports" / "pages" / "about.md"
    about.write_text('# About\n\n<div data-slot="curves"></div>\n', encoding="utf-8")
    with pytest.raises(BuildRefused, match=r"about\.md: slot 'curves' has no fragment"):
        build(bench)


# --- faults in the records -----------------------------------------------------------------------------


def test_faults_in_records_are_told_whole_and_the_site_from_before_stays(
    bench: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = html(build(bench))
    record = bench / "reports" / "bench.yml"
    faults = [
        Fault(
            Place(record, 3, 3, "  ambiant: 22"), "conditions.ambiant", "unknown key", accepted=("ambient",)
        ),
        Fault(Place(record), "", "no reviewer"),
    ]

    def refuse(_: Path, **__: object) -> Site:
        raise RecordsRefused(faults, bench)

    monkeypatch.setattr(plugin, "generated", refuse)
    with pytest.raises(BuildRefused) as refused:
        build(bench)
    assert str(refused.value) == (
        "reports/bench.yml:3:3: conditions.ambiant: unknown key\n"
        "    accepted: ambient\n"
        "   3 |   ambiant: 22\n"
        "     |   ^\n"
        "reports/bench.yml: no reviewer\n"
        "2 faults"
    )
    assert html(bench / "site") == before


# --- dates, site map, canonical addresses --------------------------------------------------------------


def test_the_site_map_has_the_records_dates_and_no_unlisted_page(bench: Path, make: Make) -> None:
    old = samples.page("r/old/index.md", "Old", "# Old\n", updated="2025-01-05", listed=False)
    make(with_pages(old))
    site = build(bench)
    told = re.findall(
        r"<loc>https://slipway-bench\.example/(.*?)</loc>\s*<lastmod>(.*?)</lastmod>",
        (site / "sitemap.xml").read_text(encoding="utf-8"),
    )
    assert told == [
        ("about/", "2026-09-02"),
        ("", "2026-09-02"),
        ("m/closed-box-heating/", "2026-09-02"),
        ("m/", "2026-09-02"),
        ("r/holders-0001/", "2026-03-14"),
    ]
    assert (site / "r" / "old" / "index.html").is_file()
    assert not (site / "sitemap.xml.gz").exists()


def test_without_any_date_the_site_map_has_none(bench: Path, make: Make) -> None:
    made = samples.site(0)
    make(replace(made, newest=""))
    text = (build(bench) / "sitemap.xml").read_text(encoding="utf-8")
    assert "<loc>" in text
    assert "lastmod" not in text


def test_without_a_site_address_nothing_absolute_is_written(
    bench: Path, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings = bench / "mkdocs.yml"
    settings.write_text(
        samples.MKDOCS.replace("site_url: https://slipway-bench.example/\n", ""), encoding="utf-8"
    )
    monkeypatch.setattr(logging.getLogger("mkdocs.plugins.provebook"), "propagate", True)
    logging.getLogger("mkdocs.plugins.provebook").addHandler(caplog.handler)
    with caplog.at_level(logging.INFO, logger="mkdocs"):
        site = build(bench, strict=True)
    logging.getLogger("mkdocs.plugins.provebook").removeHandler(caplog.handler)
    assert "canonical" not in html(site, "r/holders-0001")
    assert "<loc>" not in (site / "sitemap.xml").read_text(encoding="utf-8")
    doubts = [each for each in caplog.records if "site_url" in each.getMessage()]
    assert [each.levelname for each in doubts] == ["INFO"]
    assert "doubt: " in doubts[0].getMessage()


# --- what stands around the content --------------------------------------------------------------------


def test_every_page_says_who_made_it_and_that_data_are_invented(bench: Path, make: Make) -> None:
    for demonstration in (True, False):
        make(samples.site(demonstration=demonstration))
        site = build(bench)
        for path in sorted(site.rglob("*.html")):
            text = path.read_text(encoding="utf-8")
            assert ("Demonstration data" in text) is demonstration, path
            assert f"Provebook {__version__}" in text
            assert "Material for MkDocs" not in text


def test_text_of_records_stays_text_in_head_and_header(bench: Path, make: Make) -> None:
    nasty = "</title><script>alert(1)</script> \"A&B\" 'c' <i>"
    made = samples.site()
    make(
        replace(
            made,
            title=nasty,
            pages=(*made.pages, samples.page("x.md", nasty.replace("'", ""), "No heading.\n")),
        )
    )
    for address in ("x", "r/holders-0001"):
        text = html(build(bench), address)
        assert "<script>" not in text
        assert "<i>" not in text
        assert "&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;" in text
        assert "&amp;lt;" not in text


def test_the_policy_stands_first_on_every_page(bench: Path) -> None:
    policy = "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:"
    first = f'<head>\\s*<meta http-equiv="Content-Security-Policy" content="{re.escape(policy)}">'
    pages = sorted(build(bench).rglob("*.html"))
    assert len(pages) == 6
    for path in pages:
        assert re.search(first, path.read_text(encoding="utf-8")), path


def test_a_benchs_own_templates_come_before_ours(bench: Path) -> None:
    partials = bench / "over" / "partials"
    partials.mkdir(parents=True)
    (partials / "footer.html").write_text("my own foot", encoding="utf-8")
    settings = samples.MKDOCS.replace("name: material", "name: material\n  custom_dir: over")
    (bench / "mkdocs.yml").write_text(settings, encoding="utf-8")
    assert "my own foot" in html(build(bench))


def test_nothing_is_written_but_the_site(bench: Path) -> None:
    before = {path: path.read_bytes() for path in bench.rglob("*") if path.is_file()}
    site = build(bench)
    after = {path: path.read_bytes() for path in bench.rglob("*") if path.is_file()}
    assert {path for path in after if not path.is_relative_to(site)} == set(before)
    assert all(after[path] == before[path] for path in before)
