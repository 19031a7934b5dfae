"""After edition 3 the pages of 1 and 2, as they are served: led away from by machines, read by people, unmoved."""

from __future__ import annotations

import re
import shutil
from hashlib import sha256
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from generator.host.build import build
from tests.history.benches import REPORT, amended

BASE = "https://your-bench.example/"
AROUND = (
    r'<div data-slot="notice">.*?</aside>\s*</div>',
    r'<ol class="editions".*?</ol>',
    r'<p class="changed">.*?</p>',
)
"""What later editions may change of an earlier one's page."""


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return amended(tmp_path_factory.mktemp("older") / "b")


@pytest.fixture(scope="module")
def site(bench: Path) -> Path:
    return build(bench)


def page(site: Path, address: str) -> str:
    return (site / address / "index.html").read_text(encoding="utf-8")


def frozen(site: Path, number: int) -> str:
    """The fingerprint of an edition's page without what stands around its content."""
    text = page(site, f"r/{REPORT}/{number}")
    for part in AROUND:
        text = re.sub(part, "", text, flags=re.DOTALL)
    return sha256(" ".join(text.split()).encode()).hexdigest()


def test_each_points_straight_to_the_report_and_not_to_the_next(site: Path) -> None:
    for address in (*(f"r/{REPORT}/{number}" for number in (1, 2, 3)), f"r/{REPORT}"):
        said = re.findall(r'<link rel="canonical" href="([^"]*)"', page(site, address))
        assert said == [f"{BASE}r/{REPORT}/"], address


def test_none_stands_in_the_map_or_the_search(site: Path) -> None:
    places = [each.text for each in ET.parse(site / "sitemap.xml").iter() if each.tag.endswith("}loc")]  # noqa: S314
    assert f"{BASE}r/{REPORT}/" in places
    assert [each for each in places if each and re.search(r"/r/[^/]+/\d+/", each)] == []
    searched = (site / "search/documents.json").read_text(encoding="utf-8")
    assert f'"r/{REPORT}/' in searched
    assert not re.search(r'"r/[^/"]+/\d+/', searched)


def test_a_notice_at_the_top_leads_on_and_the_history_leads_to_each(site: Path) -> None:
    for number in (1, 2):
        told = page(site, f"r/{REPORT}/{number}")
        assert told.index('<aside class="notice">') < told.index("<h1")
        assert f"Edition {number} of " in re.sub(r"&nbsp;|\u00a0|&#160;", " ", told)
    assert '<aside class="notice">' not in page(site, f"r/{REPORT}/3")
    listed = page(site, f"r/{REPORT}/history")
    assert all(f'href="../{number}/"' in listed for number in (1, 2, 3))


def test_their_content_has_the_fingerprint_that_it_had_before(
    bench: Path, site: Path, tmp_path: Path
) -> None:
    before = shutil.copytree(bench, tmp_path / "before", ignore=shutil.ignore_patterns("site"))
    (before / f"reports/{REPORT}/editions/3.yml").unlink()
    then = build(before)
    assert not (then / f"r/{REPORT}/3/index.html").exists()
    assert [frozen(then, number) for number in (1, 2)] == [frozen(site, number) for number in (1, 2)]
    assert page(then, f"r/{REPORT}/2") != page(site, f"r/{REPORT}/2"), "its notice is new"
