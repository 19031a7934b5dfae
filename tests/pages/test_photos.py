"""Photos on the pages of a report: where they stand, in which words, and what their files hold."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from lxml import html  # type: ignore[import-untyped]

from generator.fault import RecordsRefused
from generator.pages.photos import album
from generator.pages.site import Page, Site
from generator.records.bench import Bench, load
from tests.pages.sites import made
from tests.photos.pictures import PLANTED, corners, heic_head, jpeg
from tests.records.laid import REPORT, good, laid

LEVER = "The lever of piece A at the end of its travel"
RIG = 'The rig from above, box <open> & "lit"'


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    """The good bench without its edition, with a photo of the rig beside the one of a lever."""
    before = f"photos: {{ih30-lever.png: {LEVER}}}"
    after = f"photos:\n  ih30-lever.png: {LEVER}\n  Das Gerät.jpg: '{RIG}'"
    edition = f"{REPORT}/editions/1.yml"
    laid(tmp_path, {f"{REPORT}/report.yml": good(f"{REPORT}/report.yml", (before, after)), edition: None})
    folder = tmp_path / "bench"
    photos = folder / "reports" / REPORT / "photos"
    (photos / "ih30-lever.png").write_bytes(jpeg(corners(1000, 700), orientation=1))
    (photos / "Das Gerät.jpg").write_bytes(jpeg(corners(2400, 1800)))
    return load(folder)


def _page(site: Site) -> Page:
    return next(page for page in site.pages if page.uri == f"r/{REPORT}/index.md")


def test_a_photo_stands_on_the_card_of_its_item_and_the_rig_with_the_method(bench: Bench) -> None:
    of = album(bench, bench.reports[REPORT])
    assert {key: [shot.file for shot in shots] for key, shots in of.items.items()} == {
        "okvarn-ih30": ["ih30-lever.png"]
    }
    assert [shot.file for shot in of.rig] == ["Das Gerät.jpg"]
    slots = _page(made(bench)).slots
    assert LEVER in slots["photos-1"]
    assert "photos-rig" in slots
    assert "photos-2" not in slots


def test_a_picture_has_its_size_its_words_and_waits_until_it_is_near(bench: Bench) -> None:
    (picture,) = html.fragment_fromstring(_page(made(bench)).slots["photos-rig"]).iter("img")
    assert dict(picture.attrib) | {"src": "", "srcset": ""} == {
        "src": "",
        "srcset": "",
        "sizes": "(min-width: 900px) 440px, calc(100vw - 60px)",
        "width": "1600",
        "height": "1200",
        "alt": RIG,
        "loading": "lazy",
        "decoding": "async",
    }
    assert [each.split()[1] for each in picture.get("srcset", "").split(", ")] == ["400w", "800w", "1600w"]


def test_every_picture_that_a_page_names_is_a_file_of_the_site(bench: Bench) -> None:
    site = made(bench)
    there = {file.uri for file in site.downloads}
    named = set()
    for fragment in (_page(site).slots["photos-1"], _page(site).slots["photos-rig"]):
        for each in html.fragment_fromstring(fragment).iter("img"):
            named |= {part.split()[0] for part in each.get("srcset", "").split(", ")}
    assert len(named) == 6
    assert {f"r/{REPORT}/{name}" for name in named} <= there


def test_no_file_of_the_site_holds_what_an_original_told(bench: Bench) -> None:
    for file in made(bench).downloads:
        assert not [word for word in PLANTED if word.encode() in file.content], file.uri
    assert not [file.uri for file in made(bench).downloads if file.uri.endswith((".png", "Gerät.jpg"))]


def test_a_photo_that_cannot_be_published_stops_the_build_and_all_are_told(bench: Bench) -> None:
    photos = bench.reports[REPORT].folder / "photos"
    for name in ("ih30-lever.png", "Das Gerät.jpg"):
        (photos / name).write_bytes(heic_head())
    with pytest.raises(RecordsRefused) as refused:
        made(bench)
    assert [each.found for each in refused.value.faults] == ["HEIC", "HEIC"]


def test_a_photo_that_is_gone_is_told_where_it_is_named(bench: Bench) -> None:
    (bench.reports[REPORT].folder / "photos" / "Das Gerät.jpg").unlink()
    with pytest.raises(RecordsRefused) as refused:
        made(bench)
    (fault,) = refused.value.faults
    assert fault.path == "photos.Das Gerät.jpg"
    assert "can't be read" in fault.what


def test_a_report_without_photos_has_no_place_for_them(bench: Bench) -> None:
    report = bench.reports[REPORT]
    bare = replace(report, record=report.record.model_copy(update={"photos": {}}))
    slots = _page(made(replace(bench, reports={REPORT: bare}))).slots
    assert not [name for name in slots if name.startswith("photos-")]
