"""The feed of changes as it stands in a built site: an Atom document whose ids never change."""

from __future__ import annotations

import re
import shutil
import uuid
from datetime import datetime
from pathlib import Path
from urllib.parse import urlsplit
from xml.etree import ElementTree as ET

import pytest
from lxml import etree  # type: ignore[import-untyped]

from generator.host.build import build
from generator.pages.feed import NAMESPACE, urn
from tests.history.benches import amended, edited, published
from tests.host.links import faults as faults_of_links
from tests.host.links import read as read_pages
from tests.pages.rendered import Parsed

ATOM = "{http://www.w3.org/2005/Atom}"
XML = "{http://www.w3.org/XML/1998/namespace}"
GRAMMAR = Path(__file__).parents[1] / "published" / "atom.rng"
BASE = "https://your-bench.example/"


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return amended(tmp_path_factory.mktemp("feed") / "b")


@pytest.fixture(scope="module")
def site(bench: Path) -> Path:
    return build(bench)


@pytest.fixture(scope="module")
def feed(site: Path) -> ET.Element:
    return read(site)


def read(site: Path) -> ET.Element:
    return ET.parse(site / "changes.xml").getroot()  # noqa: S314  # our own


def text(element: ET.Element, name: str) -> str:
    found = element.findall(f"{ATOM}{name}")
    assert len(found) == 1, name
    return found[0].text or ""


def entries(feed: ET.Element) -> list[ET.Element]:
    return feed.findall(f"{ATOM}entry")


def ids(feed: ET.Element) -> list[str]:
    return [text(each, "id") for each in (feed, *entries(feed))]


def links(element: ET.Element, rel: str) -> list[str]:
    return [each.get("href", "") for each in element.findall(f"{ATOM}link") if each.get("rel") == rel]


def faults(feed: ET.Element, address: str) -> list[str]:
    """What RFC 4287 asks beyond its grammar, by section."""
    found = []
    every = [feed, *entries(feed)]
    if len(feed.findall(f"{ATOM}author")) != 1:
        found.append("4.1.1: author")
    if links(feed, "self") != [address]:
        found.append("4.1.1: self")
    alternates = [(each.get("type"), each.get("hreflang")) for each in feed.findall(f"{ATOM}link")]
    if len(alternates) != len(set(alternates)):
        found.append("4.1.1: two alternates of one type")
    for each in entries(feed):
        if len(links(each, "alternate")) != 1:
            found.append("4.1.2: an entry without content needs an alternate")
        if each.find(f"{ATOM}summary") is None:
            found.append("4.1.2: neither content nor summary")
    names = ids(feed)
    if len(names) != len(set(names)):
        found.append("4.2.6: ids")
    found += [f"4.2.6: {each}" for each in names if not urlsplit(each).scheme]
    for each in every:
        for link in each.findall(f"{ATOM}link"):
            parts = urlsplit(link.get("href", ""))
            if parts.scheme not in {"http", "https"} or not parts.netloc:
                found.append(f"2: {link.get('href')} is not absolute")
        when = text(each, "updated")
        if not re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(Z|[+-]\d\d:\d\d)", when):
            found.append(f"3.3: {when}")
        datetime.fromisoformat(when)
        if not text(each, "title").strip():
            found.append("4.2.14: an empty title")
    times = [text(each, "updated") for each in entries(feed)]
    if times != sorted(times, reverse=True) or text(feed, "updated") != max(times):
        found.append("4.2.15: updated")
    found += [f"2: {name}" for each in feed.iter() for name in each.attrib if name == f"{XML}base"]
    return found


def test_it_keeps_the_grammar_of_rfc_4287(site: Path) -> None:
    grammar = etree.RelaxNG(etree.parse(GRAMMAR))
    written = (site / "changes.xml").read_bytes()
    assert written.startswith(b'<?xml version="1.0" encoding="utf-8"?>\n<feed ')
    assert grammar.validate(etree.fromstring(written)), grammar.error_log
    for wrong in (
        (b"<id>urn", b"<di>urn"),
        (b"T00:00:00Z", b""),
        (b"<name>", b"<title>"),
        (b"<author>", b"<author>x"),
        (b' href="https', b' link="https'),
        (b"application/atom+xml", b"atom"),
        (b"</summary>", b"</summary><summary>again</summary>"),
        (b"</feed>", b"<title>last</title></feed>"),
    ):
        broken = written.replace(*wrong)
        assert broken != written
        parser = etree.XMLParser(recover=True)
        assert not grammar.validate(etree.fromstring(broken, parser)), wrong


