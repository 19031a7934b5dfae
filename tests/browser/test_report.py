"""The demo report in a reader's browser: with scripts and without, on a phone and on a desk."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from generator.host.build import build
from generator.host.chrome import POLICY
from tests.browser.conftest import Open, Serve
from tests.browser.test_host import BUDGET, wire_bytes
from tests.site import hostile

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
REPORT = "r/fuse-holders-30a/"
SOCKETS = "r/panel-sockets-12v/"
TERMINALS = "r/ring-terminals-m6/"
PAGES = [
    "",
    REPORT,
    REPORT + "1/",
    REPORT + "1/how/okvarn-ih30/",
    SOCKETS,
    SOCKETS + "2/how/ulmspar-u20/",
    TERMINALS,
    TERMINALS + "1/how/dorvekk-r6/",
    "compare/",
    "i/grenlo-30/",
    "i/pallsto-f30/",
    "i/dorvekk-r6/",
    "i/skavrint-p12/",
    "glossary/",
    "corrections/",
    "m/closed-box-heating/",
    "m/closed-box-heating/2/",
    "m/socket-heating-15a/2/",
    "m/crimp-pull/1/",
    "m/crimp-resistance/1/",
    "about/",
]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(ROOT, strict=True, site_dir=tmp_path_factory.mktemp("demo") / "site")


@pytest.fixture(scope="module")
def base(site: Path, serve_folder: Serve) -> str:
    return serve_folder(site, headers={"Content-Security-Policy": POLICY})


def spaced(text: str | None) -> str:
    """A page's text with plain spaces."""
    return (text or "").replace("\u00a0", " ").replace("\u202f", " ")


def test_the_policy_is_the_promised_one() -> None:
    assert POLICY == "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:"


@pytest.mark.parametrize("address", PAGES)
def test_no_request_leaves_the_site_and_no_rule_is_broken(open_page: Open, base: str, address: str) -> None:
    visit = open_page(base + address)
    assert visit.hosts() == {urlsplit(base).netloc}
    assert visit.violations() == []
    assert visit.troubles == []


def test_without_scripts_chart_figures_and_units_are_there(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, scripts=False).page
    text = spaced(page.text_content("article"))
    for words in ("Tessvik T30", "±", "°C", "°F", "pieces", "minutes at 30 A", "Not a certificate"):
        assert words in text
    curves = page.locator("svg.still .curves path")
    drawn = [box for box in (curves.nth(number).bounding_box() for number in range(curves.count())) if box]
    assert len(drawn) >= 6
    assert any(box["width"] > 150 and box["height"] > 20 for box in drawn)
    ticks = page.locator("svg.still text:visible")
    assert ticks.count() >= 10


@pytest.mark.parametrize("address", PAGES)
def test_the_first_view_is_light(open_page: Open, site: Path, base: str, address: str) -> None:
    sizes = wire_bytes(site, open_page(base + address), "/")
    assert sum(sizes.values()) <= BUDGET, sizes
    # The theme's own worker and the documents; what stands in for them until the first letter is small.
    assert not [path for path in sizes if "documents.json" in path or "workers/" in path]
    stand_ins = [size for path, size in sizes.items() if "search" in path]
    assert sum(stand_ins) <= 2048


@pytest.mark.parametrize("address", PAGES)
def test_nothing_scrolls_sideways(open_page: Open, base: str, address: str) -> None:
    page = open_page(base + address, width=320).page
    page.evaluate("for (const each of document.querySelectorAll('details')) each.open = true")
    for width in (320, 360, 390, 768, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_caution_takes_at_most_four_lines_on_a_phone(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, width=360).page
    box = page.locator(".caution").first.bounding_box()
    assert box is not None
    # 22 px a line, with the padding and the rule of its box.
    assert box["height"] <= 4 * 22 + 2 * 14


def test_disclosure_and_caution_come_before_the_first_figure(open_page: Open, base: str) -> None:
    text = spaced(open_page(base + REPORT).page.text_content("article"))
    assert text.index("I bought all ") < text.index("Which 30 A") < text.index("±")
    assert text.index("Warning") < text.index("±")


def test_without_scripts_each_file_to_take_away_is_there(open_page: Open, base: str) -> None:
    page = open_page(base + REPORT, scripts=False).page
    links = page.locator("a[download]").all()
    parcel, *tables = (each.inner_text() for each in links)
    assert re.fullmatch(r"fuse-holders-30a-edition-\d+\.zip", parcel)
    assert tables == [
        "readings.csv",
        "results.csv",
        "pairs.csv",
        "limits.csv",
        "counts.csv",
        "prices.csv",
        "older.csv",
    ]
    for each in links[1:]:
        answer = page.request.get(each.evaluate("each => each.href"))
        assert (answer.status, answer.headers["content-type"]) == (200, "text/csv")
        assert answer.body().count(b"\r\n") >= 5  # headings, and four rows of the shortest


def test_a_phone_shows_the_disclosure_with_the_answer_below_it(open_page: Open, base: str) -> None:
    """16 CFR 255.0(f): where it is hard to miss, before what it is about."""
    page = open_page(base + REPORT, width=360, height=640).page
    boxes = [page.locator(each).first.bounding_box() for each in (".disclosure", "h1", ".answer")]
    tops = [box["y"] for box in boxes if box]
    assert len(tops) == 3
    assert tops == sorted(tops)
    assert boxes[0] is not None
    assert boxes[0]["y"] + boxes[0]["height"] < 200


def test_text_from_records_runs_nothing(open_page: Open, serve_folder: Serve, tmp_path: Path) -> None:
    hostile.write(tmp_path / "bench")
    base = serve_folder(build(tmp_path / "bench", drafts=True))
    for address in ("", "r/r1/", "m/heat/1/"):
        visit = open_page(base + address)
        assert visit.violations() == []
        assert visit.troubles == []
