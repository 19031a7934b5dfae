"""Photos looked at before they are published: refused ones, and originals that tell too much."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.evaluation.pictured import with_photos
from generator.fault import message
from generator.records.bench import load
from tests.photos.pictures import heic_head, jpeg, png
from tests.records.laid import REPORT, good, laid

BEFORE = "photos: {ih30-lever.png: The lever of piece A at the end of its travel}"
AFTER = "photos: {ih30-lever.png: The lever of piece A at the end of its travel, rig.jpg: The rig}"


def _told(folder: Path, content: bytes) -> list[str]:
    """What is told of a new photo in the good bench."""
    laid(folder, {f"{REPORT}/report.yml": good(f"{REPORT}/report.yml", (BEFORE, AFTER))})
    bench = folder / "bench"
    (bench / "reports" / REPORT / "photos" / "rig.jpg").write_bytes(content)
    looked = with_photos(load(bench))
    return [message(each, bench).splitlines()[0] for each in (*looked.faults, *looked.doubts)]


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (heic_head(), "this is a HEIC picture, whatever its name; export it as JPEG, or install"),
        (jpeg(planted=False)[:-400], "the picture is broken or cut short"),
        (b"<svg/>", "an SVG is no photo and may hold scripts"),
        (b"", "not a picture that is read"),
    ],
    ids=["heic", "cut", "svg", "empty"],
)
def test_a_photo_that_cannot_be_published_is_a_fault_at_its_name(
    tmp_path: Path, content: bytes, what: str
) -> None:
    (told,) = _told(tmp_path, content)
    assert told.startswith(f"reports/{REPORT}/report.yml:17:73: photos.rig.jpg: {what}")


def test_an_original_with_a_place_is_a_doubt_that_names_what_would_do(tmp_path: Path) -> None:
    (told,) = _told(tmp_path, jpeg())
    assert told.startswith("doubt: ")
    assert "tells where it was taken and a serial number and a name" in told
    assert told.endswith(f"provebook strip reports/{REPORT}/photos/rig.jpg")


def test_an_original_that_tells_nothing_is_neither(tmp_path: Path) -> None:
    assert not _told(tmp_path, png(planted=False))


def test_of_what_an_edition_keeps_nothing_is_said(tmp_path: Path) -> None:
    """A photo under a published edition can't be changed any more."""
    bench = laid(tmp_path)
    kept = f"{REPORT}/photos/ih30-lever.png"
    assert any(kept in edition.rests_on for edition in bench.reports[REPORT].editions.values())
    (bench.root / "reports" / kept).write_bytes(jpeg())
    assert not with_photos(bench).doubts