def test_it_keeps_what_the_grammar_cannot_say(feed: ET.Element) -> None:
    assert faults(feed, f"{BASE}changes.xml") == []


@pytest.mark.parametrize(
    ("was", "now", "section"),
    [
        ("urn:uuid:", "", "4.2.6"),
        ("https://your-bench.example/r/", "/r/", "2"),
        ("2026-05-05T", "2026-01-01T", "4.2.15"),
        ("T00:00:00Z", "T00:00:00", "3.3"),
        ('rel="self"', 'rel="via"', "4.1.1"),
        (
            '<link rel="alternate" type="text/html" href="https://your-bench.example/r/',
            '<link href="',
            "4.1.2",
        ),
        ('xml:lang="en"', 'xml:lang="en" xml:base="https://x.example/"', "2"),
    ],
)
def test_a_broken_feed_would_be_found(site: Path, was: str, now: str, section: str) -> None:
    written = (site / "changes.xml").read_text(encoding="utf-8")
    assert was in written
    found = faults(ET.fromstring(written.replace(was, now)), f"{BASE}changes.xml")  # noqa: S314
    assert section in {each.partition(":")[0] for each in found}


def test_it_has_each_edition_but_those_of_wording_the_newest_first(feed: ET.Element) -> None:
    assert [links(each, "alternate")[0].removeprefix(BASE) for each in entries(feed)] == [
        "r/grey-lever/3/", "r/grey-lever/2/", "r/connectors-10a/2/", "r/grey-lever/1/", "r/connectors-10a/1/",
    ]  # fmt: skip
    assert [text(each, "updated") for each in entries(feed)][0] == "2026-05-05T00:00:00Z"
    titles = [text(each, "title") for each in entries(feed)]
    assert titles[0] == "Withdrawn. Is the connector with the grey lever as cool?"
    assert titles[1] == "Retest: it changed. Is the connector with the grey lever as cool?"
    assert titles[2].startswith("Correction: we were wrong. ")
    assert titles[4].startswith("First published. ")


def test_an_entry_tells_what_changed_and_who_got_the_pieces(feed: ET.Element) -> None:
    told = [" ".join(text(each, "summary").split()) for each in entries(feed)]
    assert told[1].startswith(
        "A third & <last> piece. Halvenor C2, Hotter than the air: 19 ± 13 °C (34 ± 23 °F)"
    )
    assert re.search(
        r" °C \(\S+ ± \S+ °F\) above the air → \S+ ± \S+ °C .*, 3 pieces, a difference of", told[1]
    )
    assert told[1].endswith(
        "I bought 2 of the 3 pieces. One piece was sent to me by Halvenor. No link on this page earns me money."
    )
    assert "Choice: Halvenor C2 → Quorsby Q2." in told[2]


def test_a_figure_that_crossed_a_limit_is_told_so_in_the_feed_and_at_the_top(demo: Path) -> None:
    """In the units of the claim: both figures, what was said of it and what is."""
    address = "https://slipway-bench.example/r/fuse-holders-30a/2/"
    (entry,) = (each for each in entries(read(demo)) if address in links(each, "alternate"))
    told = " ".join(text(entry, "summary").split())
    figure = r"\d[\d.]* ± \d[\d.]* °C \(\d[\d.]* ± \d[\d.]* °F\) above the air"
    assert re.search(rf"Okvarn IH30, [^:]*: {figure} → {figure}, .*; too close to call → over the limit", told)
    page = Parsed((demo / "r/fuse-holders-30a/index.html").read_text("utf-8"))
    (said,) = page.all("p", class_="changed")
    assert "Okvarn IH30 was too close to call then; it is over the limit now." in said.text
    first = next(each for each in page.elements if "figure" in each.attributes.get("class", "").split())
    assert page.elements.index(said) < page.elements.index(first)
    history = Parsed((demo / "r/fuse-holders-30a/history/index.html").read_text("utf-8")).text
    assert "too close to call → over the limit" in history


def test_every_address_in_it_is_a_page_and_every_link_of_the_site_leads_somewhere(
    site: Path, feed: ET.Element
) -> None:
    """Older and withdrawn editions, histories and changes among them."""
    for each in (feed, *entries(feed)):
        for address in links(each, "alternate"):
            assert (site / address.removeprefix(BASE) / "index.html").is_file(), address
    pages = read_pages(site)
    assert {f"r/connectors-10a/{number}/" for number in (1, 2, 3)} <= set(pages)
    assert {"r/grey-lever/1/", "r/grey-lever/history/", "changes/"} <= set(pages)
    assert faults_of_links(site) == []


def test_ids_are_those_that_a_library_makes() -> None:
    known = uuid.uuid5(uuid.UUID(bytes=NAMESPACE), "connectors-10a/1/1:00")
    assert urn("connectors-10a/1/1:00") == known.urn
    assert known.version == 5


def test_every_page_names_it_and_the_address_is_the_files(site: Path) -> None:
    for page in site.rglob("*.html"):
        tags = re.findall(
            r'<link rel="alternate" type="application/atom\+xml"[^>]*href="([^"]*)"', page.read_text("utf-8")
        )
        if page.name != "404.html":
            assert [(page.parent / each).resolve() for each in tags] == [(site / "changes.xml").resolve()], (
                page
            )


def test_another_name_and_another_base_keep_ids_and_addresses(
    bench: Path, feed: ET.Element, tmp_path: Path
) -> None:
    moved = shutil.copytree(bench, tmp_path / "moved", ignore=shutil.ignore_patterns("site"))
    edited(moved / "mkdocs.yml", ("https://your-bench.example/", "https://elsewhere.example/tests/"))
    edited(
        moved / "reports/bench.yml",
        ("site-address: https://your-bench.example/", "site-address: https://elsewhere.example/tests/"),
        ("reviewer: The name of your bench", "reviewer: Another name"),
    )
    then = read(build(moved))
    assert faults(then, "https://elsewhere.example/tests/changes.xml") == []
    assert ids(then) == ids(feed)
    assert text(then.find(f"{ATOM}author"), "name") == "Another name"  # type: ignore[arg-type]
    there = [
        links(each, "alternate")[0].removeprefix("https://elsewhere.example/tests/") for each in entries(then)
    ]
    assert there == [links(each, "alternate")[0].removeprefix(BASE) for each in entries(feed)]


def test_an_amendment_is_exactly_one_new_entry(
    bench: Path, feed: ET.Element, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    more = shutil.copytree(bench, tmp_path / "more", ignore=shutil.ignore_patterns("site"))
    monkeypatch.chdir(more)
    edited(more / "reports/connectors-10a/report.yml", ("choice: quorsby-q2", "choice: halvenor-c2"))
    done = published("connectors-10a", "--reason", "correction", "--summary", "Back.", "--date", "2026-06-01")
    assert done.exit_code == 0, done.output
    then = read(build(more))
    assert ids(then)[0] == ids(feed)[0]
    assert ids(then)[2:] == ids(feed)[1:]
    assert [ET.tostring(each) for each in entries(then)[1:]] == [ET.tostring(each) for each in entries(feed)]


def test_without_an_address_or_an_edition_there_is_none(bench: Path, tmp_path: Path) -> None:
    bare = shutil.copytree(bench, tmp_path / "bare", ignore=shutil.ignore_patterns("site"))
    edited(bare / "mkdocs.yml", ("site_url: https://your-bench.example/\n", ""))
    site = build(bare)
    assert not (site / "changes.xml").exists()
    assert "atom+xml" not in (site / "index.html").read_text("utf-8")
    for editions in bare.glob("reports/*/editions"):
        shutil.rmtree(editions)
    edited(bare / "mkdocs.yml", ("docs_dir", "site_url: https://your-bench.example/\ndocs_dir"))
    site = build(bare)
    assert not (site / "changes.xml").exists()
    assert "Nothing has been published yet" in (site / "changes/index.html").read_text("utf-8")
